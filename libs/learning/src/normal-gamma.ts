import { OutOfDomainError, requireNotNegative, requirePositive } from '@brimline/quantities';
import { studentQuantile } from './student-t.ts';

/** What is known of a normal variable whose mean and variance are both uncertain. */
export interface NormalGamma {
  readonly mean: number;
  /** Observations that the mean counts for, kappa. */
  readonly weight: number;
  /** Shape and rate of the gamma distribution of 1/variance. */
  readonly alpha: number;
  readonly beta: number;
}

/**
 * Knowledge after some observations:
 *
 *   k' = k + n;  m' = (k m + n x̄)/k';  a' = a + n/2;  b' = b + ½ sum (x - x̄)² + k n (x̄ - m)²/(2 k')
 *
 * @throws OutOfDomainError for a weight below 0, a shape or rate not above 0, or an observation that is not finite
 * @source K. Murphy 2007, normal-gamma update, from memory
 */
export function updateNormalGamma(prior: NormalGamma, observations: readonly number[]): NormalGamma {
  requireNotNegative('prior weight', prior.weight);
  requirePositive('alpha', prior.alpha);
  requirePositive('beta', prior.beta);
  const count = observations.length;
  if (count === 0) return prior;
  const mean = observations.reduce((sum, value) => sum + value, 0) / count;
  if (!Number.isFinite(mean + prior.mean)) throw new OutOfDomainError('observations', mean, 'finite numbers');
  const weight = prior.weight + count;
  const within = observations.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return {
    mean: (prior.weight * prior.mean + count * mean) / weight,
    weight,
    alpha: prior.alpha + count / 2,
    beta: prior.beta + within / 2 + (prior.weight * count * (mean - prior.mean) ** 2) / (2 * weight),
  };
}

/**
 * Value that the next observation stays below with a probability: Student's t with 2a degrees of freedom, centre m,
 * scale² = b (k + 1)/(a k).
 */
export function nextValueQuantile({ mean, weight, alpha, beta }: NormalGamma, probability: number): number {
  requirePositive('weight', weight);
  return mean + studentQuantile(probability, 2 * alpha) * Math.sqrt((beta * (weight + 1)) / (alpha * weight));
}
