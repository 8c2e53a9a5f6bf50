/** A stretch of the clock, drawn evenly or folded to a fixed width. */
export interface ClockSpan {
  readonly from_ms: number;
  readonly to_ms: number;
  readonly folded: boolean;
}

export interface DrawnSpan extends ClockSpan {
  readonly x0: number;
  readonly x1: number;
}

export interface FoldedClock {
  readonly spans: readonly DrawnSpan[];
  /** Where an instant is drawn; instants outside the clock fall on its ends. */
  readonly x: (at_ms: number) => number;
}

const FOLD_OVER_MS = 2 * 3600 * 1000;

interface Still {
  readonly from_ms: number;
  readonly to_ms: number;
  readonly moves: boolean;
}

/** A span over two hours in which no pound moves is folded; the rest is even, and even neighbours join. */
export function foldSpans(spans: readonly Still[]): ClockSpan[] {
  const clock: ClockSpan[] = [];
  for (const { from_ms, to_ms, moves } of spans) {
    const folded = !moves && to_ms - from_ms > FOLD_OVER_MS;
    const last = clock.at(-1);
    if (last && !last.folded && !folded) clock[clock.length - 1] = { ...last, to_ms };
    else clock.push({ from_ms, to_ms, folded });
  }
  return clock;
}

const HOUR_MS = 3600 * 1000;

/** Least width at which folds keep their width and an hour of the even spans has some pixels. */
export function leastWidth(spans: readonly ClockSpan[], fold_px: number, hour_px: number): number {
  return spans.reduce(
    (sum, { folded, from_ms, to_ms }) => sum + (folded ? fold_px : ((to_ms - from_ms) / HOUR_MS) * hour_px),
    0,
  );
}

/**
 * Maps instants to a width: every fold takes `fold_px`, the even spans share what is left in proportion to their time.
 * Where all is folded, the folds share the whole width.
 */
export function foldedClock(spans: readonly ClockSpan[], width_px: number, fold_px: number): FoldedClock {
  const folds = spans.filter(({ folded }) => folded).length;
  const even_ms = spans.reduce((sum, span) => sum + (span.folded ? 0 : span.to_ms - span.from_ms), 0);
  const foldWidth = folds === 0 ? 0 : even_ms === 0 ? width_px / folds : Math.min(fold_px, width_px / folds);
  const perMs = even_ms === 0 ? 0 : Math.max(0, width_px - folds * foldWidth) / even_ms;
  let x0 = 0;
  const drawn = spans.map((span): DrawnSpan => {
    const x1 = x0 + (span.folded ? foldWidth : (span.to_ms - span.from_ms) * perMs);
    const placed = { ...span, x0, x1 };
    x0 = x1;
    return placed;
  });
  return { spans: drawn, x: (at_ms) => positionIn(drawn, at_ms) };
}

function positionIn(spans: readonly DrawnSpan[], at_ms: number): number {
  const span = spans.find(({ to_ms }) => at_ms <= to_ms) ?? spans.at(-1);
  if (!span) return 0;
  const length_ms = span.to_ms - span.from_ms;
  const share = length_ms > 0 ? Math.min(1, Math.max(0, (at_ms - span.from_ms) / length_ms)) : 0;
  return span.x0 + share * (span.x1 - span.x0);
}
