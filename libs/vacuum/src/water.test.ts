import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dryingPlateau, heatOfEvaporation } from './drying.ts';
import { effectiveSpeed } from './effective-speed.ts';
import {
  iceSublimationPressure,
  waterPressure,
  waterPressureBuck,
  waterSaturationPressure,
  waterTemperatureAt,
  waterVapourTolerance,
  waterVapourVolume,
} from './water.ts';

const MICRON = 101.325 / 760;
const CFM = 0.47194745e-3;
const relative = (value: number, expected: number): number => Math.abs(value / expected - 1);
const pumps = [{ speed_m3_s: 8 * CFM, ultimate_Pa: 20 * MICRON, hose: { bore_m: 0.019, length_m: 3 } }];
const drying = (heat_W_K: number, changes: object = {}) =>
  dryingPlateau({
    speedAt: (pressure_Pa) => effectiveSpeed(pumps, pressure_Pa),
    heat_W_K,
    ambient_K: 293.15,
    ...changes,
  });

describe('water and ice', () => {
  it('has the IAPWS check values', () => {
    // IAPWS R7-97(2012) table 35, read in the verification code of CoolProp IF97.
    expect(relative(waterSaturationPressure(300), 3536.58941)).toBeLessThan(1e-7);
    // IAPWS R14-08(2011) check value, from memory.
    expect(relative(iceSublimationPressure(230), 8.94735)).toBeLessThan(1e-6);
    // Computed independently: IF97 equation 30 and the R14-08 equation.
    expect(relative(waterSaturationPressure(293.15), 2339.214767)).toBeLessThan(1e-8);
    expect(relative(iceSublimationPressure(253.15), 103.239029)).toBeLessThan(1e-6);
  });

  it("has Buck's value, and agrees with it", () => {
    // Computed independently: coefficients of Buck 1996 read on a public encyclopaedia page.
    expect(relative(waterPressureBuck(293.15), 2338.339978)).toBeLessThan(1e-8);
    for (let t = 233.15; t < 323; t += 1)
      expect(relative(waterPressure(t), waterPressureBuck(t))).toBeLessThan(0.004);
  });

  it('has no step at the triple point', () => {
    expect(relative(waterPressure(273.16 - 1e-9), waterPressure(273.16))).toBeLessThan(1e-4);
    // IAPWS: 611.657 Pa.
    expect(relative(waterPressure(273.16), 611.657)).toBeLessThan(1e-4);
  });

  it('finds the temperature of the wet spot', () => {
    fc.assert(
      fc.property(fc.double({ min: 195, max: 370, noNaN: true }), (temperature_K) => {
        expect(Math.abs(waterTemperatureAt(waterPressure(temperature_K)) - temperature_K)).toBeLessThan(1e-3);
      }),
    );
    expect(() => waterTemperatureAt(0)).toThrow(/pressure/);
    expect(() => waterPressure(180)).toThrow(/temperature/);
  });

  it('fills a volume as vapour', () => {
    // Computed independently: ideal gas, with a molar mass rounded to five figures.
    expect(relative(waterVapourVolume(0.5, 293.15, 2339.2), 28.9191628)).toBeLessThan(1e-5);
    expect(relative(waterVapourVolume(0.5, 293.15, 1000 * MICRON), 507.3995192)).toBeLessThan(1e-5);
  });

  it('takes 1.227 MJ to evaporate half a kilogram', () => {
    // Computed independently: exact; 2454 kJ/kg at 20 degC from memory (steam tables).
    expect(relative(0.5 * heatOfEvaporation(293.15), 1_227_000)).toBeLessThan(0.001);
    expect(heatOfEvaporation(263.15)).toBeGreaterThan(2.8e6);
  });

  it('is digested by a pump with ballast up to 39 mbar', () => {
    // Computed independently; the printed 39 mbar from memory (Umrath et al., Fundamentals of Vacuum Technology).
    const tolerance_Pa = waterVapourTolerance({
      ballastShare: 0.1,
      outlet_Pa: 133_300,
      saturation_Pa: 31_200,
      ambientWater_Pa: 1300,
    });
    expect(relative(tolerance_Pa, 3903.692458)).toBeLessThan(1e-6);
    expect(() =>
      waterVapourTolerance({
        ballastShare: 0.1,
        outlet_Pa: 1e5,
        saturation_Pa: 1.1e5,
        ambientWater_Pa: 1300,
      }),
    ).toThrow(/outlet/);
  });
});

describe('drying', () => {
  it('meets the equilibrium with a constant heat of evaporation', () => {
    // Computed independently: scipy brentq with 2454 kJ/kg throughout, hence the tolerance.
    const found = drying(20);
    expect(Math.abs(found.waterTemperature_K - 273.15 - 14.5506995)).toBeLessThan(0.05);
    expect(relative(found.rate_kg_s * 3600, 0.1598816773)).toBeLessThan(0.003);
    // Likewise, with 2500 kJ/kg at 611.66 Pa.
    expect(relative(found.leastHeat_W_K, 1.913814964)).toBeLessThan(0.002);
  });

  it.each([
    // Computed independently with scipy 1.17.1: brentq on the heat balance, heat by the same straight line.
    ['liquid, 5 W/K', 5, 7.000912579730311, 1002.1495727490699, 0.09418461354205122],
    ['liquid, 20 W/K', 20, 14.530631288459347, 1654.8602835437744, 0.1596596593634964],
    ['liquid, 100 W/K', 100, 18.577401944341375, 2140.860319935568, 0.20845017253598674],
    ['ice, 1 W/K', 1, -5.543184584767232, 383.4763733455414, 0.032424352787433566],
    ['ice, 0.5 W/K', 0.5, -10.444480665373987, 249.8008512578709, 0.019323013116245947],
  ])('%s', (_, heat_W_K, celsius, plateau_Pa, kg_h) => {
    const found = drying(heat_W_K);
    expect(Math.abs(found.waterTemperature_K - 273.15 - celsius)).toBeLessThan(1e-4);
    expect(relative(found.plateau_Pa, plateau_Pa)).toBeLessThan(1e-5);
    expect(relative(found.rate_kg_s * 3600, kg_h)).toBeLessThan(1e-5);
    expect(found.freezes).toBe(celsius < 0);
  });

  it('freezes just below the least heat and not just above', () => {
    const { leastHeat_W_K } = drying(20);
    expect(drying(leastHeat_W_K * 0.99).freezes).toBe(true);
    expect(drying(leastHeat_W_K * 1.01).freezes).toBe(false);
  });

  it('can dry ice only, in the cold, and says that no heat from there will do', () => {
    const cold = drying(20, { ambient_K: 263.15 });
    expect(cold.freezes).toBe(true);
    expect(cold.waterTemperature_K).toBeLessThan(263.15);
    expect(cold.leastHeat_W_K).toBe(Number.POSITIVE_INFINITY);
  });

  it('stands higher and dries no faster with a gas load', () => {
    const tight = drying(20);
    const leaky = drying(20, { gasLoad_Pa_m3_s: 0.5 });
    expect(leaky.plateau_Pa).toBeGreaterThan(tight.plateau_Pa);
    expect(leaky.rate_kg_s).toBeCloseTo(tight.rate_kg_s, 6);
  });

  it('dries faster with more heat, whatever the phase', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 300, noNaN: true }), (heat_W_K) => {
        const base = drying(heat_W_K);
        const more = drying(heat_W_K * 1.05);
        expect(more.rate_kg_s).toBeGreaterThan(base.rate_kg_s);
        expect(more.waterTemperature_K).toBeGreaterThanOrEqual(base.waterTemperature_K);
      }),
    );
  });

  it('refuses surroundings out of range', () => {
    expect(() => drying(20, { ambient_K: 400 })).toThrow(/surroundings/);
    expect(() => drying(0)).toThrow(/heat conductance/);
  });
});
