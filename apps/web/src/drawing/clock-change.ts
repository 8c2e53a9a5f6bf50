import type { DayOfClock } from './even-clock.ts';

const HOUR_MS = 3_600_000;

/** Days of a clock that are longer or shorter than 24 hours, with their hours. */
export function clockChanges(
  days: readonly DayOfClock[],
): { readonly day: DayOfClock; readonly hours: number }[] {
  return days
    .map((day) => ({ day, hours: (day.to_ms - day.from_ms) / HOUR_MS }))
    .filter(({ hours }) => hours !== 24);
}
