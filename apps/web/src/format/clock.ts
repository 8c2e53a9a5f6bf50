import { localTextOf } from '@brimline/calendar';

/** The zone of the machine that shows the page. */
export function ownZone(): string {
  return new Intl.DateTimeFormat().resolvedOptions().timeZone;
}

/** The clock of a zone; null is the job's own working clock, in hours since arrival. */
export type ClockFace = string | null;

const HOUR_MS = 3_600_000;

/** "06:30" on a zone's clock, "6.5 h" on the working clock. */
export function faceTimeText(at_ms: number, face: ClockFace): string {
  return face === null ? hoursSinceArrival(at_ms) : timeText(at_ms, face);
}

/** "Tue 3 Nov 06:30" on a zone's clock, "6.5 h" on the working clock. */
export function faceDayTimeText(at_ms: number, face: ClockFace): string {
  return face === null ? hoursSinceArrival(at_ms) : dayTimeText(at_ms, face);
}

function hoursSinceArrival(at_ms: number): string {
  const hours = at_ms / HOUR_MS;
  const isWhole = Math.abs(hours - Math.round(hours)) < 0.05;
  return `${hours.toFixed(isWhole ? 0 : 1)} h`;
}

/** "06:30" */
export function timeText(at_ms: number, timeZone: string): string {
  return localTextOf(new Date(at_ms), timeZone, 'HH:mm');
}

/** "Tue" */
export function weekdayText(at_ms: number, timeZone: string): string {
  return localTextOf(new Date(at_ms), timeZone, 'EEE');
}

/** "Tue 3 Nov" */
export function dayText(at_ms: number, timeZone: string): string {
  return localTextOf(new Date(at_ms), timeZone, 'EEE d MMM');
}

/** "Tue 3 Nov 06:30" */
export function dayTimeText(at_ms: number, timeZone: string): string {
  return localTextOf(new Date(at_ms), timeZone, 'EEE d MMM HH:mm');
}

/** "Tue 06:30" */
export function weekdayTimeText(at_ms: number, timeZone: string): string {
  return localTextOf(new Date(at_ms), timeZone, 'EEE HH:mm');
}

/** "Tue 3 Nov 06:30 to 17:00", with the second day where it is another. */
export function spanOfDaysText(from_ms: number, to_ms: number, timeZone: string): string {
  const isOneDay = dayText(from_ms, timeZone) === dayText(to_ms, timeZone);
  const end = isOneDay ? timeText(to_ms, timeZone) : dayTimeText(to_ms, timeZone);
  return `${dayTimeText(from_ms, timeZone)} to ${end}`;
}

/** Name of the zone as it stands at an instant: "CST". */
export function zoneName(at_ms: number, timeZone: string): string {
  const parts = new Intl.DateTimeFormat('en-US', { timeZone, timeZoneName: 'short' }).formatToParts(at_ms);
  return parts.find(({ type }) => type === 'timeZoneName')?.value ?? timeZone;
}

/** "America/Port_of_Spain" as a place: "Port of Spain". */
export function zonePlace(timeZone: string): string {
  return (timeZone.split('/').at(-1) ?? timeZone).replaceAll('_', ' ');
}

/** A local day such as "2026-11-05" in words: "Thu 5 Nov 2026". */
export function localDayText(day: string): string {
  return localTextOf(new Date(`${day}T12:00:00Z`), 'UTC', 'EEE d MMM yyyy');
}
