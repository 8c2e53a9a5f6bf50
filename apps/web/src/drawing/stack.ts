import type { PlacedPoint } from './placed-curve.ts';

/**
 * Heights of the stack's edges from the floor: chiller, in transit, last cylinder … first cylinder. The last height is
 * the brim: the sum of everything that the job holds.
 */
export function stackLevels(
  point: Pick<PlacedPoint, 'chiller_kg' | 'transit_kg' | 'cylinder_kg'>,
): readonly number[] {
  const levels = [point.chiller_kg, point.chiller_kg + point.transit_kg];
  for (const mass_kg of point.cylinder_kg.toReversed()) levels.push(levels.at(-1)! + mass_kg);
  return levels;
}

/** What everything adds up to: chiller, in transit and cylinders. */
export function brimOf(point: Pick<PlacedPoint, 'chiller_kg' | 'transit_kg' | 'cylinder_kg'>): number {
  return stackLevels(point).at(-1)!;
}

/** Top of the scale: the nameplate charge, or more where more is held, and nine per cent of air above. */
export function topOfScale(nameplate_kg: number, points: readonly PlacedPoint[]): number {
  return 1.09 * Math.max(nameplate_kg, ...points.map(brimOf));
}

export interface Layer {
  readonly what: 'chiller' | 'transit' | 'cylinder';
  /** Index of the cylinder in the order of filling; null for the others. */
  readonly cylinder: number | null;
  readonly area: string;
  /** Its upper edge. */
  readonly edge: string;
}

type Scale = (value: number) => number;

/** The layers as SVG paths, from the floor up. */
export function stackLayers(points: readonly PlacedPoint[], x: Scale, y: Scale): Layer[] {
  const levels = points.map(stackLevels);
  const count = levels[0]?.length ?? 0;
  return Array.from({ length: count }, (_, index) => {
    const upper = levels.map((level, at) => [x(points[at]!.at_ms), y(level[index]!)] as const);
    const lower = levels.map((level, at) => [x(points[at]!.at_ms), y(level[index - 1] ?? 0)] as const);
    return {
      what: index === 0 ? 'chiller' : index === 1 ? 'transit' : 'cylinder',
      cylinder: index < 2 ? null : count - 1 - index,
      area: `${linePath(upper)}L${linePath(lower.toReversed()).slice(1)}Z`,
      edge: linePath(upper),
    };
  });
}

/** A line through points as SVG path data, to a tenth of a pixel; points in one place are drawn once. */
export function linePath(points: readonly (readonly [x: number, y: number])[]): string {
  const texts = points.map(([x, y]) => `${tenth(x)} ${tenth(y)}`);
  return `M${texts.filter((text, index) => text !== texts[index - 1]).join('L')}`;
}

const tenth = (value: number): number => Math.round(value * 10) / 10;
