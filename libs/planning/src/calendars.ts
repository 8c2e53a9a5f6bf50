import { expandWeekly, instantOfLocal, openMinutes, type Span, subtractSpans } from '@brimline/calendar';
import type { Firm, Person, Site } from '@brimline/firm';
import type { Calendar } from '@brimline/scheduling';

/** Hours in which others do the open work on a site that sets none: common practice, no source. */
const DAY_WORK = [
  { days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'], from: '07:00', to: '17:00' },
] as const;

export const accessCalendarId = (site: Site): string => `access ${site.id}`;
export const outageCalendarId = (site: Site): string => `outage ${site.id}`;
export const dayWorkCalendarId = (site: Site): string => `day work ${site.id}`;
export const shiftCalendarId = (person: Person): string => `shifts ${person.id}`;

/** The plan's horizon as instants: from local midnight of the first day at the first base. */
export function horizonOf(firm: Firm): { readonly epoch: Date; readonly end: Date } {
  const zone = firm.bases[0]?.timeZone ?? 'UTC';
  const epoch = instantOfLocal(`${firm.planFrom}T00:00`, zone);
  return { epoch, end: new Date(epoch.getTime() + firm.planDays * 86_400_000) };
}

/** Every calendar that a plan of the firm needs, in minutes after the epoch. */
export function calendarsOf(firm: Firm): Calendar[] {
  return [
    ...firm.sites.flatMap((site) => siteCalendars(firm, site)),
    ...firm.people.map((one) => shiftsOf(firm, one)),
  ];
}

function siteCalendars(firm: Firm, site: Site): Calendar[] {
  const { epoch, end } = horizonOf(firm);
  const weekly = (windows: Parameters<typeof expandWeekly>[0]): Calendar['open'] =>
    openMinutes(expandWeekly(windows, site.timeZone, epoch, end), epoch);
  const access = site.access.length > 0 ? weekly(site.access) : null;
  const calendars: Calendar[] = [{ id: dayWorkCalendarId(site), open: access ?? weekly(DAY_WORK) }];
  if (access) calendars.push({ id: accessCalendarId(site), open: access });
  if (site.outages.length > 0) {
    const spans = site.outages.map(({ from, to }): Span => [
      instantOfLocal(from, site.timeZone),
      instantOfLocal(to, site.timeZone),
    ]);
    calendars.push({ id: outageCalendarId(site), open: openMinutes(spans, epoch) });
  }
  return calendars;
}

function shiftsOf(firm: Firm, person: Person): Calendar {
  const { epoch, end } = horizonOf(firm);
  const zone = zoneOfPerson(firm, person);
  const shifts = expandWeekly(person.shifts, zone, epoch, end);
  const away = person.absences.map(({ from, to }): Span => [
    instantOfLocal(from, zone),
    instantOfLocal(to, zone),
  ]);
  return { id: shiftCalendarId(person), open: openMinutes(subtractSpans(shifts, away), epoch) };
}

/** A person's clock is the clock of the base. */
export function zoneOfPerson(firm: Firm, person: Person): string {
  return firm.bases.find(({ id }) => id === person.baseId)?.timeZone ?? 'UTC';
}
