import type { PlannedJob, WeekPlan } from '@brimline/planning';
import type { Use } from './manner-cell.ts';

/** A stretch of a lane: work on a job, a cylinder held, or the way between. */
export interface LaneUse {
  /** Null for travel and clean-outs. */
  readonly job: PlannedJob | null;
  readonly title: string;
  readonly use: Use;
  readonly start: string;
  readonly end: string;
  /** Clock on which people read it. */
  readonly timeZone: string;
}

/** One person, unit or cylinder through the week. */
export interface Lane {
  readonly label: string;
  readonly uses: readonly LaneUse[];
}

export interface Lanes {
  readonly people: readonly Lane[];
  readonly gear: readonly Lane[];
  readonly cylinders: readonly Lane[];
}

/** The zone in which the week is drawn: the first person's. */
export const zoneOf = (plan: WeekPlan): string => plan.people[0]?.timeZone ?? 'UTC';

export function lanesOf(plan: WeekPlan): Lanes {
  const lane = (label: string, uses: readonly LaneUse[], id: string): Lane => ({
    label,
    uses: [...uses, ...passagesOf(plan, id)].toSorted((a, b) => a.start.localeCompare(b.start)),
  });
  return {
    people: plan.people.map(({ id, name, grade }) =>
      lane(`${name}, ${grade}`, bookedUses(plan, 'people', id), id),
    ),
    gear: plan.gear.map(({ id, kind }) => lane(`${id}, ${kind}`, bookedUses(plan, 'gear', id), id)),
    cylinders: plan.cylinders.map(({ id }) => lane(id, heldUses(plan, id), id)),
  };
}

/** People work in pieces; gear stays on site through them. */
function bookedUses(plan: WeekPlan, what: 'people' | 'gear', id: string): LaneUse[] {
  return plan.jobs.flatMap((job) =>
    job.phases
      .filter((phase) => phase[what].includes(id))
      .flatMap(({ title, manner, start, end, pieces }) =>
        (what === 'people' ? pieces : [{ start, end }]).map((span): LaneUse => ({
          job,
          title,
          use: manner,
          ...span,
          timeZone: job.site.timeZone,
        })),
      ),
  );
}

function heldUses(plan: WeekPlan, id: string): LaneUse[] {
  return plan.jobs.flatMap((job) =>
    job.cylindersHeld !== null && job.cylinders.includes(id)
      ? [{ job, title: 'held', use: 'held' as const, ...job.cylindersHeld, timeZone: job.site.timeZone }]
      : [],
  );
}

function passagesOf(plan: WeekPlan, id: string): LaneUse[] {
  return plan.passages
    .filter(({ unitId }) => unitId === id)
    .map(({ kind, start, end, fromPlace, toPlace }): LaneUse => ({
      job: null,
      title: kind === 'travel' ? `travel, ${fromPlace ?? '-'} to ${toPlace ?? '-'}` : 'clean-out',
      use: kind,
      start,
      end,
      timeZone: zoneOf(plan),
    }));
}
