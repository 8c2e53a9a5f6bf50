import { localTextOf } from '@brimline/calendar';

/** An instant of a plan as a local wall clock shows it, by a date-fns pattern. */
export function localText(instant: string, timeZone: string, pattern: string): string {
  return localTextOf(new Date(instant), timeZone, pattern);
}
