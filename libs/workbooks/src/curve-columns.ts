import type { PlannedJob } from '@brimline/planning';

type Curve = PlannedJob['estimate']['curve'];
type Step = Curve['steps'][number];

/** One column of the drawn curve: a moment of the working clock, or the gap of a fold. */
export interface CurveColumn {
  readonly time_s: number;
  /** Index into the curve's steps. */
  readonly step: number;
  readonly isGap: boolean;
}

export interface CurveColumns {
  readonly columns: readonly CurveColumn[];
  /** Time that one column stands for between folds. */
  readonly column_s: number;
}

const FOLD_OVER_S = 2 * 3600;
/** Columns that the even part of the clock may take. */
const MOST_COLUMNS = 96;
const COLUMN_SPANS_S = [60, 120, 300, 600, 900, 1200, 1800, 3600] as const;

interface Run {
  readonly from_s: number;
  readonly to_s: number;
  readonly isFolded: boolean;
}

/** The clock cut into columns: spans over two hours in which no mass moves are folded to three, the rest is even. */
export function curveColumns(curve: Curve): CurveColumns {
  const runs = runsOf(curve);
  const even_s = runs.reduce((sum, { from_s, to_s, isFolded }) => sum + (isFolded ? 0 : to_s - from_s), 0);
  const column_s =
    COLUMN_SPANS_S.find((span_s) => even_s / span_s <= MOST_COLUMNS) ?? Math.ceil(even_s / MOST_COLUMNS);
  return { column_s, columns: runs.flatMap((run) => columnsOf(run, column_s, curve.steps)) };
}

function runsOf(curve: Curve): Run[] {
  const runs: Run[] = [];
  for (const step of curve.steps) {
    const { from_s, to_s } = step;
    const isFolded = to_s - from_s > FOLD_OVER_S && !moves(curve, step);
    const last = runs.at(-1);
    if (last && !last.isFolded && !isFolded) runs[runs.length - 1] = { ...last, to_s };
    else runs.push({ from_s, to_s, isFolded });
  }
  return runs;
}

function moves({ points }: Curve, { from_s, to_s }: Step): boolean {
  const within = points.filter(({ time_s }) => time_s > from_s && time_s <= to_s);
  const masses = within.map(({ chiller_kg, cylinder_kg }) => [chiller_kg, ...cylinder_kg].join(' '));
  return new Set(masses).size > 1;
}

function columnsOf({ from_s, to_s, isFolded }: Run, column_s: number, steps: readonly Step[]): CurveColumn[] {
  const count = isFolded ? 3 : Math.max(1, Math.round((to_s - from_s) / column_s));
  return Array.from({ length: count }, (_, index) => {
    const time_s = from_s + ((index + 0.5) / count) * (to_s - from_s);
    const step = steps.findIndex((one) => time_s >= one.from_s && time_s <= one.to_s);
    return { time_s, step, isGap: isFolded && index === 1 };
  });
}

/** What the curve holds at a moment, straight between its points. */
export function curveAt(curve: Curve, time_s: number): Curve['points'][number] {
  const { points } = curve;
  const after = points.findIndex((point) => point.time_s >= time_s);
  const next = points[after === -1 ? points.length - 1 : after]!;
  const before = points[after - 1] ?? next;
  const span_s = next.time_s - before.time_s;
  const share = span_s > 0 ? (time_s - before.time_s) / span_s : 1;
  const between = (from: number, to: number): number => from + Math.min(1, share) * (to - from);
  return {
    time_s,
    chiller_kg: between(before.chiller_kg, next.chiller_kg),
    transit_kg: between(before.transit_kg, next.transit_kg),
    cylinder_kg: next.cylinder_kg.map((mass_kg, index) => between(before.cylinder_kg[index] ?? 0, mass_kg)),
    pressure_Pa: between(before.pressure_Pa, next.pressure_Pa),
  };
}

export type Layer =
  { readonly kind: 'chiller' | 'transit' } | { readonly kind: 'cylinder'; readonly index: number };

/** The layer at a height of the stack: chiller, in transit, last cylinder … first cylinder; null above the brim. */
export function layerAt(point: Curve['points'][number], height_kg: number): Layer | null {
  let level = point.chiller_kg;
  if (height_kg < level) return { kind: 'chiller' };
  level += point.transit_kg;
  if (height_kg < level) return { kind: 'transit' };
  for (let index = point.cylinder_kg.length - 1; index >= 0; index -= 1) {
    level += point.cylinder_kg[index]!;
    if (height_kg < level) return { kind: 'cylinder', index };
  }
  return null;
}

/** Everything that the job holds at a moment: the brim. */
export const brimOf = ({ chiller_kg, transit_kg, cylinder_kg }: Curve['points'][number]): number =>
  chiller_kg + transit_kg + cylinder_kg.reduce((sum, mass_kg) => sum + mass_kg, 0);
