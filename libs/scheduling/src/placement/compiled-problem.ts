import { OutOfDomainError } from '@brimline/quantities';
import type { Activity, Hold, Lag, SchedulingProblem, Unit } from '../model/problem.ts';
import { common, type OpenTime } from './open-time.ts';

/** An activity with everything looked up. */
export interface CompiledActivity {
  readonly activity: Activity;
  readonly index: number;
  readonly place: number | null;
  /** Common open time of its own calendars, cut to release and deadline. */
  readonly open: OpenTime;
  readonly lagsIn: readonly CompiledLag[];
  readonly lagsOut: readonly CompiledLag[];
  readonly holdsFrom: readonly CompiledHold[];
  readonly holdsTo: readonly CompiledHold[];
}

export interface CompiledLag {
  readonly lag: Lag;
  readonly from: number;
  readonly to: number;
}

export interface CompiledHold {
  readonly hold: Hold;
  readonly from: number;
  readonly to: number;
  readonly eligible: readonly number[];
}

/** A job's activities in an order in which each comes after those that it waits for. */
export interface CompiledJob {
  readonly id: string;
  readonly activities: readonly number[];
  readonly holds: readonly CompiledHold[];
}

/** The problem checked once at the gate and indexed; the search trusts it. */
export interface CompiledProblem {
  readonly problem: SchedulingProblem;
  readonly activities: readonly CompiledActivity[];
  readonly jobs: readonly CompiledJob[];
  readonly unitIndex: ReadonlyMap<string, number>;
  readonly unitOpen: readonly OpenTime[];
  readonly unitBase: readonly (number | null)[];
  readonly capacityIndex: ReadonlyMap<string, number>;
  readonly budgetIndex: ReadonlyMap<string, number>;
}

/** @throws OutOfDomainError when a name leads nowhere, a span is negative, or activities wait for each other in a ring */
export function compileProblem(problem: SchedulingProblem): CompiledProblem {
  const activityIndex = indexOf('activity', problem.activities);
  const unitIndex = indexOf('unit', problem.units);
  const capacityIndex = indexOf('capacity', problem.capacities);
  const budgetIndex = indexOf('budget', problem.budgets);
  const placeIndex = indexOf(
    'place',
    problem.places.map((id) => ({ id })),
  );
  const calendars = new Map(problem.calendars.map(({ id, open }) => [id, open]));
  const placeOf = (name: string | null): number | null =>
    name === null ? null : at(placeIndex, 'place', name);
  const openOf = (ids: readonly string[]): OpenTime =>
    ids.reduce<OpenTime>(
      (open, id) => common(open, at(calendars, 'calendar', id)),
      [[0, problem.horizon_min]],
    );
  const lags = problem.lags.map((lag): CompiledLag => ({
    lag,
    from: at(activityIndex, 'activity', lag.from),
    to: at(activityIndex, 'activity', lag.to),
  }));
  const holds = problem.holds.map((hold): CompiledHold => ({
    hold,
    from: at(activityIndex, 'activity', hold.fromActivity),
    to: at(activityIndex, 'activity', hold.toActivity),
    eligible: hold.eligible.map((id) => at(unitIndex, 'unit', id)),
  }));
  const activities = problem.activities.map((activity, index): CompiledActivity => {
    requireModes(activity, unitIndex, capacityIndex, budgetIndex);
    const window: OpenTime = [[activity.release_min, activity.deadline_min ?? problem.horizon_min]];
    return {
      activity,
      index,
      place: placeOf(activity.place),
      open: common(openOf(activity.calendarIds), window),
      lagsIn: lags.filter(({ to }) => to === index),
      lagsOut: lags.filter(({ from }) => from === index),
      holdsFrom: holds.filter(({ from }) => from === index),
      holdsTo: holds.filter(({ to }) => to === index),
    };
  });
  return {
    problem,
    activities,
    jobs: jobsOf(activities, lags, holds),
    unitIndex,
    unitOpen: problem.units.map((unit) => openOf(unit.calendarId === null ? [] : [unit.calendarId])),
    unitBase: problem.units.map((unit: Unit) => placeOf(unit.basePlace)),
    capacityIndex,
    budgetIndex,
  };
}

function indexOf(what: string, items: readonly { readonly id: string }[]): ReadonlyMap<string, number> {
  const index = new Map<string, number>();
  for (const [position, { id }] of items.entries()) {
    if (index.has(id)) throw new OutOfDomainError(`${what} id`, id, 'a name that is used once');
    index.set(id, position);
  }
  return index;
}

function at<Value>(map: ReadonlyMap<string, Value>, what: string, id: string): Value {
  const found = map.get(id);
  if (found === undefined) throw new OutOfDomainError(what, id, 'a name that the problem defines');
  return found;
}

function requireModes(
  { id, modes }: Activity,
  units: ReadonlyMap<string, number>,
  capacities: ReadonlyMap<string, number>,
  budgets: ReadonlyMap<string, number>,
): void {
  if (modes.length === 0) throw new OutOfDomainError('modes of an activity', id, 'one or more');
  for (const { duration_min, needs, amounts, consumes } of modes) {
    if (!Number.isInteger(duration_min) || duration_min < 0) {
      throw new OutOfDomainError(`duration of ${id} [min]`, duration_min, 'a whole number, 0 or more');
    }
    for (const { eligible } of needs) for (const unit of eligible) at(units, 'unit', unit);
    for (const { capacityId } of amounts) at(capacities, 'capacity', capacityId);
    for (const { budgetId } of consumes) at(budgets, 'budget', budgetId);
  }
}

function jobsOf(
  activities: readonly CompiledActivity[],
  lags: readonly CompiledLag[],
  holds: readonly CompiledHold[],
): CompiledJob[] {
  const order = waitingOrder(activities, lags);
  const byJob = new Map<string, number[]>();
  for (const { activity } of activities) byJob.set(activity.jobId, []);
  for (const index of order) byJob.get(activities[index]!.activity.jobId)!.push(index);
  return [...byJob.entries()].map(([id, own]) => ({
    id,
    activities: own,
    holds: holds.filter(({ hold }) => hold.jobId === id),
  }));
}

/** A lag with a minimum of zero or more makes its later end wait for the earlier one. */
export const isWaiting = ({ lag }: CompiledLag): boolean => lag.minimum_min !== null && lag.minimum_min >= 0;

function waitingOrder(activities: readonly CompiledActivity[], lags: readonly CompiledLag[]): number[] {
  const open = activities.map(({ lagsIn }) => lagsIn.filter(isWaiting).length);
  const ready = activities.flatMap(({ index }) => (open[index] === 0 ? [index] : []));
  const order: number[] = [];
  while (ready.length > 0) {
    const index = ready.shift()!;
    order.push(index);
    for (const { to } of activities[index]!.lagsOut.filter(isWaiting)) {
      open[to]! -= 1;
      if (open[to] === 0) ready.push(to);
    }
  }
  if (order.length < activities.length) {
    const stuck = activities.find(({ index }) => !order.includes(index))!.activity.id;
    throw new OutOfDomainError(
      'waiting order',
      stuck,
      `activities that do not wait for each other in a ring (${lags.length} lags)`,
    );
  }
  return order;
}
