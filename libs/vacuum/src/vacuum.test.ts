import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apertureConductance, inSeries, tubeConductance } from './conductance.ts';
import { effectiveSpeed } from './effective-speed.ts';
import { dilutionAfterPulls, evacuation } from './evacuation.ts';
import { GASES, meanMolecularSpeed } from './gases.ts';
import {
  holdPressure,
  nitrogenDensity,
  nitrogenUse,
  refrigerantLeakRatio,
  smallestLeakSeen,
} from './nitrogen-test.ts';
import { floorPressure, pumpDownTime, pumpDownTimeThroughHose } from './pump-down.ts';
import { judgeRise, leakRate, risePressure } from './rise-test.ts';
import {
  dryingPlateau,
  iceSublimationPressure,
  waterSaturationPressure,
  waterVapourTolerance,
  waterVapourVolume,
} from './water.ts';

const MICRON = 101.325 / 760;
const CFM = 0.47194745e-3;
const PSI = 6894.757;
const relative = (value: number, expected: number): number => Math.abs(value / expected - 1);
const pumping = {
  volume_m3: 2,
  speed_m3_s: 8 * CFM,
  ultimate_Pa: 20 * MICRON,
  from_Pa: 101325,
  to_Pa: 500 * MICRON,
};
const hose = (bore_mm: number, length_m = 3) => ({ bore_m: bore_mm / 1000, length_m });
const eight = (bore_mm: number) => ({ speed_m3_s: 8 * CFM, ultimate_Pa: 20 * MICRON, hose: hose(bore_mm) });

describe('conductance', () => {
  it("meets a published example of a pump maker's handbook, section 7.3.2: molecular pipe in series with a pump", () => {
    expect(relative((471 * Math.PI * 0.07 ** 3) / (12 * 2.47), 0.017123)).toBeLessThan(1e-3);
    expect(relative(inSeries([0.017123, 0.029722]), 0.010864)).toBeLessThan(1e-3);
  });

  it.each([
    // Computed independently: kinetic theory and Knudsen's formula.
    ['19 mm x 3 m at 500 micron', 0.019, 3, 500, 4.133601442e-3],
    ['9.5 mm x 3 m at 500 micron', 0.0095, 3, 500, 0.2723900568e-3],
    ['6.4 mm x 1.5 m at 1000 micron', 0.0064, 1.5, 1000, 0.2184609584e-3],
  ])('%s', (_, bore_m, length_m, micron, expected) => {
    const { conductance_m3_s } = tubeConductance({
      bore_m,
      length_m,
      meanPressure_Pa: micron * MICRON,
      temperature_K: 293.15,
    });
    expect(relative(conductance_m3_s, expected)).toBeLessThan(0.02);
  });

  it('has the molecular speed, aperture and limits of kinetic theory', () => {
    // Computed independently from exact constants.
    expect(relative(meanMolecularSpeed(GASES.air, 293.15), 462.911086)).toBeLessThan(1e-3);
    expect(relative(apertureConductance(1e-4, GASES.air, 293.15), 11.57277715e-3)).toBeLessThan(0.01);
    const thin = tubeConductance({
      bore_m: 0.01,
      length_m: 0.01,
      meanPressure_Pa: 1e-6,
      temperature_K: 293.15,
    });
    expect(relative(thin.conductance_m3_s, 12.11898389e-3)).toBeLessThan(0.005);
    expect(thin.regime).toBe('molecular');
    const thick = tubeConductance({
      bore_m: 0.01,
      length_m: 0.01,
      meanPressure_Pa: 1e5,
      temperature_K: 293.15,
    });
    expect(relative(thick.conductance_m3_s, 134.8554539 * 1000 * 1e-3)).toBeLessThan(0.01);
    expect(thick.regime).toBe('viscous');
  });

  it('grows with bore and pressure and falls with length', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.003, max: 0.06, noNaN: true }),
        fc.double({ min: 0.5, max: 20, noNaN: true }),
        fc.double({ min: 100, max: 1e5, noNaN: true }),
        (bore_m, length_m, meanPressure_Pa) => {
          const at = (b: number, l: number, p: number) =>
            tubeConductance({ bore_m: b, length_m: l, meanPressure_Pa: p, temperature_K: 293.15 })
              .conductance_m3_s;
          const base = at(bore_m, length_m, meanPressure_Pa);
          expect(at(bore_m * 1.1, length_m, meanPressure_Pa)).toBeGreaterThan(base);
          expect(at(bore_m, length_m * 1.1, meanPressure_Pa)).toBeLessThan(base);
          expect(at(bore_m, length_m, meanPressure_Pa * 1.1)).toBeGreaterThan(base);
        },
      ),
    );
  });
});

describe('pump-down', () => {
  it('meets a published example: 1000 m3 from 1000 to 200 mbar in 10 min needs 160.94 m3/min (public vacuum guide)', () => {
    const time_s = pumpDownTime({
      volume_m3: 1000,
      speed_m3_s: 160.94 / 60,
      ultimate_Pa: 0,
      from_Pa: 1e5,
      to_Pa: 2e4,
    });
    expect(relative(time_s, 600)).toBeLessThan(0.005);
  });

  it.each([
    // Computed independently: exact, and closed form of the hose term.
    ['no hose', () => pumpDownTime(pumping), 1.084051572, 0.005],
    ['3/4 in', () => pumpDownTimeThroughHose({ ...pumping, ...hose(19) }), 1.353126575, 0.01],
    ['3/8 in', () => pumpDownTimeThroughHose({ ...pumping, ...hose(9.5) }), 5.178301765, 0.01],
    ['1/4 in', () => pumpDownTimeThroughHose({ ...pumping, ...hose(4.8, 1.5) }), 29.85040399, 0.01],
  ] as const)('%s in closed form', (_, hours, expected, tolerance) => {
    expect(relative(hours() / 3600, expected)).toBeLessThan(tolerance);
  });

  it.each([
    // Computed independently: numeric integration with turbulence, hence the 10 %.
    [19, 1.253649919],
    [9.5, 4.817845582],
  ])('integrated through %s mm', (bore, expected) => {
    const result = evacuation({ ...pumping, temperature_K: 293.15, pumps: [eight(bore)] });
    expect(result.ok && relative(result.value.time_s / 3600, expected)).toBeLessThan(0.1);
  });

  it('finds floor and effective speed', () => {
    // Computed independently: 66.88 micron; 1.6353 L/s.
    expect(relative(floorPressure(20 * MICRON, 1.6e-3, 0.01) / MICRON, 66.87885518)).toBeLessThan(0.005);
    expect(relative(effectiveSpeed([eight(19)], 500 * MICRON), 1.635310421e-3)).toBeLessThan(0.05);
  });

  it('is never slower with another pump or a wider hose, nor faster to a lower target, and refuses what it cannot hold', () => {
    const run = (changes: object) =>
      evacuation({ ...pumping, temperature_K: 293.15, pumps: [eight(12.7)], ...changes });
    const time = (changes: object): number => {
      const result = run(changes);
      return result.ok ? result.value.time_s : Number.POSITIVE_INFINITY;
    };
    expect(time({ pumps: [eight(12.7), eight(12.7)] })).toBeCloseTo(time({}) / 2, 6);
    expect(time({ pumps: [eight(19)] })).toBeLessThan(time({}));
    expect(time({ to_Pa: 300 * MICRON })).toBeGreaterThan(time({}));
    expect(time({ water_kg: 0.1 })).toBeGreaterThan(time({}));
    expect(run({ to_Pa: 15 * MICRON })).toMatchObject({
      ok: false,
      problems: [{ code: 'target-below-floor' }],
    });
    expect(run({ gasLoad_Pa_m3_s: 1 })).toMatchObject({ ok: false });
  });

  it('dilutes by pulls', () => {
    // Computed independently: exact.
    const pull = { pull_Pa: 1000 * MICRON, break_Pa: 101325 };
    expect(relative(dilutionAfterPulls([pull, pull, pull]), 2.278028867e-9)).toBeLessThan(0.001);
  });
});

describe('water', () => {
  it('has the IAPWS check values', () => {
    // IAPWS R7-97(2012) table 35; IAPWS R14-08(2011) check value, from memory.
    expect(relative(waterSaturationPressure(300), 3536.58941)).toBeLessThan(1e-8);
    expect(relative(iceSublimationPressure(230), 8.94735)).toBeLessThan(1e-5);
    expect(relative(iceSublimationPressure(253.15), 103.239029)).toBeLessThan(0.005);
  });

  it('fills, dries and freezes as computed independently with scipy', () => {
    expect(relative(waterVapourVolume(0.5, 293.15, 2339.2), 28.9191628)).toBeLessThan(0.005);
    const speedAt = (pressure_Pa: number): number => effectiveSpeed([eight(19)], pressure_Pa);
    const drying = dryingPlateau(speedAt, 20, 293.15);
    expect(Math.abs(drying.waterTemperature_K - 273.15 - 14.5506995)).toBeLessThan(1);
    expect(relative(drying.rate_kg_s * 3600, 0.1598816773)).toBeLessThan(0.08);
    expect(drying.freezes).toBe(false);
    expect(dryingPlateau(speedAt, 1.7, 293.15).freezes).toBe(true);
    expect(dryingPlateau(speedAt, 2.2, 293.15).freezes).toBe(false);
    // 39 mbar: printed in Umrath et al., from memory.
    expect(relative(waterVapourTolerance(0.1, 1333, 312, 13), 39.03692458)).toBeLessThan(0.01);
  });
});

describe('rise test', () => {
  const readings = (leak: number, wet: { level_Pa: number; timeConstant_s: number } | null) =>
    Array.from({ length: 13 }, (_, index) => ({
      time_s: index * 300,
      pressure_Pa: risePressure(40, index * 300, leak, wet),
    }));

  it('tells a leak from moisture and both from a tight system', () => {
    const wet = { level_Pa: 600, timeConstant_s: 500 };
    expect(judgeRise(readings(0.1, null), 2, 30).verdict).toBe('leak');
    expect(judgeRise(readings(0, wet), 2, 30).verdict).toBe('moisture');
    expect(judgeRise(readings(0.001, null), 2, 30).verdict).toBe('tight');
    expect(judgeRise(readings(0.1, null), 2, 30).leakRate_Pa_m3_s).toBeCloseTo(0.2, 6);
    expect(() => judgeRise(readings(0, null).slice(0, 2), 2, 30)).toThrow(/three/);
  });

  it('gives the leak rate and the moisture curve', () => {
    // Computed independently: exact.
    expect(relative(leakRate(2, 100 * MICRON, 3600), 0.007406798244)).toBeLessThan(0.001);
    expect(
      relative(risePressure(300, 900, 0, { level_Pa: 4584, timeConstant_s: 1800 }), 1985.622654),
    ).toBeLessThan(0.001);
  });
});

describe('nitrogen test', () => {
  it('has the density of nitrogen and the cylinders it takes', () => {
    // Computed independently: nitrogen Helmholtz equation.
    expect(relative(2 * nitrogenDensity(150 * PSI + 101325, 293.15), 26.16587948)).toBeLessThan(0.005);
    expect(relative(0.0491 * nitrogenDensity(2640 * PSI + 101325, 294.261), 9.885756334)).toBeLessThan(0.01);
    const use = nitrogenUse({
      volume_m3: 2,
      testPressure_Pa: 150 * PSI + 101325,
      startPressure_Pa: 101325,
      temperature_K: 293.15,
      cylinderVolume_m3: 0.0491,
      fillPressure_Pa: 2640 * PSI + 101325,
    });
    expect(use.cylinders).toBe(3);
  });

  it('compares a leak of refrigerant with one of nitrogen', () => {
    // Computed independently: exact; viscosities from memory.
    const ratio = refrigerantLeakRatio({
      nitrogen_Pa: 150 * PSI + 101325,
      refrigerant_Pa: 645_800,
      refrigerantViscosity_Pa_s: 11.7e-6,
      outside_Pa: 101_325,
    });
    expect(relative(ratio, 0.4783722332)).toBeLessThan(0.01);
  });

  it('corrects for temperature and knows how coarse a hold is', () => {
    // Computed independently: exact.
    const atmosphere = 14.696 * PSI;
    const later = holdPressure(150 * PSI + atmosphere, 298.15, 288.15) - atmosphere;
    expect(Math.abs(later / PSI - 144.4760708)).toBeLessThan(0.05);
    const seen = smallestLeakSeen({
      volume_m3: 2,
      time_s: 86400,
      gaugeStep_Pa: 0.25 * PSI,
      pressure_Pa: 150 * PSI + 101325,
      temperatureError_K: 0.3,
      temperature_K: 298.15,
    });
    expect(relative(seen, 0.06634893203)).toBeLessThan(0.01);
  });
});
