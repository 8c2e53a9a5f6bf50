import { expandWeekly, instantOfLocal, localTextOf, nextDay } from '@brimline/calendar';

/** The even clock: instants in proportion, whatever local clocks do. */
export function evenClock(from_ms: number, to_ms: number, width_px: number): (at_ms: number) => number {
  const perMs = to_ms > from_ms ? width_px / (to_ms - from_ms) : 0;
  return (at_ms) => (at_ms - from_ms) * perMs;
}

export interface DayOfClock {
  /** "yyyy-MM-dd" */
  readonly day: string;
  readonly from_ms: number;
  readonly to_ms: number;
}

/** The local days that a span touches, each from midnight to midnight of its zone: 23 or 25 hours when clocks change. */
export function daysOf(from_ms: number, to_ms: number, timeZone: string): DayOfClock[] {
  const days: DayOfClock[] = [];
  let day = localTextOf(new Date(from_ms), timeZone, 'yyyy-MM-dd');
  for (;;) {
    const start_ms = instantOfLocal(`${day}T00:00`, timeZone).getTime();
    if (start_ms >= to_ms) return days;
    const next = nextDay(day);
    days.push({ day, from_ms: start_ms, to_ms: instantOfLocal(`${next}T00:00`, timeZone).getTime() });
    day = next;
  }
}

export interface HourMark {
  readonly at_ms: number;
  /** "06" */
  readonly hour: string;
}

/** Local hours of the days of a span, every so many hours, midnight left out. */
export function hourMarks(days: readonly DayOfClock[], timeZone: string, every_h: number): HourMark[] {
  const hours = Array.from({ length: Math.ceil(24 / every_h) - 1 }, (_, index) => (index + 1) * every_h);
  return days.flatMap(({ day }) =>
    hours.map((hour) => {
      const text = String(hour).padStart(2, '0');
      return { at_ms: instantOfLocal(`${day}T${text}:00`, timeZone).getTime(), hour: text };
    }),
  );
}

const EVERY_DAY = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;

/** The hours shaded as night, 18:00 to 06:00 on the clock of the zone. */
export function nightsOf(from_ms: number, to_ms: number, timeZone: string) {
  const nights = expandWeekly(
    [{ days: EVERY_DAY, from: '18:00', to: '06:00' }],
    timeZone,
    new Date(from_ms),
    new Date(to_ms),
  );
  return nights.map(([from, to]) => ({ from_ms: from.getTime(), to_ms: to.getTime() }));
}
