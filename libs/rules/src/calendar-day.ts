import { OutOfDomainError, SECONDS_PER_DAY } from '@brimline/quantities';

const MILLISECONDS_PER_DAY = SECONDS_PER_DAY * 1000;

function dayNumber(day: string): number {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/u.exec(day);
  if (!parts) return NaN;
  const [year, month, date] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  const number = Date.UTC(year, month - 1, date) / MILLISECONDS_PER_DAY;
  return dayText(number) === day ? number : NaN;
}

function dayText(number: number): string {
  return new Date(number * MILLISECONDS_PER_DAY).toISOString().slice(0, 10);
}

export function isDay(text: string): boolean {
  return !Number.isNaN(dayNumber(text));
}

/** @throws OutOfDomainError unless the text is a day of the calendar, "yyyy-MM-dd" */
export function requireDay(what: string, day: string): number {
  const number = dayNumber(day);
  if (Number.isNaN(number)) throw new OutOfDomainError(what, day, 'a calendar day, yyyy-MM-dd');
  return number;
}

/** The day so many days later. */
export function daysAfter(day: string, days: number): string {
  return dayText(requireDay('day', day) + days);
}

/** Days from one day to another, negative when the second is earlier. */
export function daysBetween(from: string, to: string): number {
  return requireDay('day', to) - requireDay('day', from);
}

/** The month "yyyy-MM" so many years later; a day of that month may be given. */
export function monthYearsAfter(month: string, years: number): string {
  const day = month.length === 7 ? `${month}-01` : month;
  requireDay('month', day);
  return `${String(Number(day.slice(0, 4)) + years).padStart(4, '0')}-${day.slice(5, 7)}`;
}

/** Last day of a month "yyyy-MM". */
export function lastDayOf(month: string): string {
  const first = `${month}-01`;
  requireDay('month', first);
  const next = daysAfter(first, 31).slice(0, 7);
  return daysAfter(`${next}-01`, -1);
}
