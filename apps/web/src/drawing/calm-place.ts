type Point = readonly [x: number, y: number];

interface Room {
  readonly left: number;
  readonly right: number;
  /** Places to keep clear of. */
  readonly tears: readonly number[];
}

export interface CalmPlace {
  /** Middle of the name. */
  readonly x: number;
  /** Least distance from the line. */
  readonly distance: number;
}

const STEP_PX = 8;
const TEAR_PX = 7;

/**
 * Where on a level a name of some width stands farthest from a line and clear of tears; null
 * where the tears leave no room.
 */
export function calmPlace(
  line: readonly Point[],
  level: number,
  width: number,
  { left, right, tears }: Room,
): CalmPlace | null {
  let best: CalmPlace | null = null;
  for (let x = left + width / 2 + 2; x <= right - width / 2 - 2; x += STEP_PX) {
    const [x0, x1] = [x - width / 2, x + width / 2];
    if (tears.some((tear) => tear > x0 - TEAR_PX && tear < x1 + TEAR_PX)) continue;
    const distance = distanceFrom(line, level, x0, x1);
    if (!best || distance > best.distance) best = { x, distance };
  }
  return best;
}

/** Least vertical distance between a level and the line's pieces over a stretch. */
function distanceFrom(line: readonly Point[], level: number, x0: number, x1: number): number {
  let least = Infinity;
  for (let index = 1; index < line.length; index += 1) {
    const [a, b] = [line[index - 1]!, line[index]!];
    if (b[0] < x0 || a[0] > x1) continue;
    const at = (x: number): number =>
      b[0] === a[0] ? b[1] : a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0]);
    const [y0, y1] = [at(Math.max(x0, a[0])), at(Math.min(x1, b[0]))];
    const crosses = (y0 - level) * (y1 - level) <= 0;
    least = Math.min(least, crosses ? 0 : Math.min(Math.abs(y0 - level), Math.abs(y1 - level)));
  }
  return least;
}
