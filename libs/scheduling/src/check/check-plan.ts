import type { Booking, Plan } from '../model/plan.ts';
import type { Activity, SchedulingProblem, Unit } from '../model/problem.ts';

export interface Violation {
  readonly code: string;
  readonly where: string;
  readonly message: string;
}

interface Use {
  readonly start: number;
  readonly end: number;
  readonly place: string | null;
  readonly state: string | null;
  readonly by: string;
}

/**
 * Checks a plan against its problem from scratch. It shares nothing with the search, so that a fault in the one does
 * not hide in the other. An empty answer means that every constraint is met.
 */
export function checkPlan(problem: SchedulingProblem, plan: Plan): Violation[] {
  const found: Violation[] = [];
  const report = (code: string, where: string, message: string): void =>
    void found.push({ code, where, message });
  const bookings = new Map(plan.bookings.map((booking) => [booking.activityId, booking]));
  checkWhole(problem, bookings, report);
  for (const activity of problem.activities) {
    const booking = bookings.get(activity.id);
    if (booking) checkBooking(problem, activity, booking, report);
  }
  checkLags(problem, bookings, report);
  checkHolds(problem, plan, bookings, report);
  checkUnits(problem, plan, bookings, report);
  checkCapacities(problem, bookings, report);
  checkBudgets(problem, bookings, report);
  return found;
}

type Report = (code: string, where: string, message: string) => void;
type Bookings = ReadonlyMap<string, Booking>;

function checkWhole(problem: SchedulingProblem, bookings: Bookings, report: Report): void {
  for (const jobId of new Set(problem.activities.map((activity) => activity.jobId))) {
    const own = problem.activities.filter((activity) => activity.jobId === jobId);
    const placed = own.filter(({ id }) => bookings.has(id)).length;
    if (placed > 0 && placed < own.length)
      report('job-in-part', jobId, `${placed} of ${own.length} activities placed`);
  }
}

function isOpen(problem: SchedulingProblem, calendarId: string | null, from: number, to: number): boolean {
  if (calendarId === null) return from >= 0 && to <= problem.horizon_min;
  const calendar = problem.calendars.find(({ id }) => id === calendarId);
  return calendar !== undefined && calendar.open.some(([start, end]) => start <= from && to <= end);
}

function checkBooking(
  problem: SchedulingProblem,
  activity: Activity,
  booking: Booking,
  report: Report,
): void {
  const mode = activity.modes[booking.mode];
  if (!mode) return report('no-such-mode', activity.id, `mode ${booking.mode}`);
  const worked = booking.pieces.reduce((sum, [from, to]) => sum + to - from, 0);
  if (worked !== mode.duration_min)
    report('wrong-duration', activity.id, `${worked} of ${mode.duration_min} min`);
  if (booking.pieces.length > 1 && !activity.breakable) report('broken', activity.id, 'may not pause');
  if (booking.pieces.length > 0) {
    const [first, last] = [booking.pieces[0]!, booking.pieces.at(-1)!];
    if (first[0] !== booking.start_min || last[1] !== booking.end_min)
      report('wrong-span', activity.id, 'pieces and span');
  }
  for (const [index, [from, to]] of booking.pieces.entries()) {
    const isLast = index === booking.pieces.length - 1;
    if (to - from < activity.minimumPiece_min && !isLast)
      report('piece-too-short', activity.id, `${to - from} min`);
    if (index > 0 && booking.pieces[index - 1]![1] > from)
      report('pieces-overlap', activity.id, `at ${from}`);
    for (const id of [null, ...activity.calendarIds]) {
      if (!isOpen(problem, id, from, to))
        report('closed', activity.id, `${id ?? 'horizon'} at ${from}-${to}`);
    }
  }
  if (booking.start_min < activity.release_min)
    report('too-early', activity.id, `before ${activity.release_min}`);
  if (activity.deadline_min !== null && booking.end_min > activity.deadline_min) {
    report('too-late', activity.id, `after ${activity.deadline_min}`);
  }
  checkPin(activity, booking, report);
  checkNeeds(problem, activity, booking, report);
}

function checkPin({ id, pinned }: Activity, booking: Booking, report: Report): void {
  if (!pinned) return;
  if (pinned.start_min !== null && pinned.start_min !== booking.start_min) report('moved-pin', id, 'start');
  if (pinned.mode !== null && pinned.mode !== booking.mode) report('moved-pin', id, 'mode');
  const units = new Set(booking.units.flatMap(({ unitIds }) => unitIds));
  for (const unit of pinned.units) if (!units.has(unit)) report('moved-pin', id, unit);
}

function checkNeeds(problem: SchedulingProblem, activity: Activity, booking: Booking, report: Report): void {
  const { needs } = activity.modes[booking.mode]!;
  const everyone = booking.units.flatMap(({ unitIds }) => unitIds);
  if (new Set(everyone).size < everyone.length) report('same-unit-twice', activity.id, everyone.join(' '));
  for (const need of needs) {
    const given = booking.units.find((one) => one.need === need.name)?.unitIds ?? [];
    if (given.length !== need.count)
      report('wrong-count', activity.id, `${need.name}: ${given.length} of ${need.count}`);
    for (const id of given) {
      const unit = problem.units.find((one) => one.id === id);
      if (!unit || !need.eligible.includes(id)) report('not-eligible', activity.id, id);
      for (const skill of need.skills) {
        const held = unit?.skills.find(({ name }) => name === skill);
        const isValid = held && (held.validUntil_min === null || held.validUntil_min >= booking.end_min);
        if (!isValid) report('lacks-skill', activity.id, `${id}: ${skill}`);
      }
    }
  }
}

function checkLags(problem: SchedulingProblem, bookings: Bookings, report: Report): void {
  for (const lag of problem.lags) {
    const [from, to] = [bookings.get(lag.from), bookings.get(lag.to)];
    if (!from || !to) continue;
    const gap =
      (lag.toEnd === 'start' ? to.start_min : to.end_min) -
      (lag.fromEnd === 'start' ? from.start_min : from.end_min);
    if (lag.minimum_min !== null && gap < lag.minimum_min)
      report('lag-too-short', lag.to, `${gap} after ${lag.from}`);
    if (lag.maximum_min !== null && gap > lag.maximum_min)
      report('lag-too-long', lag.to, `${gap} after ${lag.from}`);
  }
}

function checkHolds(problem: SchedulingProblem, plan: Plan, bookings: Bookings, report: Report): void {
  for (const hold of problem.holds) {
    const [from, to] = [bookings.get(hold.fromActivity), bookings.get(hold.toActivity)];
    if (!from || !to) continue;
    const held = plan.held.filter(({ holdId }) => holdId === hold.id);
    if (held.length !== 1) {
      report('hold-missing', hold.id, `${held.length} times`);
      continue;
    }
    const [{ unitIds, start_min, end_min }] = held as [(typeof held)[number]];
    if (start_min > from.start_min || end_min < to.end_min)
      report('hold-too-short', hold.id, `${start_min}-${end_min}`);
    const distinct = new Set(unitIds);
    if (distinct.size !== hold.count || unitIds.length !== hold.count)
      report('hold-count', hold.id, unitIds.join(' '));
    for (const id of unitIds) if (!hold.eligible.includes(id)) report('not-eligible', hold.id, id);
  }
}

function checkUnits(problem: SchedulingProblem, plan: Plan, bookings: Bookings, report: Report): void {
  for (const unit of problem.units) {
    const uses = usesOf(problem, plan, bookings, unit).toSorted((a, b) => a.start - b.start || a.end - b.end);
    for (const use of uses) {
      if (!isOpen(problem, unit.calendarId, use.start, use.end)) report('unit-closed', unit.id, use.by);
    }
    checkSequence(problem, unit, uses, report);
  }
}

function usesOf(problem: SchedulingProblem, plan: Plan, bookings: Bookings, unit: Unit): Use[] {
  const uses: Use[] = [];
  for (const activity of problem.activities) {
    const booking = bookings.get(activity.id);
    if (!booking) continue;
    const { place, state, id: by } = activity;
    for (const { need, unitIds } of booking.units) {
      if (!unitIds.includes(unit.id)) continue;
      const kept =
        activity.modes[booking.mode]!.needs.find(({ name }) => name === need)?.keptInBreaks ?? false;
      const spans = kept ? [[booking.start_min, booking.end_min] as const] : booking.pieces;
      for (const [start, end] of spans) uses.push({ start, end, place, state, by });
    }
  }
  for (const held of plan.held) {
    const hold = problem.holds.find(({ id }) => id === held.holdId);
    const place = problem.activities.find(({ id }) => id === hold?.fromActivity)?.place ?? null;
    if (!hold || !held.unitIds.includes(unit.id)) continue;
    uses.push({ start: held.start_min, end: held.end_min, place, state: hold.state, by: hold.id });
  }
  return uses;
}

function checkSequence(problem: SchedulingProblem, unit: Unit, uses: readonly Use[], report: Report): void {
  const travel = (from: string | null, to: string | null): number => {
    if (from === null || to === null || from === to) return 0;
    return problem.travel_min[problem.places.indexOf(from)]![problem.places.indexOf(to)]!;
  };
  const clean = (before: string | null, after: string | null): number =>
    unit.cleanOut && before !== null && after !== null && before !== after ? unit.cleanOut.minutes : 0;
  const shifts = problem.calendars.find(({ id }) => id === unit.calendarId)?.open ?? [
    [0, problem.horizon_min] as const,
  ];
  const shiftOf = (minute: number): number => shifts.findIndex(([from, to]) => from <= minute && minute < to);
  for (const [index, use] of uses.entries()) {
    const before = uses[index - 1];
    const state = before ? before.state : (unit.cleanOut?.initialState ?? null);
    const ready = clean(state, use.state);
    const sameShift = before !== undefined && shiftOf(before.start) === shiftOf(use.start);
    if (before && before.end > use.start) report('used-twice', unit.id, `${before.by} and ${use.by}`);
    if (before && (sameShift || !unit.returnsToBase)) {
      const needed = travel(before.place, use.place) + ready;
      if (use.start - before.end < needed) report('no-time-between', unit.id, `${before.by} to ${use.by}`);
    } else {
      const leaves = unit.returnsToBase ? (shifts[shiftOf(use.start)]?.[0] ?? Number.POSITIVE_INFINITY) : 0;
      if (use.start - leaves < travel(unit.basePlace, use.place) + ready)
        report('no-time-to-come', unit.id, use.by);
    }
    const after = uses[index + 1];
    const isLastOfShift = !after || shiftOf(after.start) !== shiftOf(use.start);
    const closes = shifts[shiftOf(use.start)]?.[1] ?? Number.NEGATIVE_INFINITY;
    if (unit.returnsToBase && isLastOfShift && closes - use.end < travel(use.place, unit.basePlace)) {
      report('no-time-to-return', unit.id, use.by);
    }
  }
}

function checkBudgets(problem: SchedulingProblem, bookings: Bookings, report: Report): void {
  for (const { id, amount } of problem.budgets) {
    let spent = 0;
    for (const activity of problem.activities) {
      const consumes = activity.modes[bookings.get(activity.id)?.mode ?? -1]?.consumes ?? [];
      for (const one of consumes) if (one.budgetId === id) spent += one.amount;
    }
    if (spent > amount) report('over-budget', id, `${spent} of ${amount}`);
  }
}

function checkCapacities(problem: SchedulingProblem, bookings: Bookings, report: Report): void {
  for (const { id, amount } of problem.capacities) {
    const changes: [number, number][] = [];
    for (const activity of problem.activities) {
      const booking = bookings.get(activity.id);
      const used =
        booking && activity.modes[booking.mode]?.amounts.find(({ capacityId }) => capacityId === id)?.amount;
      for (const [from, to] of used ? booking.pieces : []) changes.push([from, used!], [to, -used!]);
    }
    let level = 0;
    for (const [minute, change] of changes.toSorted((a, b) => a[0] - b[0] || a[1] - b[1])) {
      level += change;
      if (level > amount) report('over-capacity', id, `${level} of ${amount} at ${minute}`);
    }
  }
}
