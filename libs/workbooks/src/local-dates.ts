import { localText } from '@brimline/planning';

/** Spreadsheet cells know no zone: the local wall clock is written as if it were UTC. */
export function localCell(instant: string, timeZone: string): Date {
  return new Date(`${localText(instant, timeZone, "yyyy-MM-dd'T'HH:mm")}:00Z`);
}

export const CLOCK_FORMAT = 'ddd d mmm hh:mm';
