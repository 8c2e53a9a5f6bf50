import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judgeRise, leakRate, type Moisture, riseCurve, risePressure } from './rise-test.ts';

const MICRON = 101.325 / 760;
const relative = (value: number, expected: number): number => Math.abs(value / expected - 1);
const criteria = { volume_m3: 2, allowedRise_Pa: 30 };
const times_s = Array.from({ length: 13 }, (_, index) => index * 300);
const readings = (leakRate_Pa_m3_s: number, moisture: Moisture | null, noise: readonly number[] = []) =>
  riseCurve({ start_Pa: 40, volume_m3: 2, leakRate_Pa_m3_s, moisture, times_s }).map(
    ({ time_s, pressure_Pa }, index) => ({ time_s, pressure_Pa: pressure_Pa + (noise[index] ?? 0) }),
  );
const verdict = (leak: number, moisture: Moisture | null) =>
  judgeRise(readings(leak, moisture), criteria).verdict;

const TRIALS = 1000;

/** Numbers from 0 to 1 by a seed: the same test each time. */
function uniform(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
}

/** Box and Muller. */
const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random());

describe('rise of an isolated system', () => {
  it('gives the leak rate of a straight rise', () => {
    // Computed independently: exact; 100 micron in 60 min in 2 m3.
    expect(relative(leakRate(2, 100 * MICRON, 3600), 0.007406798244)).toBeLessThan(1e-8);
  });

  it('levels off with moisture', () => {
    // Computed independently: exact, in micron.
    expect(
      relative(risePressure(300, 900, 0, { level_Pa: 4584, timeConstant_s: 1800 }), 1985.622654),
    ).toBeLessThan(1e-8);
  });
});

describe('verdict of a rise test', () => {
  it('tells a leak from moisture, and both from a tight system', () => {
    expect(verdict(0.2, null)).toBe('leak');
    expect(verdict(0, { level_Pa: 600, timeConstant_s: 500 })).toBe('moisture');
    expect(verdict(0, { level_Pa: 600, timeConstant_s: 1500 })).toBe('moisture');
    expect(verdict(0.002, null)).toBe('tight');
    expect(verdict(0.3, { level_Pa: 200, timeConstant_s: 500 })).toBe('leak');
    expect(verdict(0.15, { level_Pa: 640, timeConstant_s: 500 })).toBe('undecided');
  });

  it('goes by slopes alone when there are three readings', () => {
    const three = (moisture: Moisture | null, leak: number) => {
      const all = readings(leak, moisture);
      return judgeRise([all[0]!, all[6]!, all[12]!], criteria);
    };
    expect(three(null, 0.2)).toMatchObject({ verdict: 'leak', fit: null });
    expect(three({ level_Pa: 600, timeConstant_s: 500 }, 0).verdict).toBe('moisture');
  });

  it('gives limits that hold the true leak in at least 95 of 100 tests, whatever the moisture', () => {
    const random = uniform(7);
    const between = (low: number, high: number): number => low + (high - low) * random();
    let inside = 0;
    for (let trial = 0; trial < TRIALS; trial += 1) {
      const leak = random() < 0.2 ? 0 : between(0.001, 0.4);
      const moisture = { level_Pa: between(50, 2000), timeConstant_s: between(250, 1500) };
      const noise = times_s.map(() => MICRON * normal(random));
      const found = judgeRise(readings(leak, moisture, noise), criteria);
      if (found.leakRateLow_Pa_m3_s <= leak && leak <= found.leakRateHigh_Pa_m3_s) inside += 1;
    }
    expect(inside / TRIALS).toBeGreaterThanOrEqual(0.95);
  });

  it('narrows its limits as the readings grow better', () => {
    const width = (gaugeError_Pa: number): number => {
      const found = judgeRise(readings(0.1, { level_Pa: 400, timeConstant_s: 600 }), {
        ...criteria,
        gaugeError_Pa,
      });
      return found.leakRateHigh_Pa_m3_s - found.leakRateLow_Pa_m3_s;
    };
    expect(width(0.01)).toBeLessThan(width(0.1));
    expect(width(0.1)).toBeLessThan(width(1));
  });

  it('is not led astray by one slip of the pen', () => {
    const slipped = readings(0.2, null).map((one, index) =>
      index === 5 ? { ...one, pressure_Pa: one.pressure_Pa * 2 } : one,
    );
    const found = judgeRise(slipped, criteria);
    expect(found.verdict).toBe('leak');
    expect(relative(found.leakRate_Pa_m3_s, 0.2)).toBeLessThan(0.02);
  });

  it('never passes a test that is too short, nor one above the highest pressure', () => {
    expect(judgeRise(readings(0.002, null), { ...criteria, leastTime_s: 7200 }).verdict).toBe('undecided');
    expect(judgeRise(readings(0.002, null), { ...criteria, highest_Pa: 42 }).verdict).toBe('leak');
  });

  it('knows that water cannot stand above its own saturation', () => {
    const late = { level_Pa: 2600, timeConstant_s: 600 };
    expect(judgeRise(readings(0, late), criteria).verdict).toBe('moisture');
    expect(judgeRise(readings(0, late), { ...criteria, ambient_K: 293.15 }).verdict).toBe('leak');
  });

  it('takes a falling pressure as no leak', () => {
    const falling = times_s.map((time_s) => ({ time_s, pressure_Pa: 60 - time_s / 300 }));
    expect(judgeRise(falling, criteria)).toMatchObject({ verdict: 'tight', leakRate_Pa_m3_s: 0 });
  });

  it('gives an answer for any readings in time order, and limits round its leak rate', () => {
    const step = fc.record({
      wait_s: fc.double({ min: 1, max: 1e5, noNaN: true }),
      pressure_Pa: fc.double({ min: 0, max: 1e5, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(step, { minLength: 3, maxLength: 20 }), (steps) => {
        let time_s = 0;
        const given = steps.map(({ wait_s, pressure_Pa }) => ({ time_s: (time_s += wait_s), pressure_Pa }));
        const found = judgeRise(given, criteria);
        expect(Number.isFinite(found.leakRate_Pa_m3_s)).toBe(true);
        expect(found.leakRateLow_Pa_m3_s).toBeLessThanOrEqual(found.leakRate_Pa_m3_s);
        expect(found.leakRateHigh_Pa_m3_s).toBeGreaterThanOrEqual(found.leakRate_Pa_m3_s);
      }),
      { seed: 3, numRuns: 300 },
    );
  });

  it('refuses few readings, and readings out of order', () => {
    expect(() => judgeRise(readings(0, null).slice(0, 2), criteria)).toThrow(/three/);
    expect(() => judgeRise(readings(0, null).toReversed(), criteria)).toThrow(/order/);
    const unread = readings(0, null).map((one) => ({ ...one, pressure_Pa: Number.NaN }));
    expect(() => judgeRise(unread, criteria)).toThrow(/order/);
  });
});
