import { OutOfDomainError } from '@brimline/quantities';
import { instantOfLocal, localTextOf, nextDay } from './local-time.ts';
import { intersectSpans, type Span, unionOfSpans } from './spans.ts';

const WEEKDAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'] as const;
type Weekday = (typeof WEEKDAYS)[number];

/** A span that repeats each week on a wall clock; `to` at or before `from` runs past midnight. */
export interface WeeklyWindow {
  readonly days: readonly Weekday[];
  readonly from: string;
  readonly to: string;
}

/**
 * The instants of weekly windows between two instants. A window keeps its wall-clock ends across a change of the
 * clock, so a night shift is an hour longer or shorter that night.
 *
 * @throws OutOfDomainError for a time of day that is not "HH:mm" up to "24:00"
 */
export function expandWeekly(
  windows: readonly WeeklyWindow[],
  timeZone: string,
  from: Date,
  to: Date,
): Span[] {
  const spans: Span[] = [];
  const lastDay = localTextOf(to, timeZone, 'yyyy-MM-dd');
  for (let day = dayBefore(from, timeZone); day <= lastDay; day = nextDay(day)) {
    for (const window of windows) {
      if (!window.days.includes(weekdayOf(day))) continue;
      const endDay = minuteOfDay(window.to) > minuteOfDay(window.from) ? day : nextDay(day);
      spans.push([
        instantOfLocal(`${day}T${window.from}`, timeZone),
        instantOfLocal(`${endDay}T${window.to}`, timeZone),
      ]);
    }
  }
  return intersectSpans(unionOfSpans(spans), [[from, to]]);
}

function dayBefore(instant: Date, timeZone: string): string {
  return localTextOf(new Date(instant.getTime() - 86_400_000), timeZone, 'yyyy-MM-dd');
}

function weekdayOf(day: string): Weekday {
  return WEEKDAYS[new Date(`${day}T00:00:00Z`).getUTCDay()]!;
}

function minuteOfDay(text: string): number {
  const [, hour, minute] = (/^(\d{2}):(\d{2})$/.exec(text) ?? []).map(Number);
  if (hour === undefined || minute! > 59 || hour * 60 + minute! > 24 * 60) {
    throw new OutOfDomainError('time of day', text, '00:00 to 24:00');
  }
  return hour * 60 + minute!;
}
