/** Sorted, disjoint, half-open spans in minutes. */
export type OpenTime = readonly (readonly [from_min: number, to_min: number])[];

/** The time common to both. */
export function common(a: OpenTime, b: OpenTime): OpenTime {
  const spans: [number, number][] = [];
  for (let i = 0, j = 0; i < a.length && j < b.length;) {
    const from = Math.max(a[i]![0], b[j]![0]);
    const to = Math.min(a[i]![1], b[j]![1]);
    if (from < to) spans.push([from, to]);
    if (a[i]![1] < b[j]![1]) i += 1;
    else j += 1;
  }
  return spans;
}

/** The span that holds a minute; undefined when it is closed then. */
export function spanAt(open: OpenTime, minute: number): readonly [number, number] | undefined {
  let low = 0;
  let high = open.length - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const span = open[middle]!;
    if (minute < span[0]) high = middle - 1;
    else if (minute >= span[1]) low = middle + 1;
    else return span;
  }
  return undefined;
}

/**
 * The pieces in which work of a given length is done from a minute on: one piece, or several when it may pause.
 * A piece shorter than the least is left idle, unless it ends the work. Null when the open time does not suffice.
 */
export function piecesFrom(
  open: OpenTime,
  start_min: number,
  duration_min: number,
  breakable: boolean,
  minimumPiece_min: number,
): [number, number][] | null {
  const pieces: [number, number][] = [];
  let left_min = duration_min;
  for (const [spanFrom, spanTo] of open) {
    const from = Math.max(spanFrom, start_min);
    const usable_min = Math.min(spanTo - from, left_min);
    if (usable_min <= 0) continue;
    if (pieces.length === 0 && from > start_min) return null;
    if (usable_min < left_min && (!breakable || usable_min < minimumPiece_min)) {
      if (pieces.length === 0) return null;
      continue;
    }
    pieces.push([from, from + usable_min]);
    left_min -= usable_min;
    if (left_min === 0) return pieces;
  }
  return null;
}

/** Longest single span, for saying why something does not fit. */
export function longestSpan(open: OpenTime): number {
  return open.reduce((longest, [from, to]) => Math.max(longest, to - from), 0);
}
