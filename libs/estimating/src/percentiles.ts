import { lognormalFromSpread, percentileInclusive, SeededRandom } from '@brimline/chance';
import type { Percentiles, PhaseEstimate } from './estimate.ts';

/**
 * Share of each phase's spread that a common cause on the job explains (crew, heat, gear): the correlation between
 * any two phases. Assumed, low confidence.
 */
export const COMMON_CAUSE_SHARE = 0.3;

interface Totals {
  readonly elapsed: Percentiles;
  readonly attended: Percentiles;
}

/**
 * Percentiles of elapsed and attended time by drawing every phase and adding it up along the work plan.
 * Durations are lognormal; fixed spans are constants. Percentiles are never added up.
 *
 * @param samples draws; the standard error of P80 is 0.9 percentile points at 2,000
 */
export function samplePercentiles(phases: readonly PhaseEstimate[], seed: number, samples: number): Totals {
  const random = new SeededRandom(seed);
  const spans = phases.map(({ elapsed, crew }) => ({ crew, ...distributionOf(elapsed) }));
  const elapsed_s = new Float64Array(samples);
  const attended_s = new Float64Array(samples);
  const shared = Math.sqrt(COMMON_CAUSE_SHARE);
  const own = Math.sqrt(1 - COMMON_CAUSE_SHARE);
  for (let draw = 0; draw < samples; draw += 1) {
    const common = random.nextNormal();
    for (const { mu, sigma, crew } of spans) {
      const deviate = sigma === 0 ? 0 : shared * common + own * random.nextNormal();
      const span_s = Math.exp(mu + sigma * deviate);
      elapsed_s[draw]! += span_s;
      attended_s[draw]! += span_s * crew;
    }
  }
  return { elapsed: percentilesOf(elapsed_s), attended: percentilesOf(attended_s) };
}

function distributionOf({ low_s, likely_s, high_s }: PhaseEstimate['elapsed']): {
  mu: number;
  sigma: number;
} {
  if (low_s === high_s) return { mu: Math.log(likely_s), sigma: 0 };
  return lognormalFromSpread({ low: low_s, likely: likely_s, high: high_s });
}

function percentilesOf(totals_s: Float64Array): Percentiles {
  const sorted = totals_s.toSorted();
  return {
    p50_s: percentileInclusive(sorted, 0.5),
    p80_s: percentileInclusive(sorted, 0.8),
    p90_s: percentileInclusive(sorted, 0.9),
  };
}
