/**
 * Root of a continuous function inside a bracket: inverse quadratic steps, halving wherever they can't be trusted,
 * so that it never leaves the bracket and never needs more than about twice the steps of halving.
 *
 * @param f function of one number [-]
 * @param low one end [-]
 * @param high other end; f has the other sign there [-]
 * @param tolerance width of the bracket to stop at, absolute [-]
 * @returns x with f(x) = 0 within the tolerance [-]
 * @throws Error when f has one sign at both ends: the caller's bracket is wrong
 * @source T. R. Chandrupatla, Advances in Engineering Software 28 (1997) 145, from memory
 * @example rootBetween((x) => x * x - 2, 0, 2, 1e-12) // => 1.41421356
 */
export function rootBetween(
  f: (x: number) => number,
  low: number,
  high: number,
  tolerance: number,
  atLow = f(low),
  atHigh = f(high),
): number {
  if (atLow === 0) return low;
  if (atHigh === 0) return high;
  if (atLow > 0 === atHigh > 0) throw new Error(`no sign change between ${low} and ${high}`);
  let [b, fb, a, fa] = [low, atLow, high, atHigh];
  let share = 0.5;
  for (let turn = 0; turn < 200; turn += 1) {
    const x = a + share * (b - a);
    const fx = f(x);
    const kept = fx > 0 === fa > 0;
    const [c, fc] = kept ? [a, fa] : [b, fb];
    if (!kept) [b, fb] = [a, fa];
    [a, fa] = [x, fx];
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    const edge = (0.5 * tolerance + 2 ** -52 * Math.abs(best)) / Math.abs(b - a);
    if (edge > 0.5 || fa === 0 || fb === 0) return best;
    share = Math.min(1 - edge, Math.max(edge, nextShare([a, fa], [b, fb], [c, fc])));
  }
  return a;
}

type Point = readonly [x: number, f: number];

function nextShare([a, fa]: Point, [b, fb]: Point, [c, fc]: Point): number {
  const xi = (a - b) / (c - b);
  const phi = (fa - fb) / (fc - fb);
  if (!(phi * phi < xi && (1 - phi) ** 2 < 1 - xi)) return 0.5;
  return (fa / (fb - fa)) * (fc / (fb - fc)) + ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb));
}

/** Moves `high` out by doubling until the rising function is no longer negative there. */
export function bracketUp(f: (x: number) => number, start: number, limit: number): number {
  let high = start;
  while (high < limit && f(high) < 0) high *= 2;
  return Math.min(high, limit);
}
