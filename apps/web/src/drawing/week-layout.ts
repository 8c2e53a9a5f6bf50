import type { WeekPlan } from '@brimline/planning';
import { daysOf } from './even-clock.ts';
import { cylinderPools, type CylinderPool, rowOf, spanOf, type WeekRow } from './week-rows.ts';

/** A row of the week's drawing, with where it stands. */
export type WeekLine = { readonly key: string; readonly top: number; readonly height: number } & (
  | { readonly kind: 'heading'; readonly text: 'jobs' | 'people' | 'gear' | 'cylinders' }
  | { readonly kind: 'job'; readonly jobId: string }
  | {
      readonly kind: 'unit';
      readonly name: string;
      readonly detail: string;
      readonly isGear: boolean;
      readonly row: WeekRow;
    }
  | { readonly kind: 'pool'; readonly pool: CylinderPool }
  | { readonly kind: 'done' }
);

type WithoutPlace<Line> = Line extends unknown ? Omit<Line, 'top'> : never;

export interface WeekLayout {
  readonly lines: readonly WeekLine[];
  readonly height: number;
  /** Gear that nothing is booked on. */
  readonly idleGear: number;
}

export const HEADING_PX = 40;
const JOB_PX = 46;
const UNIT_PX = 40;
const POOL_PX = 66;
const DONE_PX = 44;

/** Rows from top to bottom: jobs, people, gear, cylinders, the end of all. */
export function weekLayout(plan: WeekPlan, allGear: boolean): WeekLayout {
  const gear = plan.gear.map((one) => ({ ...one, row: rowOf(plan, 'gear', one.id) }));
  const used = gear.filter(({ row }) => row.blocks.length > 0);
  const unplaced: WithoutPlace<WeekLine>[] = [
    heading('jobs'),
    ...plan.jobs.map(({ id }) => ({ kind: 'job', key: `job ${id}`, height: JOB_PX, jobId: id }) as const),
    heading('people'),
    ...plan.people.map(({ id, name, grade }) => unit(name, grade, false, rowOf(plan, 'people', id))),
    heading('gear'),
    ...(allGear ? gear : used).map(({ id, kind, row }) => unit(id, kind, true, row)),
    heading('cylinders'),
    ...cylinderPools(plan).map(
      (pool) => ({ kind: 'pool', key: `pool ${pool.waterCapacity_kg}`, height: POOL_PX, pool }) as const,
    ),
    { kind: 'done', key: 'done', height: DONE_PX },
  ];
  let top = 0;
  const lines = unplaced.map((line): WeekLine => {
    const placed = { ...line, top };
    top += line.height;
    return placed;
  });
  return { lines, height: top, idleGear: gear.length - used.length };
}

function heading(text: 'jobs' | 'people' | 'gear' | 'cylinders') {
  return { kind: 'heading', key: text, height: HEADING_PX, text } as const;
}

function unit(name: string, detail: string, isGear: boolean, row: WeekRow) {
  return { kind: 'unit', key: `unit ${row.id}`, height: UNIT_PX, name, detail, isGear, row } as const;
}

export interface WeekClock {
  readonly from_ms: number;
  readonly to_ms: number;
}

/** Whole local days from the first booking's to the last's, so that the drawing begins and ends at midnight. */
export function weekClock(plan: WeekPlan, timeZone: string): WeekClock {
  const span = spanOf(plan);
  const days = daysOf(span.from_ms, span.to_ms + 1, timeZone);
  return { from_ms: days[0]!.from_ms, to_ms: days.at(-1)!.to_ms };
}

/** Zones that occur in the plan, that of the planning base first. */
export function zonesOf(plan: WeekPlan): string[] {
  const zones = [
    ...plan.people.map(({ timeZone }) => timeZone),
    ...plan.jobs.map(({ site }) => site.timeZone),
  ];
  const epoch_ms = Date.parse(plan.epoch);
  const isBase = (zone: string): boolean => daysOf(epoch_ms, epoch_ms + 1, zone)[0]?.from_ms === epoch_ms;
  return [...new Set([...zones.filter(isBase), ...zones])];
}

/** Where a run of lines begins and how high it is; a run without a heading of its own gets room for a clock. */
export function extentOf(lines: readonly WeekLine[]) {
  const [first, last] = [lines[0], lines.at(-1)];
  if (!first || !last) return { top: 0, height: 0, needsClock: false };
  const needsClock = first.kind !== 'heading';
  const top = needsClock ? first.top - HEADING_PX : first.top;
  return { top, height: last.top + last.height - top, needsClock };
}

/** Height of lines that fit on a printed sheet below its head. */
const SHEET_PX = 700;

/** Lines in groups for sheets of paper: a new one at each heading, and where a group would be higher than a sheet. */
export function sheetsOf(lines: readonly WeekLine[]): readonly WeekLine[][] {
  const sheets: WeekLine[][] = [];
  for (const line of lines) {
    const last = sheets.at(-1);
    if (!last || line.kind === 'heading' || extentOf([...last, line]).height > SHEET_PX) sheets.push([line]);
    else last.push(line);
  }
  return sheets;
}
