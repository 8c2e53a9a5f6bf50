import { OutOfDomainError, requireNotNegative } from '@brimline/quantities';

export interface Shrunk {
  readonly mean: number;
  /** Share that the observations have in the mean, n/(n + prior weight). */
  readonly weight: number;
}

/**
 * Mean of few observations pulled towards a prior mean that counts as so many observations:
 *
 *   mean = (k m0 + sum of x) / (k + n),  weight Z = n / (n + k)
 *
 * @param priorMean mean known before [any unit]
 * @param priorWeight observations that the prior counts for, k [-]
 * @param observations values seen [the same unit]
 * @returns mean and the weight of the observations
 * @throws OutOfDomainError unless prior weight and observations are finite and the weight is not negative
 * @source credibility (H. Buehlmann 1967, from memory); mean of the normal-gamma update (K. Murphy 2007, from memory)
 * @example shrunkMean(1.9, 1, [1.64, 1.7, 1.72, 1.74, 1.82, 1.82, 1.82, 1.9, 2.08]).mean // => 1.814
 */
export function shrunkMean(priorMean: number, priorWeight: number, observations: readonly number[]): Shrunk {
  requireNotNegative('prior weight', priorWeight);
  const total = observations.reduce((sum, value) => sum + value, 0);
  const count = observations.length;
  if (!Number.isFinite(priorMean) || !Number.isFinite(total))
    throw new OutOfDomainError('observations', total, 'finite numbers');
  if (priorWeight + count === 0)
    throw new OutOfDomainError('prior weight', priorWeight, 'above 0 where nothing was observed');
  return {
    mean: (priorWeight * priorMean + total) / (priorWeight + count),
    weight: count / (count + priorWeight),
  };
}
