import { OutOfDomainError, requireNotNegative, requirePositive } from '@brimline/quantities';

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
const varianceOf = (values: readonly number[]): number => {
  const mean = meanOf(values);
  return values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
};

/** Weight of own evidence: Z = n/(n + k), k = variance within over variance between. */
export function credibilityWeight(count: number, varianceWithin: number, varianceBetween: number): number {
  requireNotNegative('observations', count);
  requirePositive('variance between', varianceBetween);
  return count / (count + varianceWithin / varianceBetween);
}

export interface GroupEstimates {
  readonly varianceWithin: number;
  /** 0 where the groups differ no more than chance would make them. */
  readonly varianceBetween: number;
  readonly weight: number;
  /** Shrunk mean of each group, in the order given. */
  readonly means: readonly number[];
}

/**
 * Means of groups with as many observations each, pulled towards the mean of all, by what the groups themselves show:
 *
 *   v = mean of the variances within;  a = variance of the means - v/n;  Z = n/(n + v/a), 0 where a is not above 0
 *
 * @throws OutOfDomainError unless there are two groups or more, of two observations or more, all of one size
 * @source non-parametric Buehlmann estimator, steps read on a public page
 */
export function groupEstimates(groups: readonly (readonly number[])[]): GroupEstimates {
  const count = groups[0]?.length ?? 0;
  if (groups.length < 2 || count < 2 || groups.some(({ length }) => length !== count))
    throw new OutOfDomainError('groups', groups.length, 'two or more, of one size, two or more');
  const means = groups.map(meanOf);
  const varianceWithin = meanOf(groups.map(varianceOf));
  const varianceBetween = Math.max(0, varianceOf(means) - varianceWithin / count);
  const weight = varianceBetween > 0 ? credibilityWeight(count, varianceWithin, varianceBetween) : 0;
  const overall = meanOf(means);
  return {
    varianceWithin,
    varianceBetween,
    weight,
    means: means.map((mean) => weight * mean + (1 - weight) * overall),
  };
}

/**
 * Values with one known noise, pulled towards their mean: z = ȳ + c (y - ȳ), c = 1 - (k - 3) s²/sum (y - ȳ)², never
 * below 0.
 *
 * @throws OutOfDomainError for fewer than four values, or values that are all the same
 * @source B. Efron and C. Morris 1977
 */
export function pulledToMean(
  values: readonly number[],
  noiseVariance: number,
): { readonly factor: number; readonly values: readonly number[] } {
  requireNotNegative('noise variance', noiseVariance);
  const mean = meanOf(values);
  const spread = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  if (values.length < 4 || !(spread > 0))
    throw new OutOfDomainError('values', values.length, 'four or more that differ');
  const factor = Math.max(0, 1 - ((values.length - 3) * noiseVariance) / spread);
  return { factor, values: values.map((value) => mean + factor * (value - mean)) };
}
