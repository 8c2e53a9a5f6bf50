const MOST_TURNS = 100;

/**
 * Root of a continuous function in a bracket, by false position with halved weights (Illinois).
 *
 * @param f function of one number, of unlike sign at both ends [-]
 * @param low one end [-]
 * @param high other end [-]
 * @param tolerance step at which to stop, absolute [-]
 * @returns x with f(x) = 0 [-]
 * @throws nothing; the caller sees to the signs
 * @validity continuous function with one change of sign
 * @source M. Dowell and P. Jarratt, BIT 11 (1971) 168, from memory
 * @example rootBetween((x) => x * x - 2, 0, 2, 1e-12) // => 1.41421356
 */
export function rootBetween(f: (x: number) => number, low: number, high: number, tolerance: number): number {
  let [a, fa, b, fb] = [low, f(low), high, f(high)];
  if (fa === 0) return a;
  for (let turn = 0; turn < MOST_TURNS && fb !== 0 && Math.abs(b - a) > tolerance; turn += 1) {
    const x = turn % 8 === 7 ? (a + b) / 2 : b - (fb * (b - a)) / (fb - fa);
    const fx = f(x);
    if (fx > 0 === fb > 0) fa /= 2;
    else [a, fa] = [b, fb];
    const step = Math.abs(x - b);
    [b, fb] = [x, fx];
    if (step < tolerance) break;
  }
  return b;
}
