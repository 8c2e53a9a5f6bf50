import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calculations } from './calculations.ts';
import { earnedValue } from './earned-value.ts';
import { credibilityWeight, groupEstimates, pulledToMean } from './groups.ts';
import { learnedRate, rateQuantile, timeQuantile } from './learned-rate.ts';
import { updateNormalGamma } from './normal-gamma.ts';
import { shrunkMean } from './shrinkage.ts';
import { studentProbability, studentQuantile } from './student-t.ts';
import {
  labourVariance,
  labourVarianceInOrder,
  processTimeVariance,
  rateQuantityVariance,
} from './variance.ts';

const wings = [1.64, 1.7, 1.72, 1.74, 1.82, 1.82, 1.82, 1.9, 2.08];

describe('a mean from few observations', () => {
  it('meets the textbook', () => {
    // Hoff 2009, section 5.3: nine wing lengths, data and prior mean read; weights of one from memory.
    expect(shrunkMean(1.9, 1, wings).mean).toBeCloseTo(1.814, 4);
    const known = updateNormalGamma({ mean: 1.9, weight: 1, alpha: 0.5, beta: 0.005 }, wings);
    expect(known.mean).toBeCloseTo(1.814, 4);
    expect(known.beta / known.alpha).toBeCloseTo(0.015324, 5);
  });

  it('gives the prior where nothing was seen, and the observations where nothing was known', () => {
    expect(shrunkMean(3, 2, [])).toEqual({ mean: 3, weight: 0 });
    expect(shrunkMean(3, 0, [1, 2])).toEqual({ mean: 1.5, weight: 1 });
    expect(() => shrunkMean(1, 0, [])).toThrow(/above 0/);
    expect(() => shrunkMean(1, 1, [Number.NaN])).toThrow(/finite/);
  });

  it('lies between what was known and what was seen', () => {
    const value = fc.double({ min: -100, max: 100, noNaN: true });
    fc.assert(
      fc.property(
        value,
        fc.double({ min: 0.1, max: 50, noNaN: true }),
        fc.array(value, { minLength: 1, maxLength: 20 }),
        (prior, weight, seen) => {
          const own = seen.reduce((sum, one) => sum + one, 0) / seen.length;
          const { mean } = shrunkMean(prior, weight, seen);
          expect(mean).toBeGreaterThanOrEqual(Math.min(prior, own) - 1e-9);
          expect(mean).toBeLessThanOrEqual(Math.max(prior, own) + 1e-9);
        },
      ),
    );
  });
});

describe('groups', () => {
  it('weighs own evidence', () => {
    // Public worked example of Buehlmann credibility.
    expect(credibilityWeight(5, 25_000, 5_000)).toBeCloseTo(0.5, 9);
    // Computed independently with numpy: four technicians, three jobs each, kg/min.
    const rates = groupEstimates([
      [2.1, 1.9, 2.3],
      [1.4, 1.6, 1.5],
      [1.8, 2.2, 2.0],
      [1.2, 1.1, 1.6],
    ]);
    expect(rates.weight).toBeCloseTo(0.910615, 5);
    expect(rates.means[3]).toBeCloseTo(1.337989, 5);
  });

  it('gives every group the common mean where chance explains the difference', () => {
    const same = groupEstimates([
      [1, 3],
      [3, 1],
      [2, 2],
    ]);
    expect(same).toMatchObject({ varianceBetween: 0, weight: 0, means: [2, 2, 2] });
    expect(() => groupEstimates([[1, 2], [1]])).toThrow(/one size/);
  });

  it('pulls many values with one noise towards their mean', () => {
    // Efron and Morris 1977: 18 averages of 45 trials, read to three decimals; the paper prints 0.212 and 0.294.
    const averages = [
      0.4, 0.378, 0.356, 0.333, 0.311, 0.311, 0.289, 0.267, 0.244, 0.244, 0.222, 0.222, 0.222, 0.222, 0.222,
      0.2, 0.178, 0.156,
    ];
    const mean = averages.reduce((sum, one) => sum + one, 0) / 18;
    const pulled = pulledToMean(averages, (mean * (1 - mean)) / 45);
    expect(Math.abs(pulled.factor - 0.2124)).toBeLessThan(0.0006);
    expect(pulled.values[0]).toBeCloseTo(0.294, 3);
    expect(() => pulledToMean([1, 1, 1, 1], 0.1)).toThrow(/differ/);
  });
});

describe('a learned rate', () => {
  const prior = { median: 1.8, weight: 4, alpha: 3, beta: 0.18 };
  const learned = learnedRate(prior, [1.3, 1.5, 1.2]);

  it('meets figures computed independently with scipy', () => {
    expect(learned.median).toBeCloseTo(1.57985, 4);
    expect(learned.logarithm.beta).toBeCloseTo(0.272204, 5);
    expect(rateQuantile(learned, 0.2)).toBeCloseTo(1.25239, 3);
    expect(timeQuantile(learned, 900, 0.8) / 60).toBeCloseTo(11.9771, 2);
    expect(learned.weight).toBeCloseTo(3 / 7, 9);
  });

  it('is the prior before any job, and refuses a rate of zero', () => {
    expect(learnedRate(prior, []).median).toBeCloseTo(1.8, 12);
    expect(() => learnedRate(prior, [0])).toThrow(/above 0/);
  });
});

describe("Student's t", () => {
  it.each([
    // NIST/SEMATECH e-Handbook 1.3.6.7.2, upper critical values, from memory.
    [0.95, 9, 1.833],
    [0.975, 10, 2.228],
    [0.99, 5, 3.365],
    [0.975, 1, 12.706],
  ])('%f with %i degrees', (probability, degrees, value) => {
    expect(studentQuantile(probability, degrees)).toBeCloseTo(value, 3);
  });

  it('meets closed forms for one and two degrees', () => {
    // Derived: P = 1/2 + atan(t)/pi, and P = 1/2 + t/(2 sqrt(2 + t²)).
    for (const t of [-8, -0.3, 0, 0.7, 40]) {
      expect(studentProbability(t, 1)).toBeCloseTo(0.5 + Math.atan(t) / Math.PI, 12);
      expect(studentProbability(t, 2)).toBeCloseTo(0.5 + t / (2 * Math.sqrt(2 + t * t)), 12);
    }
  });

  it('finds back the probability of its quantile', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        fc.double({ min: 0.8, max: 200, noNaN: true }),
        (probability, degrees) => {
          expect(studentProbability(studentQuantile(probability, degrees), degrees)).toBeCloseTo(
            probability,
            9,
          );
        },
      ),
    );
  });
});

describe('why a cost differs', () => {
  it.each([
    // Public accounting examples: labour 18 400 h at 10.30 against 18 000 h at 10; material 4500 lb at 5.10 against
    // 4000 lb at 5; 450 pieces at 6.50 against 6.90.
    [10, 10.3, 18_000, 18_400, 5520, 4000],
    [5, 5.1, 4000, 4500, 450, 2500],
    [6.9, 6.5, 450, 450, -180, 0],
  ])(
    'rate and quantity: %f, %f, %f, %f',
    (standardRate, actualRate, standardQuantity, actualQuantity, rate, quantity) => {
      const parts = rateQuantityVariance({ standardRate, actualRate, standardQuantity, actualQuantity });
      expect(parts.rateVariance).toBeCloseTo(rate, 6);
      expect(parts.quantityVariance).toBeCloseTo(quantity, 6);
      // The first example prints the sum, 9520.
      expect(parts.rateVariance + parts.quantityVariance).toBeCloseTo(
        actualRate * actualQuantity - standardRate * standardQuantity,
        6,
      );
    },
  );

  // Computed independently with numpy.
  it('splits the time of a process', () => {
    const parts = processTimeVariance({
      plannedQuantity: 1000,
      actualQuantity: 1100,
      plannedRate: 2,
      actualRate: 1.6,
    });
    expect(parts.byQuantity).toBeCloseTo(50, 9);
    expect(parts.byRate).toBeCloseTo(137.5, 9);
  });

  // Computed independently with numpy.
  it('splits a labour cost by one order, and by all of them', () => {
    const planned = { hours: 10, crew: 2, rate: 60 };
    const actual = { hours: 12, crew: 3, rate: 66 };
    expect(labourVarianceInOrder(planned, actual)).toEqual({ hours: 240, crew: 720, rate: 216 });
    const mean = labourVariance(planned, actual);
    expect(mean.hours).toBeCloseTo(316, 9);
    expect(mean.hours + mean.crew + mean.rate).toBeCloseTo(1176, 9);
  });
});

describe('earned value', () => {
  it('meets a public worked example', () => {
    expect(earnedValue({ planned: 3000, earned: 2000, actual: 2500, budget: 4000 })).toEqual({
      costVariance: -500,
      scheduleVariance: -1000,
      costIndex: 0.8,
      scheduleIndex: expect.closeTo(2 / 3, 9),
      forecastAtTrend: 5000,
      forecastOneOff: 4500,
      indexToBudget: expect.closeTo(1.333333, 5),
    });
  });

  it('has no index to reach when the budget is spent', () => {
    expect(earnedValue({ planned: 3, earned: 2, actual: 4, budget: 4 }).indexToBudget).toBeNull();
    expect(() => earnedValue({ planned: 3, earned: 0, actual: 4, budget: 4 })).toThrow(/above 0/);
  });
});

describe('calculations', () => {
  it.each(calculations.map((one) => [one.name, one] as const))(
    '%s runs its example',
    (_, { example, run, results }) => {
      expect(Object.keys(run(example))).toEqual(results.map(({ name }) => name));
    },
  );

  it('names the field that is wrong', () => {
    const shrinkage = calculations.find(({ name }) => name === 'shrinkage')!;
    expect(() => shrinkage.run({ priorMean: 1, priorWeight: 1, observations: ['a'] })).toThrow(
      /^observations: /,
    );
  });
});
