import { OutOfDomainError } from '@brimline/quantities';

/** Percentile of sorted values by the inclusive rule, rank 1 + (N - 1) p: the one that spreadsheets use. */
export function percentileInclusive(sorted: ArrayLike<number>, probability: number): number {
  return valueAtRank(sorted, 1 + (sorted.length - 1) * probability, probability);
}

/** Percentile of sorted values by rank (N + 1) p, as NIST's handbook (7.2.6.2) gives it. */
export function percentileExclusive(sorted: ArrayLike<number>, probability: number): number {
  return valueAtRank(sorted, (sorted.length + 1) * probability, probability);
}

function valueAtRank(sorted: ArrayLike<number>, rank: number, probability: number): number {
  if (sorted.length === 0 || !(probability >= 0 && probability <= 1)) {
    throw new OutOfDomainError('probability', probability, '0 to 1, of one value or more');
  }
  const whole = Math.min(Math.max(Math.floor(rank), 1), sorted.length);
  const next = Math.min(whole + 1, sorted.length);
  const share = Math.min(Math.max(rank - whole, 0), 1);
  return sorted[whole - 1]! + share * (sorted[next - 1]! - sorted[whole - 1]!);
}
