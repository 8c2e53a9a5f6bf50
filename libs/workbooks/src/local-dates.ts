import { localText } from '@brimline/planning';

/** Spreadsheet cells know no zone: the local wall clock is written as if it were UTC. */
export function localCell(instant: string, timeZone: string): Date {
  return new Date(`${localText(instant, timeZone, "yyyy-MM-dd'T'HH:mm")}:00Z`);
}

export const CLOCK_FORMAT = 'ddd d mmm hh:mm';

/** @example dayText('2026-11-20') // => '20 November 2026' */
export function dayText(day: string): string {
  return localText(`${day}T12:00:00Z`, 'UTC', 'd MMMM yyyy');
}
