import { lognormalFromMean, lognormalMean } from '@brimline/chance';
import type { Drawn } from './risk.ts';

/** Mean and spread of a total of spans that share causes: the spans' weights are seconds, money or person-seconds. */
interface Total {
  readonly mean: number;
  readonly standardDeviation: number;
}

/** Expected number of failures, three at most, and its mean square. */
function failures(probability: number): { readonly times: number; readonly square: number } {
  const [once, twice, thrice] = [probability, probability ** 2, probability ** 3];
  return { times: once + twice + thrice, square: once + 3 * twice + 5 * thrice };
}

/**
 * Mean and standard deviation of a weighted total, without drawing: for ranking ways. Phases that share a cause add
 * their deviations, the rest its variance; a test adds its expected failures.
 */
export function totalOf(drawn: readonly Drawn[], weightOf: (one: Drawn) => number): Total {
  let mean = 0;
  let variance = 0;
  const shared = new Float64Array(drawn[0]?.loadings.length ?? 1);
  for (const one of drawn) {
    const weight = weightOf(one);
    if (weight === 0) continue;
    const span = lognormalMean(one) * weight;
    const deviation = span * Math.sqrt(Math.expm1(one.sigma * one.sigma));
    if (one.probability < 1) {
      const { times, square } = failures(one.probability);
      mean += times * span;
      variance += square * (span ** 2 + deviation ** 2) - (times * span) ** 2;
      continue;
    }
    mean += span;
    for (let cause = 0; cause < one.loadings.length - 1; cause += 1) {
      shared[cause]! += deviation * one.loadings[cause]!;
    }
    variance += (deviation * one.loadings.at(-1)!) ** 2;
  }
  for (const deviation of shared) variance += deviation ** 2;
  return { mean, standardDeviation: Math.sqrt(variance) };
}

/**
 * The total at a certainty, as that of one lognormal with the same mean and spread (Fenton and Wilkinson).
 *
 * @param deviate standard normal deviate of the certainty [-]
 */
export function totalAt({ mean, standardDeviation }: Total, deviate: number): number {
  if (mean <= 0) return 0;
  const { mu, sigma } = lognormalFromMean(mean, standardDeviation / mean);
  return Math.exp(mu + sigma * deviate);
}
