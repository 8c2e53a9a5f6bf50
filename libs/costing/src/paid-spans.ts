import { localTextOf } from '@brimline/calendar';
import type { Weekday } from '@brimline/firm';
import { isOvertime, type PayRule } from './pay-rules.ts';

/** Work of one person on the clock of the site. */
export interface WorkSpan {
  readonly start_ms: number;
  readonly end_ms: number;
  readonly timeZone: string;
}

/** A stretch paid by one rule; null is the straight rate. */
export interface PaidSpan<Work extends WorkSpan> {
  readonly work: Work;
  readonly rule: PayRule | null;
  readonly span_ms: number;
}

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
/** Clocks change on a quarter of an hour, so the local clock is read afresh at each. */
const CLOCK_CHANGE_MS = HOUR_MS / 4;
/** Sums of hours given as decimals may miss a limit by rounding alone. */
const SLACK_MS = 1e-3;

interface Moment {
  readonly day: string;
  readonly weekday: Weekday;
  readonly week: string;
  /** Since local midnight. */
  readonly clock_ms: number;
}

/** What one person has worked so far. */
interface Tally {
  readonly byDay: Map<string, number>;
  readonly straightByWeek: Map<string, number>;
  readonly daysOfWeek: Map<string, Set<string>>;
}

/**
 * Walks through one person's work in order of time and says which rule pays each stretch. Cuts exactly at limits of
 * hours, at edges of clock bands and at local midnight.
 *
 * @param work spans of one person, not overlapping; sorted here
 */
export function paidSpans<Work extends WorkSpan>(
  work: readonly Work[],
  rules: readonly PayRule[],
): PaidSpan<Work>[] {
  const tally: Tally = { byDay: new Map(), straightByWeek: new Map(), daysOfWeek: new Map() };
  return work
    .toSorted((a, b) => a.start_ms - b.start_ms)
    .flatMap((span) => {
      const paid: PaidSpan<Work>[] = [];
      for (let at = span.start_ms; span.end_ms - at > SLACK_MS;) {
        const moment = momentOf(at, span.timeZone);
        addDay(tally, moment);
        const rule = bestRule(rules, moment, tally);
        const next = Math.min(span.end_ms, at + shortestStep(rules, moment, tally, at));
        addWork(tally, moment, rule, next - at);
        paid.push({ work: span, rule, span_ms: next - at });
        at = next;
      }
      return paid;
    });
}

function momentOf(at_ms: number, timeZone: string): Moment {
  const [day, time, weekday, dayOfWeek] = localTextOf(
    new Date(at_ms),
    timeZone,
    'yyyy-MM-dd HH:mm EEE i',
  ).split(' ') as [string, string, Weekday, string];
  const monday = new Date(Date.parse(`${day}T00:00:00Z`) - (Number(dayOfWeek) - 1) * DAY_MS);
  return {
    day,
    weekday,
    week: monday.toISOString().slice(0, 10),
    clock_ms: clockOf(time) + (at_ms % 60_000),
  };
}

function clockOf(time: string): number {
  const [hours, minutes] = time.split(':').map(Number);
  return hours! * HOUR_MS + minutes! * 60_000;
}

function addDay({ daysOfWeek }: Tally, { day, week }: Moment): void {
  daysOfWeek.set(week, (daysOfWeek.get(week) ?? new Set()).add(day));
}

function addWork(tally: Tally, { day, week }: Moment, rule: PayRule | null, span_ms: number): void {
  tally.byDay.set(day, (tally.byDay.get(day) ?? 0) + span_ms);
  if (rule === null || !isOvertime(rule))
    tally.straightByWeek.set(week, (tally.straightByWeek.get(week) ?? 0) + span_ms);
}

function bestRule(rules: readonly PayRule[], moment: Moment, tally: Tally): PayRule | null {
  let best: PayRule | null = null;
  for (const rule of rules) {
    if (rule.multiplier > (best?.multiplier ?? 1) && holds(rule, moment, tally)) best = rule;
  }
  return best;
}

function holds(rule: PayRule, { day, weekday, week, clock_ms }: Moment, tally: Tally): boolean {
  if (rule.days && !rule.days.includes(weekday)) return false;
  if (rule.from !== undefined && rule.to !== undefined && !isBetween(rule.from, rule.to, clock_ms))
    return false;
  if (rule.onSeventhDay && tally.daysOfWeek.get(week)!.size < 7) return false;
  const isPast = (limit_h: number | undefined, done_ms: number): boolean =>
    limit_h === undefined || done_ms >= limit_h * HOUR_MS - SLACK_MS;
  return (
    isPast(rule.afterDay_h, tally.byDay.get(day) ?? 0) &&
    isPast(rule.afterWeek_h, tally.straightByWeek.get(week) ?? 0)
  );
}

function isBetween(from: string, to: string, clock_ms: number): boolean {
  const [start, end] = [clockOf(from), clockOf(to)];
  return start < end ? clock_ms >= start && clock_ms < end : clock_ms >= start || clock_ms < end;
}

/** Time to the next moment at which another rule may pay. */
function shortestStep(rules: readonly PayRule[], moment: Moment, tally: Tally, at_ms: number): number {
  const { day, week, clock_ms } = moment;
  const steps = [
    (Math.floor(at_ms / CLOCK_CHANGE_MS) + 1) * CLOCK_CHANGE_MS - at_ms,
    DAY_MS - clock_ms,
    ...rules.flatMap(({ from, to, afterDay_h, afterWeek_h }) => [
      ...[from, to].flatMap((edge) => (edge === undefined ? [] : [clockOf(edge) - clock_ms])),
      ...(afterDay_h === undefined ? [] : [afterDay_h * HOUR_MS - (tally.byDay.get(day) ?? 0)]),
      ...(afterWeek_h === undefined ? [] : [afterWeek_h * HOUR_MS - (tally.straightByWeek.get(week) ?? 0)]),
    ]),
  ];
  return Math.min(...steps.filter((step) => step > SLACK_MS));
}
