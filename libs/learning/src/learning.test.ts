import { describe, expect, it } from 'vitest';
import { credibilityWeight, shrunkMean } from './shrinkage.ts';
import { processTimeVariance, rateQuantityVariance } from './variance.ts';

describe('learned from few jobs', () => {
  it('meets the worked examples', () => {
    // Hoff 2009, section 5.3: nine wing lengths, prior mean 1.9 with the weight of one (weight from memory).
    expect(shrunkMean(1.9, 1, [1.64, 1.7, 1.72, 1.74, 1.82, 1.82, 1.82, 1.9, 2.08]).mean).toBeCloseTo(
      1.814,
      4,
    );
    // Public worked example of Buehlmann credibility: n 5, variances 25 000 and 5 000.
    expect(credibilityWeight(5, 25_000, 5_000)).toBeCloseTo(0.5, 9);
    // Computed independently with numpy: median of a rate on the logarithm.
    const logs = [1.3, 1.5, 1.2].map(Math.log);
    expect(Math.exp(shrunkMean(Math.log(1.8), 4, logs).mean)).toBeCloseTo(1.57985, 4);
  });

  it('splits what differs', () => {
    // Public accounting examples: labour 18 400 h at 10.30 against 18 000 h at 10; material 4500 lb at 5.10 against 4000 at 5.
    expect(
      rateQuantityVariance({
        standardRate: 10,
        actualRate: 10.3,
        standardQuantity: 18_000,
        actualQuantity: 18_400,
      }),
    ).toEqual({
      rateVariance: expect.closeTo(5520, 6),
      quantityVariance: 4000,
    });
    expect(
      rateQuantityVariance({
        standardRate: 5,
        actualRate: 5.1,
        standardQuantity: 4000,
        actualQuantity: 4500,
      }),
    ).toEqual({
      rateVariance: expect.closeTo(450, 6),
      quantityVariance: 2500,
    });
    // Computed independently.
    expect(
      processTimeVariance({ plannedQuantity: 1000, actualQuantity: 1100, plannedRate: 2, actualRate: 1.6 }),
    ).toEqual({
      byQuantity: 50,
      byRate: expect.closeTo(137.5, 9),
    });
  });

  it('refuses what can not be averaged', () => {
    expect(() => shrunkMean(1, 0, [])).toThrow(/above 0/);
    expect(() => shrunkMean(1, 1, [Number.NaN])).toThrow(/finite/);
  });
});
