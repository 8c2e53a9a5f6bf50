import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nitrogenCompressibility, nitrogenDensity } from './nitrogen-density.ts';
import { nitrogenUse, settlingTime } from './nitrogen-test.ts';
import {
  correctedDrop,
  holdPressure,
  judgeHold,
  refrigerantLeakRatio,
  smallestLeakSeen,
} from './pressure-hold.ts';

const PSI = 6894.757293168;
const TEST_PA = 150 * PSI + 101325;
const relative = (value: number, expected: number): number => Math.abs(value / expected - 1);
const use = {
  volume_m3: 2,
  testPressure_Pa: TEST_PA,
  startPressure_Pa: 101325,
  temperature_K: 293.15,
  cylinderVolume_m3: 0.0491,
  fillPressure_Pa: 2640 * PSI + 101325,
};

describe('nitrogen', () => {
  it('fills 2 m3 and a cylinder', () => {
    // Computed independently: nitrogen Helmholtz equation (coefficients of CoolProp); ideal gas 26.10 kg.
    expect(relative(2 * nitrogenDensity(TEST_PA, 293.15), 26.16587948)).toBeLessThan(0.0008);
    const cylinder_kg = 0.0491 * nitrogenDensity(2640 * PSI + 101325, (70 + 459.67) / 1.8);
    expect(relative(cylinder_kg, 9.885756334)).toBeLessThan(0.0008);
  });

  it.each([
    // Computed independently: the Helmholtz equation of Span et al. 2000, evaluated by a separate program.
    [1e5, 293.15, 0.9997602580480592],
    [11e5, 293.15, 0.9976226960993985],
    [20e5, 293.15, 0.9961088727677101],
    [150e5, 293.15, 1.0205159653031102],
    [200e5, 293.15, 1.0517945450052912],
    [250e5, 293.15, 1.0924138850422853],
    [200e5, 250, 1.0053796348757364],
    [200e5, 330, 1.0737296298318837],
    [250e5, 260, 1.0654620703623996],
  ])('has the compressibility at %s Pa and %s K', (pressure_Pa, temperature_K, expected) => {
    expect(relative(nitrogenCompressibility(pressure_Pa, temperature_K), expected)).toBeLessThan(0.0008);
  });

  it('is denser at more pressure and less temperature', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e4, max: 24e6, noNaN: true }),
        fc.double({ min: 251, max: 330, noNaN: true }),
        (pressure_Pa, temperature_K) => {
          const base = nitrogenDensity(pressure_Pa, temperature_K);
          expect(nitrogenDensity(pressure_Pa * 1.01, temperature_K)).toBeGreaterThan(base);
          expect(nitrogenDensity(pressure_Pa, temperature_K - 1)).toBeGreaterThan(base);
        },
      ),
    );
    expect(nitrogenDensity(0, 293.15)).toBe(0);
    expect(() => nitrogenDensity(3e7, 293.15)).toThrow(/pressure/);
    expect(() => nitrogenDensity(1e5, 200)).toThrow(/temperature/);
  });

  it('takes three cylinders to bring 2 m3 to 150 psig', () => {
    // Computed independently: 26.17 - 2.33 kg; of the 9.886 kg in a full cylinder, 0.923 kg stay by the ideal gas
    // at 5 bar above the test pressure.
    const found = nitrogenUse(use);
    expect(found.cylinders).toBe(3);
    expect(relative(found.mass_kg, 26.166 - 2.33)).toBeLessThan(0.005);
    expect(relative(found.fromEach_kg, 9.886 - 0.923)).toBeLessThan(0.01);
  });

  it('takes none when there is nothing to raise, and never fewer for more volume or pressure', () => {
    expect(nitrogenUse({ ...use, startPressure_Pa: TEST_PA })).toMatchObject({ cylinders: 0, mass_kg: 0 });
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 30, noNaN: true }),
        fc.double({ min: 2e5, max: 4e6, noNaN: true }),
        (volume_m3, testPressure_Pa) => {
          const base = nitrogenUse({ ...use, volume_m3, testPressure_Pa });
          expect(base.cylinders * base.fromEach_kg).toBeGreaterThanOrEqual(base.mass_kg * (1 - 1e-9));
          const more = nitrogenUse({
            ...use,
            volume_m3: volume_m3 * 1.2,
            testPressure_Pa: testPressure_Pa * 1.05,
          });
          expect(more.cylinders).toBeGreaterThanOrEqual(base.cylinders);
        },
      ),
    );
  });

  it('refuses a test that a full cylinder cannot reach', () => {
    expect(() => nitrogenUse({ ...use, fillPressure_Pa: TEST_PA })).toThrow(/test pressure/);
    expect(() => nitrogenUse({ ...use, testPressure_Pa: 5e4 })).toThrow(/test pressure/);
    expect(() => nitrogenUse({ ...use, fillPressure_Pa: TEST_PA + 5e5 })).toThrow(/cylinder gives/);
  });

  it('rests until the gas has come to the metal', () => {
    // Computed independently: 600 ln(10/0.3).
    expect(settlingTime({ offset_K: 10, allowed_K: 0.3, timeConstant_s: 600 })).toBeCloseTo(2103.93, 2);
    expect(settlingTime({ offset_K: 0.2, allowed_K: 0.3, timeConstant_s: 600 })).toBe(0);
  });
});

describe('pressure hold', () => {
  const atmosphere_Pa = 14.696 * PSI;
  const limits = { volume_m3: 2, time_s: 86_400, gaugeStep_Pa: 0.25 * PSI, temperatureError_K: 0.3 };
  const first = { pressure_Pa: TEST_PA, temperature_K: 298.15 };

  it('corrects for temperature', () => {
    // Computed independently: exact; 150 psig at 25 degC reads 144.476 psig at 15 degC.
    const later_Pa = holdPressure(150 * PSI + atmosphere_Pa, 298.15, 288.15) - atmosphere_Pa;
    expect(Math.abs(later_Pa / PSI - 144.4760708)).toBeLessThan(1e-4);
    expect(
      correctedDrop(first, { pressure_Pa: holdPressure(TEST_PA, 298.15, 288.15), temperature_K: 288.15 }),
    ).toBeCloseTo(0, 6);
  });

  it('knows how coarse it is', () => {
    // Computed independently: exact.
    expect(relative(smallestLeakSeen({ ...limits, ...first }), 0.06634893203)).toBeLessThan(1e-5);
  });

  it('calls a leak only what gauge and thermometer can tell', () => {
    const after = (drop_Pa: number) => ({ pressure_Pa: TEST_PA - drop_Pa, temperature_K: 298.15 });
    expect(judgeHold(first, after(2000), limits).verdict).toBe('no leak seen');
    expect(judgeHold(first, after(10_000), limits).verdict).toBe('leak');
    expect(judgeHold(first, after(-10_000), limits).verdict).toBe('bad reading');
    expect(judgeHold(first, after(10_000), limits).leakRate_Pa_m3_s).toBeCloseTo((2 * 10_000) / 86_400, 6);
  });

  it('compares a leak of refrigerant with one of nitrogen', () => {
    // Computed independently: exact; viscosities from memory.
    const channel = {
      nitrogen_Pa: TEST_PA,
      refrigerant_Pa: 645_800,
      refrigerantViscosity_Pa_s: 11.7e-6,
      outside_Pa: 101_325,
    };
    expect(relative(refrigerantLeakRatio(channel), 0.4783722332)).toBeLessThan(1e-5);
    expect(() => refrigerantLeakRatio({ ...channel, refrigerant_Pa: 9e4 })).toThrow(/refrigerant/);
  });
});
