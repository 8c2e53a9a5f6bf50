import { instantOfLocal } from '@brimline/calendar';
import { OutOfDomainError, requireWithin } from '@brimline/quantities';
import { paidSpans, type WorkSpan } from './paid-spans.ts';
import { isByClock, type PayRule } from './pay-rules.ts';

/** Hours worked on one day, wherever on its clock. */
export interface DayHours {
  readonly hours: number;
  /** Local day, "yyyy-MM-dd"; absent: the days of a list follow one another from a Monday. */
  readonly date?: string;
}

/** A shift on a local wall clock, "yyyy-MM-ddTHH:mm". */
export interface ClockShift {
  readonly start: string;
  readonly end: string;
}

export interface OvertimeSplit {
  readonly regular_h: number;
  readonly overtime_h: number;
  readonly doubleTime_h: number;
  /** Hours weighted with their multiples. */
  readonly paid_h: number;
}

const HOUR_MS = 3_600_000;
/** Any Monday. */
const FIRST_DAY_MS = Date.UTC(2001, 0, 1);

/**
 * Splits one person's hours into straight, overtime (above 1 and below 2) and double (2 and above): by day first, then
 * what is still straight by week. No hour is paid twice.
 *
 * @param shifts hours a day, or shifts on a clock
 * @param rules from PAY_RULES, or others
 * @param timeZone whose clock the shifts are on
 * @returns hours of each kind [h]
 * @throws OutOfDomainError for a day above 24 h, a shift that ends before it starts, or rules by the clock on hours
 *   without one
 * @example splitHours([{ hours: 10 }, { hours: 10 }], PAY_RULES.California).overtime_h // => 4
 */
export function splitHours(
  shifts: readonly (DayHours | ClockShift)[],
  rules: readonly PayRule[],
  timeZone = 'UTC',
): OvertimeSplit {
  const split = { regular_h: 0, overtime_h: 0, doubleTime_h: 0, paid_h: 0 };
  for (const { rule, span_ms } of paidSpans(spansOf(shifts, rules, timeZone), rules)) {
    const hours = span_ms / HOUR_MS;
    const multiplier = rule?.multiplier ?? 1;
    const kind = multiplier >= 2 ? 'doubleTime_h' : multiplier > 1 ? 'overtime_h' : 'regular_h';
    split[kind] += hours;
    split.paid_h += hours * multiplier;
  }
  return split;
}

function spansOf(
  shifts: readonly (DayHours | ClockShift)[],
  rules: readonly PayRule[],
  timeZone: string,
): WorkSpan[] {
  const worked = new Map<number, number>();
  return shifts.map((shift, index) => {
    if ('start' in shift) return clockSpan(shift, timeZone);
    if (rules.some(isByClock))
      throw new OutOfDomainError(
        'shift',
        `${shift.hours} h`,
        'a start and an end: these rules go by the clock',
      );
    const day_ms =
      shift.date === undefined
        ? FIRST_DAY_MS + index * 24 * HOUR_MS
        : instantOfLocal(`${shift.date}T00:00`, 'UTC').getTime();
    const before_h = worked.get(day_ms) ?? 0;
    requireWithin('hours', shift.hours, 0, 24);
    requireWithin('hours of a day', before_h + shift.hours, 0, 24);
    worked.set(day_ms, before_h + shift.hours);
    return {
      start_ms: day_ms + before_h * HOUR_MS,
      end_ms: day_ms + (before_h + shift.hours) * HOUR_MS,
      timeZone: 'UTC',
    };
  });
}

function clockSpan({ start, end }: ClockShift, timeZone: string): WorkSpan {
  const start_ms = instantOfLocal(start, timeZone).getTime();
  const end_ms = instantOfLocal(end, timeZone).getTime();
  if (end_ms < start_ms) throw new OutOfDomainError('end of a shift', end, `not before its start, ${start}`);
  return { start_ms, end_ms, timeZone };
}
