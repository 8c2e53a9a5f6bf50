import { TZDate } from '@date-fns/tz';
import { OutOfDomainError } from '@brimline/quantities';
import { format } from 'date-fns';

const LOCAL = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})$/;

/** @throws OutOfDomainError unless the text is an IANA time zone that this machine knows */
export function requireTimeZone(timeZone: string): void {
  try {
    Intl.DateTimeFormat('en-US', { timeZone });
  } catch {
    throw new OutOfDomainError('time zone', timeZone, 'an IANA zone, e.g. America/Chicago');
  }
}

/**
 * The instant at which a wall clock shows a local time.
 * A time that the clock skips in spring is taken as that much after the jump (02:30 becomes 03:30); a time that it
 * shows twice in autumn is the first of the two. "24:00" is midnight at the day's end.
 *
 * @param local wall-clock time, "yyyy-MM-ddTHH:mm"
 * @param timeZone IANA zone
 * @throws OutOfDomainError when the text is not a day and time that exist in the calendar
 */
export function instantOfLocal(local: string, timeZone: string): Date {
  requireTimeZone(timeZone);
  const [, year, month, day, hour, minute] = (LOCAL.exec(local) ?? []).map(Number);
  const isDay =
    year !== undefined &&
    month! >= 1 &&
    month! <= 12 &&
    day! >= 1 &&
    day! <= new Date(Date.UTC(year, month!, 0)).getUTCDate();
  const isTime = hour! * 60 + minute! <= 24 * 60 && minute! < 60;
  if (!isDay || !isTime) throw new OutOfDomainError('local time', local, 'a day and time, yyyy-MM-ddTHH:mm');
  const wall_ms = Date.UTC(year, month! - 1, day, hour, minute);
  const candidates = [
    wall_ms - offset_ms(wall_ms - 86_400_000, timeZone),
    wall_ms - offset_ms(wall_ms + 86_400_000, timeZone),
  ];
  const shown = candidates.filter((instant_ms) => instant_ms + offset_ms(instant_ms, timeZone) === wall_ms);
  return new Date(shown.length > 0 ? Math.min(...shown) : Math.max(...candidates));
}

function offset_ms(instant_ms: number, timeZone: string): number {
  return -new TZDate(instant_ms, timeZone).getTimezoneOffset() * 60_000;
}

/** What a wall clock shows at an instant, by a date-fns pattern; "yyyy-MM-dd'T'HH:mm" unless given. */
export function localTextOf(instant: Date, timeZone: string, pattern = "yyyy-MM-dd'T'HH:mm"): string {
  return format(new TZDate(instant.getTime(), timeZone), pattern);
}

/** The local day after another, "yyyy-MM-dd". */
export function nextDay(day: string): string {
  const [year, month, date] = day.split('-').map(Number);
  return new Date(Date.UTC(year!, month! - 1, date! + 1)).toISOString().slice(0, 10);
}
