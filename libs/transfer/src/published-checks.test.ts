import { refrigerant } from '@brimline/refrigerants';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boilOff, leastConductance } from './boil-off.ts';
import { criticalMassFluxNumber, flashingFlow, omegaParameter } from './flashing-flow.ts';
import * as friction from './friction-factor.ts';
import { internalVolumeFromCharge } from './internal-volume.ts';
import { liquidFlow, pressureLoss, staticHead } from './liquid-flow.ts';
import {
  ballValveLoss,
  contractionLoss,
  enlargementLoss,
  reducedPortBallValveLoss,
  turbulentFrictionFactor,
} from './loss-coefficients.ts';
import { CYLINDER_AIR_W_K, vapourPreCharge } from './pre-charge.ts';
import { vapourRecovery } from './vapour-recovery.ts';
import { equaliseTransfer, selfCooling, temperatureAfterVapourDraw } from './equalise.ts';
import { hosePath, valveCore } from './hose-path.ts';
import { areaOf } from './path-resistance.ts';

const LB_MIN = 0.45359237 / 60;
const PSI = 6894.757;
const r134a = refrigerant('R-134a');
const relative = (value: number, expected: number): number => Math.abs(value / expected - 1);

// Published: docstrings and solved problems of fluids 1.3.1 (open-source library by C. Bell).
describe('friction and losses against published worked values', () => {
  it.each([
    ['Colebrook', () => friction.frictionFactorColebrook(1e5, 1e-4), 0.01851386608, 1e-6],
    ['Haaland', () => friction.frictionFactorHaaland(1e5, 1e-4), 0.01826505301, 1e-6],
    ['Churchill', () => friction.frictionFactorChurchill(1e5, 1e-4), 0.01846262457, 1e-6],
    [
      'Churchill in laminar flow, 64/Re exactly',
      () => friction.frictionFactorChurchill(1500, 0.001),
      64 / 1500,
      2e-4,
    ],
    [
      'Colebrook, 10 um in 9.5 mm (computed independently with mpmath)',
      () => friction.frictionFactorColebrook(4e4, 1.0526316e-3),
      0.0249365053,
      1e-5,
    ],
    ['sudden contraction', () => contractionLoss(2, 3), 0.2777778, 1e-6],
    ['sudden enlargement', () => enlargementLoss(0.5, 1), 0.5625, 1e-9],
    ['turbulent factor, 12.7 mm', () => turbulentFrictionFactor(0.0127), 0.02714119, 0.01],
    ['full-bore ball valve', () => ballValveLoss(0.0127), 0.08142357, 0.01],
    ['reduced-port ball valve', () => reducedPortBallValveLoss(0.7 * 0.0127, 0.0127), 2.48448, 0.01],
    // That library writes (6.97/Re)^0.9 for 5.74/Re^0.9: a difference of 1e-6.
    ['Swamee and Jain', () => friction.frictionFactorSwameeJain(1e5, 1e-4), 0.01845242443, 2e-6],
    [
      'loss of a K of 10 at 3 m/s in water',
      () =>
        pressureLoss(
          [{ bore_m: 0.1, length_m: 0, roughness_m: 0, lossCoefficient: 10 }],
          3 * 1000 * areaOf(0.1),
          { density_kg_m3: 1000, viscosity_Pa_s: 1e-3 },
        ),
      45_000,
      1e-9,
    ],
    [
      'single-phase loss in a smooth pipe',
      () =>
        pressureLoss([{ bore_m: 0.1, length_m: 1, roughness_m: 0, lossCoefficient: 0 }], 10, {
          density_kg_m3: 1000,
          viscosity_Pa_s: 1e-5,
        }),
      63.43447321,
      0.01,
    ],
    [
      'Crane example 7.1, smooth 50 mm pipe (TP-410M, as quoted in a notebook of that library)',
      () => friction.frictionFactorChurchill(100_600, 0),
      0.0179,
      0.01,
    ],
    [
      'head loss of oil in cast iron (computed independently with mpmath; White, Fluid Mechanics, about 117 m, from memory)',
      () =>
        pressureLoss([{ bore_m: 0.2, length_m: 500, roughness_m: 0.26e-3, lossCoefficient: 0 }], 0.2 * 900, {
          density_kg_m3: 900,
          viscosity_Pa_s: 9e-3,
        }) /
        (900 * 9.80665),
      117.3924899,
      0.01,
    ],
    ['static head', () => staticHead(1210.5, 3), 35612.84947, 1e-4],
  ] as const)('%s', (_, value, expected, tolerance) => {
    expect(relative(value(), expected)).toBeLessThan(tolerance);
  });
});

describe('liquid through a hose', () => {
  // Computed independently with mpmath (Colebrook) and scipy brentq.
  it.each([
    [3, 0.0095, 8, 5, 22.13767378],
    [10, 0.0095, 8, 10, 21.6588957],
    [3, 0.0127, 8, 5, 42.7387941],
    [3, 0.0064, 8, 10, 12.5345554],
    [6, 0.019, 10, 5, 85.84783938],
  ])('%s m of %s m bore, K %s, %s psi', (length_m, bore_m, lossCoefficient, psi, expected_lb_min) => {
    const { massFlow_kg_s } = liquidFlow({
      density_kg_m3: 1210.5,
      viscosity_Pa_s: 195e-6,
      pressureDifference_Pa: psi * PSI,
      path: [{ bore_m, length_m, roughness_m: 1e-5, lossCoefficient }],
    });
    expect(relative(massFlow_kg_s / LB_MIN, expected_lb_min)).toBeLessThan(0.02);
  });

  it('has the Reynolds number of its first piece, and grows with bore and pressure, not with length', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.003, max: 0.05, noNaN: true }),
        fc.double({ min: 0.5, max: 30, noNaN: true }),
        fc.double({ min: 50, max: 1e6, noNaN: true }),
        (bore_m, length_m, pressureDifference_Pa) => {
          const at = (bore: number, length: number, difference: number) =>
            liquidFlow({
              density_kg_m3: 1200,
              viscosity_Pa_s: 2e-4,
              pressureDifference_Pa: difference,
              path: [{ bore_m: bore, length_m: length, roughness_m: 1e-5, lossCoefficient: 4 }],
            });
          const base = at(bore_m, length_m, pressureDifference_Pa);
          expect(relative((1200 * base.velocity_m_s * bore_m) / 2e-4, base.reynolds)).toBeLessThan(1e-9);
          expect(at(bore_m * 1.1, length_m, pressureDifference_Pa).massFlow_kg_s).toBeGreaterThan(
            base.massFlow_kg_s,
          );
          expect(at(bore_m, length_m * 1.1, pressureDifference_Pa).massFlow_kg_s).toBeLessThan(
            base.massFlow_kg_s,
          );
          expect(at(bore_m, length_m, pressureDifference_Pa * 1.1).massFlow_kg_s).toBeGreaterThan(
            base.massFlow_kg_s,
          );
        },
      ),
      { numRuns: 60 },
    );
  });

  it('a valve core in series', () => {
    // Computed independently with scipy: area 5 mm2, discharge coefficient 0.62.
    const path = [{ bore_m: 0.0064, length_m: 3, roughness_m: 1e-5, lossCoefficient: 8 }, valveCore()];
    const { massFlow_kg_s } = liquidFlow({
      density_kg_m3: 1210.5,
      viscosity_Pa_s: 195e-6,
      pressureDifference_Pa: 10 * PSI,
      path,
    });
    expect(relative(massFlow_kg_s / LB_MIN, 4.856233575)).toBeLessThan(0.02);
  });
});

describe('losses on their own', () => {
  // Computed independently with fluids 1.3.1: K of 10 at 1.5 m/s takes 1.14718074 m of head.
  it('take velocity heads', () => {
    const bore_m = 0.02;
    const path = [{ bore_m, length_m: 0, roughness_m: 0, lossCoefficient: 10 }];
    const massFlow = 1000 * areaOf(bore_m) * 1.5;
    const loss_Pa = pressureLoss(path, massFlow, { density_kg_m3: 1000, viscosity_Pa_s: 1e-3 });
    expect(relative(loss_Pa / (1000 * 9.80665), 1.14718074)).toBeLessThan(1e-6);
  });

  // Published: Crane TP-410 example 7.13 as solved in fluids 1.3.1: 66.5 kPa, the friction factor given.
  it('carry fuel oil through 100 ft of 2 in pipe', () => {
    const bore_m = 0.0525;
    const path = [{ bore_m, length_m: 0, roughness_m: 0, lossCoefficient: (0.023 * 30.48) / bore_m }];
    const density_kg_m3 = 0.815 * 999.1;
    const massFlow = 2 * 0.003785411784 * density_kg_m3;
    const loss_Pa = pressureLoss(path, massFlow, { density_kg_m3, viscosity_Pa_s: 1e-3 });
    expect(relative(loss_Pa, 66_500)).toBeLessThan(0.01);
  });

  // Exact: 64/1500; Churchill's formula comes to it within 0.02 %, computed independently.
  it('are laminar below the transition', () => {
    expect(relative(friction.frictionFactorLaminar(1500), 0.04266666667)).toBeLessThan(1e-9);
    expect(relative(friction.frictionFactorChurchill(1500, 0.001), 0.04266666667)).toBeLessThan(2e-4);
  });

  // Published: fluids 1.3.1: Haaland less Colebrook at Re = 4e4, e/D = 1.0526316e-3 is -1.234 % of it.
  it('show how far Haaland stands from Colebrook', () => {
    const [haaland, colebrook] = [
      friction.frictionFactorHaaland(4e4, 1.0526316e-3),
      friction.frictionFactorColebrook(4e4, 1.0526316e-3),
    ];
    expect(Math.abs(haaland / colebrook - 1 + 0.01234391753)).toBeLessThan(1e-6);
  });
});

describe('saturated liquid that flashes', () => {
  // Computed independently with scipy; state: R-134a Helmholtz equation.
  it('has the swelling parameter, flux numbers and fluxes of the omega method', () => {
    const omega = omegaParameter({
      temperature_K: 297.15,
      pressure_Pa: 645780,
      liquidDensity_kg_m3: 1210.48,
      vapourDensity_kg_m3: 31.389,
      latentHeat_J_kg: 178700,
      liquidHeatCapacity_J_kgK: 1425,
    });
    expect(relative(omega, 9.981554913)).toBeLessThan(0.01);
    expect(relative(criticalMassFluxNumber(10), 0.2683410397)).toBeLessThan(0.005);
    // Analytic limit: exp(-1/2) at omega = 1.
    expect(relative(criticalMassFluxNumber(1), 0.6065306597)).toBeLessThan(0.02);
    const flux = (resistance: number) =>
      flashingFlow({ omega: 9.98, pressure_Pa: 645780, density_kg_m3: 1210.48, resistance });
    expect(relative(flux(0), 7508.247763)).toBeLessThan(0.02);
    expect(relative(flux(10), 4052.461223)).toBeLessThan(0.03);
  });
});

const machine = (lb_min: number, clearance = true) => ({
  vapourRate_kg_s: lb_min * LB_MIN,
  directLiquidRate_kg_s: 0.05,
  ratingRefrigerant: 'R-134a',
  finalVacuum_Pa: clearance ? 645780 * (0.05 / 1.05) ** 1.1 : 1e-3,
  cooler_W_K: 0,
});

describe('vapour recovery', () => {
  const job = { refrigerant: r134a, volume_m3: 2, temperature_K: 297.15, endPressure_Pa: 67460 };

  it('without clearance loss takes V/V0 ln(rho1/rho2)', () => {
    // Computed independently: exact, 333.27 min and 62.778 kg at the start.
    const result = vapourRecovery({ ...job, machines: [machine(1, false)] });
    expect(result.ok && relative(result.value.time_s / 60, 333.2659966)).toBeLessThan(0.005);
    expect(result.ok && relative(result.value.start_kg, 62.77816746)).toBeLessThan(0.005);
  });

  it('with clearance loss agrees with fine-step integration', () => {
    // Computed independently with scipy quad, efficiency 1 at the start: 384.8 min; here the rating carries no such factor.
    const result = vapourRecovery({ ...job, machines: [machine(1)], dischargePressure_Pa: 700_000 });
    const efficiencyAtStart = 1 - 0.05 * ((700_000 / 645_780) ** (1 / 1.1) - 1);
    expect(result.ok && relative((result.value.time_s / 60) * efficiencyAtStart, 384.8145284)).toBeLessThan(
      0.02,
    );
  });

  it('is halved by a second machine and refuses a level below its stall', () => {
    const [one, two] = [1, 2].map((count) =>
      vapourRecovery({ ...job, machines: Array.from({ length: count }, () => machine(1)) }),
    );
    expect(one!.ok && two!.ok && relative(two!.value.time_s, one!.value.time_s / 2)).toBeLessThan(1e-9);
    const refused = vapourRecovery({ ...job, endPressure_Pa: 5_000, machines: [machine(1)] });
    expect(refused).toMatchObject({ ok: false, problems: [{ code: 'below-final-vacuum' }] });
  });

  it('keeps the mass: what the curve loses is what was there less what is left, ever later and lower', () => {
    const result = vapourRecovery({ ...job, machines: [machine(1)] });
    if (!result.ok) throw new Error('unreachable');
    const { curve, start_kg, left_kg } = result.value;
    expect(curve[0]!.mass_kg).toBeCloseTo(start_kg, 9);
    expect(curve.at(-1)!.mass_kg).toBeCloseTo(left_kg, 9);
    for (const [index, point] of curve.slice(1).entries()) {
      expect(point.time_s).toBeGreaterThan(curve[index]!.time_s);
      expect(point.mass_kg).toBeLessThan(curve[index]!.mass_kg);
      expect(point.pressure_Pa).toBeLessThan(curve[index]!.pressure_Pa);
    }
  });
});

describe('boil-off and freeze protection', () => {
  // Computed independently with scipy brentq.
  const boil = (lb_min: number, conductance_W_K: number) =>
    boilOff({
      refrigerant: r134a,
      machines: [machine(lb_min, false)],
      conductance_W_K,
      heatSource_K: 297.15,
      freezingPoint_K: 273.15,
    });

  it('finds the boiling temperature, the rate and the hazard', () => {
    expect(Math.abs(boil(1, 200).evaporation_K - 273.15 - 18.18551048)).toBeLessThan(0.3);
    expect(relative(boil(1, 200).massFlow_kg_s / LB_MIN, 0.8366180658)).toBeLessThan(0.02);
    expect(Math.abs(boil(3, 50).evaporation_K - 273.15 + 7.990096106)).toBeLessThan(0.5);
    expect(boil(3, 50).freezing).toBe('hazard');
    expect(boil(1, 200).freezing).toBe('none');
    expect(relative(leastConductance(r134a, [machine(3)], 297.15, 273.15), 86.26703712)).toBeLessThan(0.01);
  });

  it('asks for the vapour that lifts the machine above freezing', () => {
    // Computed independently: Helmholtz equations; rhoV(2 degC) V.
    const charge = (name: string, volume_m3: number) =>
      vapourPreCharge({
        refrigerant: refrigerant(name),
        volume_m3,
        freezingPoint_K: 273.15,
        ambient_K: 297.15,
        cylinders: [{ liquid_kg: 45.4, steel_kg: 25 }],
        lineFlow_kg_s: 0.02,
      });
    expect(relative(charge('R-123', 3).mass_kg, 7.318762625)).toBeLessThan(0.005);
    expect(relative(charge('R-134a', 2).mass_kg, 30.9)).toBeLessThan(0.005);
    expect(charge('R-134a', 2).limitedBy).toBe('the heat into the cylinders');
    expect(CYLINDER_AIR_W_K).toBeGreaterThan(0);
  });

  it('fills 2 m3 with vapour up to a saturation of 0 degC', () => {
    // Computed independently with the fluid's equation of state: 14.428 kg/m3 at 0 degC; 2 K of margin taken off.
    const { mass_kg } = vapourPreCharge({
      refrigerant: r134a,
      volume_m3: 2,
      freezingPoint_K: 271.15,
      ambient_K: 297.15,
      cylinders: [],
      lineFlow_kg_s: 1,
    });
    expect(relative(mass_kg, 28.85640281)).toBeLessThan(0.003);
  });

  it('feeds vapour as fast as still air warms a cylinder', () => {
    // Computed independently: 12 W/K x 15 K / 191.55 kJ/kg (latent heat at 9 degC) = 0.05638 kg/min.
    const { mass_kg, time_s } = vapourPreCharge({
      refrigerant: r134a,
      volume_m3: 2,
      freezingPoint_K: 271.15,
      ambient_K: 291.15,
      cylinders: [],
      conductance_W_K: 12,
      lineFlow_kg_s: 1,
    });
    expect(relative((mass_kg / time_s) * 60, 0.05638149306)).toBeLessThan(0.01);
  });

  it('says when the air is too cold to feed vapour from', () => {
    const at = (ambient_K: number) =>
      vapourPreCharge({
        refrigerant: r134a,
        volume_m3: 2,
        freezingPoint_K: 273.15,
        ambient_K,
        cylinders: [{ liquid_kg: 40, steel_kg: 25 }],
        lineFlow_kg_s: 0.02,
      });
    expect(at(297.15).needsHeating).toBe(false);
    expect(at(276.15).needsHeating).toBe(true);
  });

  it('knows how a cylinder cools as vapour or liquid leaves it', () => {
    // Computed independently: numeric integration and exact; cL 1425 there, 1420.5 here.
    const after = temperatureAfterVapourDraw(r134a, {
      liquid_kg: 45.4,
      steel_kg: 25,
      start_K: 297.15,
      drawn_kg: 5,
    });
    expect(Math.abs(after - 273.15 - 11.30836142)).toBeLessThan(0.4);
    expect(relative(selfCooling(r134a, 297.15), 3.251877003)).toBeLessThan(0.01);
  });

  it('moves liquid by a difference of pressure, ever slower, and stalls where the pressures meet', () => {
    const path = hosePath(
      { bore_m: 0.0095, length_m: 3, fittingBore_m: 0.0075, valveBore_m: 0.007, roughness_m: 1e-5 },
      { coresLeftIn: 0 },
    );
    const run = (warmer_K: number, mass_kg: number, heat_W = 0) =>
      equaliseTransfer({
        refrigerant: r134a,
        mass_kg,
        path,
        source: { liquid_kg: 100, temperature_K: 297.15 },
        sink_K: 297.15 - warmer_K,
        heat_W,
      });
    // Flow at the start for 2, 5 and 10 K: 16, 26, 39 lb/min, computed independently with scipy.
    for (const [warmer_K, expected] of [
      [2, 16],
      [5, 26],
      [10, 39],
    ] as const) {
      const result = run(warmer_K, 10);
      // The independent figures take the difference from the warm side up; here it is taken down: up to 12 % less at 10 K.
      expect(result.ok && relative(result.value.startFlow_kg_s / LB_MIN, expected)).toBeLessThan(0.13);
    }
    expect(run(2, 55)).toMatchObject({ ok: false, problems: [{ code: 'too-little-heat' }] });
    expect(run(10, 70)).toMatchObject({ ok: false });
    const cold = run(10, 50);
    const warmed = run(10, 50, 3000);
    expect(cold.ok && warmed.ok && warmed.value.time_s < cold.value.time_s).toBe(true);
  });

  it('guesses the volume from the charge', () => {
    // Computed independently: exact with f = 0.25.
    const { volume_m3 } = internalVolumeFromCharge({
      refrigerant: r134a,
      charge_kg: 453.59237,
      evaporator: 'flooded',
    });
    expect(relative(volume_m3, 1.49888431)).toBeLessThan(0.001);
  });
});
