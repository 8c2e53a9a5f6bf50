import { textWidth } from './labels.ts';
import type { PlacedPoint } from './placed-curve.ts';
import { stackLevels } from './stack.ts';

export interface LayerLabel {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly on: 'chiller' | 'cylinder';
}

interface Texts {
  /** Longest first; the first that fits is taken. */
  readonly chiller: (mass_kg: number) => readonly string[];
  readonly cylinder: (index: number, mass_kg: number) => readonly string[];
  readonly cylinders: (count: number) => string;
}

type Scale = (value: number) => number;

interface Axes {
  readonly x: Scale;
  readonly y: Scale;
  /** Where the clock is torn; names keep clear of it. */
  readonly tears: readonly number[];
}

interface Stretch {
  readonly x0: number;
  readonly x1: number;
  readonly point: PlacedPoint;
}

const LINE_PX = 16;
/** Half of a tear's width, with a little air. */
const TEAR_PX = 7;

/**
 * Names for the layers, each in the widest stretch where it stands still: the chiller before and after, each cylinder
 * where its band is high enough, or all cylinders together where none is.
 */
export function layerLabels(points: readonly PlacedPoint[], axes: Axes, texts: Texts): LayerLabel[] {
  return [
    ...chillerLabels(points, axes, texts.chiller),
    ...cylinderLabels(points, axes, texts.cylinder, texts.cylinders),
  ];
}

/** Stretches in which a mass stays what it is and is not nothing. */
function stillStretches(
  points: readonly PlacedPoint[],
  { x, tears }: Axes,
  massOf: (point: PlacedPoint) => number,
): Stretch[] {
  const stretches: Stretch[] = [];
  let start = 0;
  for (let index = 1; index <= points.length; index += 1) {
    const point = points[index];
    const mass_kg = massOf(points[start]!);
    if (point && Math.abs(massOf(point) - mass_kg) <= 0.002 * mass_kg) continue;
    const [first, last] = [points[start]!, points[index - 1]!];
    if (mass_kg > 0) {
      stretches.push({ ...widestClear(x(first.at_ms), x(last.at_ms), tears), point: first });
    }
    start = index;
  }
  return stretches;
}

function chillerLabels(points: readonly PlacedPoint[], axes: Axes, text: Texts['chiller']): LayerLabel[] {
  const { y } = axes;
  const high = stillStretches(points, axes, ({ chiller_kg }) => chiller_kg).filter(
    ({ point }) => y(0) - y(point.chiller_kg) > 2 * LINE_PX,
  );
  return high.flatMap(({ x0, x1, point }) => {
    const fit = fitting(text(point.chiller_kg), x1 - x0);
    return fit === null
      ? []
      : [{ x: (x0 + x1) / 2, y: y(point.chiller_kg / 2), text: fit, on: 'chiller' as const }];
  });
}

function cylinderLabels(
  points: readonly PlacedPoint[],
  axes: Axes,
  one: Texts['cylinder'],
  all: Texts['cylinders'],
): LayerLabel[] {
  const { y } = axes;
  const count = points[0]?.cylinder_kg.length ?? 0;
  const widest = Array.from({ length: count }, (_, index) =>
    stillStretches(points, axes, ({ cylinder_kg }) => cylinder_kg[index] ?? 0).reduce<Stretch | null>(
      (best, stretch) => (best && best.x1 - best.x0 >= stretch.x1 - stretch.x0 ? best : stretch),
      null,
    ),
  );
  const used = widest.filter((stretch) => stretch !== null);
  const labels = widest.flatMap((stretch, index) => {
    if (!stretch) return [];
    const levels = stackLevels(stretch.point);
    const [low, high] = [levels[levels.length - 2 - index]!, levels[levels.length - 1 - index]!];
    const fit = fitting(one(index, high - low), stretch.x1 - stretch.x0);
    if (fit === null || y(low) - y(high) < LINE_PX) return [];
    const label: LayerLabel = {
      x: (stretch.x0 + stretch.x1) / 2,
      y: (y(low) + y(high)) / 2,
      text: fit,
      on: 'cylinder',
    };
    return [label];
  });
  if (labels.length > 0 || used.length === 0) return labels;
  const stretch = used[0]!;
  const levels = stackLevels(stretch.point);
  const middle_kg = (levels[1]! + levels.at(-1)!) / 2;
  const x_px = (stretch.x0 + stretch.x1) / 2;
  return [{ x: x_px, y: y(middle_kg), text: all(used.length), on: 'cylinder' }];
}

/** The widest part of a stretch that no tear crosses. */
export function widestClear(
  x0: number,
  x1: number,
  tears: readonly number[],
): { readonly x0: number; readonly x1: number } {
  const inside = tears.filter((tear) => tear > x0 && tear < x1).toSorted((a, b) => a - b);
  const edges = [x0, ...inside.flatMap((tear) => [tear - TEAR_PX, tear + TEAR_PX]), x1];
  let best = { x0, x1: x0 };
  for (let index = 0; index < edges.length; index += 2) {
    const part = { x0: edges[index]!, x1: edges[index + 1]! };
    if (part.x1 - part.x0 > best.x1 - best.x0) best = part;
  }
  return best;
}

function fitting(texts: readonly string[], width_px: number): string | null {
  return texts.find((text) => textWidth(text) + 8 <= width_px) ?? null;
}
