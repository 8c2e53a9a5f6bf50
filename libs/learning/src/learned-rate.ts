import { requirePositive } from '@brimline/quantities';
import { nextValueQuantile, type NormalGamma, updateNormalGamma } from './normal-gamma.ts';

/** A rate known before, on its logarithm. */
export interface RatePrior {
  readonly median: number;
  readonly weight: number;
  readonly alpha: number;
  readonly beta: number;
}

export interface LearnedRate {
  /** In the unit of the prior. */
  readonly median: number;
  /** Share that the observed jobs have in it. */
  readonly weight: number;
  /** Knowledge of ln(rate). */
  readonly logarithm: NormalGamma;
}

/**
 * A rate learned from few jobs, one observation a job, on ln(rate) so that it can't fall below zero.
 *
 * @throws OutOfDomainError for a rate that is not above 0
 */
export function learnedRate(prior: RatePrior, rates: readonly number[]): LearnedRate {
  requirePositive('prior median', prior.median);
  for (const rate of rates) requirePositive('observed rate', rate);
  const logarithm = updateNormalGamma({ ...prior, mean: Math.log(prior.median) }, rates.map(Math.log));
  return {
    median: Math.exp(logarithm.mean),
    weight: rates.length / logarithm.weight,
    logarithm,
  };
}

/** Rate that the next job stays below with a probability. */
export function rateQuantile({ logarithm }: LearnedRate, probability: number): number {
  return Math.exp(nextValueQuantile(logarithm, probability));
}

/**
 * Time that a quantity takes on the next job, not passed with a probability: a slow percentile of the rate is the long
 * percentile of time.
 */
export function timeQuantile(rate: LearnedRate, quantity: number, probability: number): number {
  return quantity / rateQuantile(rate, 1 - probability);
}
