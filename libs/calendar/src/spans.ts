/** Half-open: the end is not part of it. */
export type Span = readonly [from: Date, to: Date];
export type MinuteSpan = readonly [from_min: number, to_min: number];

/** Sorted spans with none empty, touching or overlapping. */
export function unionOfSpans(spans: readonly Span[]): Span[] {
  const sorted = spans.filter(([from, to]) => from < to).toSorted(([a], [b]) => a.getTime() - b.getTime());
  const merged: Span[] = [];
  for (const span of sorted) {
    const last = merged.at(-1);
    if (!last || last[1] < span[0]) merged.push(span);
    else if (last[1] < span[1]) merged[merged.length - 1] = [last[0], span[1]];
  }
  return merged;
}

/** The time that lies in both. */
export function intersectSpans(a: readonly Span[], b: readonly Span[]): Span[] {
  const [left, right] = [unionOfSpans(a), unionOfSpans(b)];
  const common: Span[] = [];
  for (let i = 0, j = 0; i < left.length && j < right.length;) {
    const [one, other] = [left[i]!, right[j]!];
    const from = one[0] > other[0] ? one[0] : other[0];
    const to = one[1] < other[1] ? one[1] : other[1];
    if (from < to) common.push([from, to]);
    if (one[1] < other[1]) i += 1;
    else j += 1;
  }
  return common;
}

/** The time of the first that is not in the second. */
export function subtractSpans(spans: readonly Span[], taken: readonly Span[]): Span[] {
  const holes = unionOfSpans(taken);
  return unionOfSpans(spans).flatMap(([from, to]) => {
    const left: Span[] = [];
    let cursor = from;
    for (const [holeFrom, holeTo] of holes) {
      if (holeTo <= cursor || holeFrom >= to) continue;
      if (cursor < holeFrom) left.push([cursor, holeFrom]);
      cursor = holeTo;
    }
    if (cursor < to) left.push([cursor, to]);
    return left;
  });
}

/** Spans as whole minutes after an epoch; a begun minute at the start is left out, one at the end too. */
export function openMinutes(spans: readonly Span[], epoch: Date): MinuteSpan[] {
  return unionOfSpans(spans)
    .map(([from, to]): MinuteSpan => [
      Math.ceil((from.getTime() - epoch.getTime()) / 60_000),
      Math.floor((to.getTime() - epoch.getTime()) / 60_000),
    ])
    .filter(([from, to]) => from < to);
}

/** Minutes that the spans hold altogether. */
export function totalMinutes(spans: readonly Span[]): number {
  return unionOfSpans(spans).reduce((sum, [from, to]) => sum + (to.getTime() - from.getTime()) / 60_000, 0);
}
