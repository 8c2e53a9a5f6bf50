import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { effectiveSpeed, type PumpOnHose, pumpSpeed } from './effective-speed.ts';
import { dilutionAfterPulls, type Evacuation, evacuation, type EvacuationInput } from './evacuation.ts';
import { GASES } from './gases.ts';
import { pumpDownTime, pumpDownTimeThroughHose } from './pump-down.ts';
import { tripleEvacuation } from './triple-evacuation.ts';

const MICRON = 101.325 / 760;
const CFM = 0.47194745e-3;
const relative = (value: number, expected: number): number => Math.abs(value / expected - 1);
const pump = (bore_mm: number, length_m = 3, cfm = 8, ultimate = 20): PumpOnHose => ({
  speed_m3_s: cfm * CFM,
  ultimate_Pa: ultimate * MICRON,
  hose: { bore_m: bore_mm / 1000, length_m },
});
const input = (changes: Partial<EvacuationInput> = {}): EvacuationInput => ({
  volume_m3: 2,
  pumps: [pump(19)],
  from_Pa: 101325,
  to_Pa: 500 * MICRON,
  temperature_K: 293.15,
  ...changes,
});
function run(changes: Partial<EvacuationInput> = {}): Evacuation {
  const result = evacuation(input(changes));
  if (!result.ok) throw new Error(result.problems[0]!.message);
  return result.value;
}
const hours = (changes: Partial<EvacuationInput> = {}): number => run(changes).time_s / 3600;

describe('effective speed', () => {
  it('meets the speed of a mean-pressure conductance', () => {
    // Computed independently: numeric, with 135 and 12.1.
    expect(relative(effectiveSpeed([pump(19)], 500 * MICRON), 1.635310421e-3)).toBeLessThan(0.001);
  });

  it.each([
    // Computed independently with scipy 1.17.1: brentq on the mass balance, Prandtl's law solved as implicit.
    ['500 micron', 500 * MICRON, 19, 0.001634381354978817],
    ['1000 micron', 1000 * MICRON, 19, 0.0023599383777486243],
    ['5000 micron', 5000 * MICRON, 19, 0.003416469263577704],
    ['turbulent 3/8 in at atmosphere', 101325, 9.5, 0.003377182513471164],
  ])('at %s', (_, pressure_Pa, bore_mm, expected) => {
    expect(relative(effectiveSpeed([pump(bore_mm)], pressure_Pa), expected)).toBeLessThan(1e-7);
  });

  it('takes another gas at another temperature', () => {
    // Computed independently with scipy 1.17.1, as above: helium at 300 K.
    const speed = effectiveSpeed([pump(19)], 500 * MICRON, { gas: GASES.helium, temperature_K: 300 });
    expect(relative(speed, 0.0016797907896461792)).toBeLessThan(1e-7);
  });

  it('is the pump alone without a hose, and nothing below its ultimate pressure', () => {
    const bolted = { speed_m3_s: 0.004, ultimate_Pa: 2, hose: null };
    expect(effectiveSpeed([bolted], 20)).toBe(pumpSpeed(bolted, 20));
    expect(pumpSpeed(bolted, 20)).toBeCloseTo(0.0036, 12);
    expect(effectiveSpeed([pump(19)], 20 * MICRON)).toBe(0);
    expect(() => effectiveSpeed([], 20)).toThrow(/pumps/);
    expect(() => effectiveSpeed([bolted], 0)).toThrow(/pressure/);
  });

  it('puts a valve core left in at 0.58 to 1.0 L/s', () => {
    // Computed independently: 5 mm2 as an aperture, molecular 11.6 A and choked 20 A (A in cm2) L/s.
    const huge = { speed_m3_s: 1e3, ultimate_Pa: 0, hose: null, coresLeftIn: 1 };
    expect(relative(effectiveSpeed([huge], 1e-3), 0.58e-3)).toBeLessThan(0.01);
    expect(relative(effectiveSpeed([huge], 1e5), 1e-3)).toBeLessThan(0.01);
  });

  it('grows with pressure, bore and every pump added, and falls with length and cores', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 4, max: 40, noNaN: true }),
        fc.double({ min: 0.5, max: 15, noNaN: true }),
        fc.double({ min: 1.5, max: 4.9, noNaN: true }),
        (bore_mm, length_m, decade) => {
          const pressure_Pa = 10 ** decade;
          const base = effectiveSpeed([pump(bore_mm, length_m)], pressure_Pa);
          expect(base).toBeLessThan(8 * CFM);
          expect(effectiveSpeed([pump(bore_mm, length_m)], pressure_Pa * 1.02)).toBeGreaterThanOrEqual(base);
          expect(effectiveSpeed([pump(bore_mm * 1.02, length_m)], pressure_Pa)).toBeGreaterThan(base);
          expect(effectiveSpeed([pump(bore_mm, length_m * 1.02)], pressure_Pa)).toBeLessThan(base);
          expect(effectiveSpeed([{ ...pump(bore_mm, length_m), coresLeftIn: 1 }], pressure_Pa)).toBeLessThan(
            base,
          );
          const both = effectiveSpeed([pump(bore_mm, length_m), pump(10, 2, 4)], pressure_Pa);
          expect(both).toBeGreaterThan(base);
        },
      ),
    );
  });
});

describe('evacuation, dry', () => {
  it.each([
    // Computed independently: numeric integration, turbulent correction on (Churchill there, Prandtl here).
    ['3/4 in', 19, 1.253649919],
    ['3/8 in', 9.5, 4.817845582],
  ])('through %s', (_, bore_mm, expected) => {
    expect(relative(hours({ pumps: [pump(bore_mm)] }), expected)).toBeLessThan(0.002);
  });

  it.each([
    // Computed independently with scipy 1.17.1: adaptive quadrature over brentq roots.
    ['laminar 3/4 in', { turbulent: false }, 1.2523930888648969],
    ['laminar 3/8 in', { turbulent: false, pumps: [pump(9.5)] }, 4.771792520446536],
    ['turbulent 3/8 in', { pumps: [pump(9.5)] }, 4.820888435974877],
    ['gas load', { gasLoad_Pa_m3_s: 0.05 }, 1.3639478478223408],
    [
      'two unlike pumps with a gas load',
      { pumps: [pump(19), pump(12.7, 5, 12, 50)], to_Pa: 300 * MICRON, gasLoad_Pa_m3_s: 0.02 },
      1.0106026041712086,
    ],
  ])('integrates %s', (_, changes, expected) => {
    expect(relative(hours(changes), expected)).toBeLessThan(2e-5);
  });

  it.each([
    // Computed independently with scipy 1.17.1: LSODA on the mass balance through time.
    [0.05, 1.3458024341957957],
    [0.2, 2.082141490877261],
  ])('follows outgassing of %s Pa m3/s at one hour', (load, expected) => {
    expect(relative(hours({ outgassingAtOneHour_Pa_m3_s: load }), expected)).toBeLessThan(0.003);
  });

  it('finds the floor', () => {
    // Computed independently with scipy 1.17.1: brentq on S(P) P = Q.
    expect(relative(run({ gasLoad_Pa_m3_s: 0.05 }).floor_Pa, 41.95446562159809)).toBeLessThan(1e-6);
    expect(run().floor_Pa).toBeCloseTo(20 * MICRON, 9);
  });

  it('is exact for a pump without a hose, down to a hair above the floor', () => {
    for (const to_Pa of [500 * MICRON, 21 * MICRON, 20.01 * MICRON]) {
      const bolted = { ...pump(19), hose: null };
      const exact_s = pumpDownTime({ ...input({ to_Pa }), ...bolted });
      expect(relative(run({ pumps: [bolted], to_Pa }).time_s, exact_s)).toBeLessThan(1e-9);
    }
  });

  it('stays a little below the closed form, which is on the safe side', () => {
    for (const bore_mm of [6.4, 9.5, 12.7, 19]) {
      const closed_s = pumpDownTimeThroughHose({ ...input(), ...pump(bore_mm), ...pump(bore_mm).hose! });
      const full_s = run({ pumps: [pump(bore_mm)], turbulent: false }).time_s;
      expect(full_s).toBeLessThan(closed_s);
      expect(full_s).toBeGreaterThan(0.85 * closed_s);
    }
  });

  it('draws a curve that falls from start to target', () => {
    const { curve, time_s } = run({ gasLoad_Pa_m3_s: 0.02 });
    expect(curve[0]).toEqual({ time_s: 0, pressure_Pa: 101325 });
    expect(curve.at(-1)!.time_s).toBe(time_s);
    expect(curve.at(-1)!.pressure_Pa).toBeCloseTo(500 * MICRON, 9);
    for (const [index, { time_s: at_s, pressure_Pa }] of curve.slice(1).entries()) {
      expect(at_s).toBeGreaterThan(curve[index]!.time_s);
      expect(pressure_Pa).toBeLessThan(curve[index]!.pressure_Pa);
    }
  });

  it('halves with a second pump on its own hose, scales with volume, and splits at any pressure', () => {
    expect(
      relative(hours({ pumps: [pump(9.5), pump(9.5)] }), hours({ pumps: [pump(9.5)] }) / 2),
    ).toBeLessThan(1e-9);
    expect(relative(hours({ volume_m3: 6 }), 3 * hours())).toBeLessThan(1e-9);
    const parts = hours({ to_Pa: 1000 }) + hours({ from_Pa: 1000 });
    expect(relative(parts, hours())).toBeLessThan(1e-4);
  });

  it('is never slower with a pump more, a wider or shorter hose, nor faster to a lower target or with more load', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 6, max: 30, noNaN: true }),
        fc.double({ min: 1, max: 10, noNaN: true }),
        fc.double({ min: 100, max: 5000, noNaN: true }),
        fc.double({ min: 0, max: 0.3, noNaN: true }),
        (bore_mm, length_m, micron, load) => {
          const time = (changes: Partial<EvacuationInput>): number => {
            const result = evacuation(
              input({
                pumps: [pump(bore_mm, length_m)],
                to_Pa: micron * MICRON,
                gasLoad_Pa_m3_s: load,
                ...changes,
              }),
            );
            return result.ok ? result.value.time_s : Number.POSITIVE_INFINITY;
          };
          const base = time({});
          expect(time({ pumps: [pump(bore_mm, length_m), pump(8, 3, 4)] })).toBeLessThanOrEqual(base);
          expect(time({ pumps: [pump(bore_mm * 1.1, length_m)] })).toBeLessThanOrEqual(base);
          expect(time({ pumps: [pump(bore_mm, length_m * 1.1)] })).toBeGreaterThanOrEqual(base);
          expect(time({ to_Pa: micron * MICRON * 0.9 })).toBeGreaterThanOrEqual(base);
          expect(time({ gasLoad_Pa_m3_s: load + 0.05 })).toBeGreaterThanOrEqual(base);
          expect(time({ outgassingAtOneHour_Pa_m3_s: 0.05 })).toBeGreaterThanOrEqual(base);
        },
      ),
    );
  });
});

describe('what limits an evacuation', () => {
  it.each([
    ['pump', {}],
    ['hose', { pumps: [pump(6.4)] }],
    ['valve core', { pumps: [{ ...pump(19), coresLeftIn: 1 }] }],
    ['gas load', { gasLoad_Pa_m3_s: 0.10892 }],
    ['ultimate', { pumps: [{ ...pump(19), hose: null }], from_Pa: 26 * MICRON, to_Pa: 21 * MICRON }],
    ['water', { water_kg: 0.5 }],
  ] as const)('names the %s', (code, changes) => {
    expect(run(changes).limitedBy.code).toBe(code);
  });

  it.each([
    ['pump', 'pumps', { to_Pa: 15 * MICRON }],
    ['hose', 'pumps.hose', { gasLoad_Pa_m3_s: 0.2 }],
    ['gas load', 'gasLoad_Pa_m3_s', { gasLoad_Pa_m3_s: 1 }],
    ['gas load', 'gasLoad_Pa_m3_s', { gasLoad_Pa_m3_s: 1e9 }],
  ] as const)('refuses a target that the %s keeps out of reach', (cause, path, changes) => {
    const result = evacuation(input(changes));
    expect(result).toMatchObject({ ok: false, problems: [{ code: 'target-below-floor', cause, path }] });
    if (!result.ok) expect(result.problems[0]!.floor_Pa).toBeGreaterThan(result.problems[0]!.target_Pa);
  });

  it('throws on nonsense', () => {
    expect(() => evacuation(input({ volume_m3: 0 }))).toThrow(/volume/);
    expect(() => evacuation(input({ from_Pa: 10 }))).toThrow(/start/);
    expect(() => evacuation(input({ water_kg: -1 }))).toThrow(/water/);
    expect(() => evacuation(input({ pumps: [] }))).toThrow(/pumps/);
    expect(() => evacuation(input({ temperature_K: Number.NaN }))).toThrow(/temperature/);
  });
});

describe('evacuation with water', () => {
  it('spends mass over rate on the plateau, and the dry time around it', () => {
    const wet = run({ water_kg: 0.5 });
    // Computed independently with scipy 1.17.1: 0.1596596593634964 kg/h on a plateau of 1654.8603 Pa.
    expect(relative(wet.drying_s / 3600, 0.5 / 0.1596596593634964)).toBeLessThan(1e-6);
    expect(relative(wet.plateau_Pa!, 1654.8602835437744)).toBeLessThan(1e-6);
    expect(relative(wet.stages.pumpDown_s + wet.stages.finish_s, run().time_s)).toBeLessThan(1e-4);
    expect(wet.time_s).toBeCloseTo(wet.stages.pumpDown_s + wet.drying_s + wet.stages.finish_s, 6);
    expect(wet.curve.filter(({ pressure_Pa }) => relative(pressure_Pa, wet.plateau_Pa!) < 1e-9)).toHaveLength(
      2,
    );
    expect(wet.cautions).toEqual([]);
  });

  it('warns of ice, and of ice that hides below the target', () => {
    const icy = run({ water_kg: 0.05, waterHeat_W_K: 1 });
    expect(icy.iceWarning).toBe(true);
    expect(icy.cautions.map(({ code }) => code)).toEqual(['ice']);
    const hidden = run({ water_kg: 0.05, waterHeat_W_K: 1, to_Pa: 4000 * MICRON });
    expect(hidden.cautions.map(({ code }) => code)).toEqual(['ice', 'ice-below-target']);
    expect(hidden.stages.finish_s).toBe(0);
    expect(hidden.curve.at(-1)!.pressure_Pa).toBeLessThan(4000 * MICRON);
  });

  it('starts on the plateau when the start lies below it', () => {
    const late = run({ water_kg: 0.1, from_Pa: 500 });
    expect(late.stages.pumpDown_s).toBe(0);
    expect(late.curve[1]!.pressure_Pa).toBeGreaterThan(500);
  });

  it('never dries faster with more water, less heat or a gas load', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 5, noNaN: true }),
        fc.double({ min: 0.2, max: 200, noNaN: true }),
        (water_kg, waterHeat_W_K) => {
          const base = run({ water_kg, waterHeat_W_K }).time_s;
          expect(run({ water_kg: water_kg * 1.1, waterHeat_W_K }).time_s).toBeGreaterThan(base);
          expect(run({ water_kg, waterHeat_W_K: waterHeat_W_K * 0.9 }).time_s).toBeGreaterThan(base);
        },
      ),
    );
  });
});

describe('triple evacuation', () => {
  const pulls_Pa = [1500 * MICRON, 1500 * MICRON, 500 * MICRON];
  const { to_Pa: _, ...system } = input();

  it('dilutes by pulls', () => {
    // Computed independently: exact; three pulls to 1000 micron with breaks to 760000.
    const pull = { pull_Pa: 1000 * MICRON, break_Pa: 760_000 * MICRON };
    expect(relative(dilutionAfterPulls([pull, pull, pull]), 2.278028867e-9)).toBeLessThan(1e-6);
  });

  it('adds up pulls and soaks, and weighs the nitrogen', () => {
    const result = tripleEvacuation({ ...system, pulls_Pa, break_Pa: 101325, soak_s: 1800, water_kg: 1 });
    if (!result.ok) throw new Error('refused');
    const { value } = result;
    const sum_s =
      run({ to_Pa: pulls_Pa[0]!, water_kg: 1 }).time_s + hours({ to_Pa: pulls_Pa[1]! }) * 3600 + run().time_s;
    expect(value.time_s).toBeCloseTo(sum_s + 3600, 6);
    // Computed independently: (1500/760000)^2 (500/760000).
    expect(relative(value.residualFraction, 2.562782e-9)).toBeLessThan(1e-5);
    // Computed independently: 2 breaks of 2 m3 at 1.1646 kg/m3 less the residue; 17.3 g of water in a cubic metre.
    expect(relative(value.nitrogen_kg, 2 * 2 * 1.1646 * (1 - 1500 / 760_000))).toBeLessThan(0.001);
    expect(relative(value.carriedWater_kg, 2 * 2 * 0.0173)).toBeLessThan(0.005);
  });

  it('refuses a pull that the pump cannot make, and no pull at all', () => {
    const deep = tripleEvacuation({ ...system, pulls_Pa: [200, 200, 1], break_Pa: 101325, soak_s: 0 });
    expect(deep).toMatchObject({ ok: false, problems: [{ path: 'pulls_Pa.2', cause: 'pump' }] });
    expect(() => tripleEvacuation({ ...system, pulls_Pa: [], break_Pa: 101325, soak_s: 0 })).toThrow(/pulls/);
  });
});
