import { instantOfLocal } from '@brimline/calendar';
import type { Estimate, PhaseEstimate, PhaseKind } from '@brimline/estimating';
import type { Certificate, Chiller, Firm, GearUnit, Job, Person, Site } from '@brimline/firm';
import type { Activity, Hold, Lag, Need, SchedulingProblem, Unit } from '@brimline/scheduling';
import {
  accessCalendarId,
  calendarsOf,
  dayWorkCalendarId,
  horizonOf,
  outageCalendarId,
  shiftCalendarId,
  zoneOfPerson,
} from './calendars.ts';
import { travelMatrix } from './travel.ts';

/** A job with the estimate that is to be booked. */
export interface EstimatedJob {
  readonly job: Job;
  readonly site: Site;
  readonly chiller: Chiller;
  readonly estimate: Estimate;
  /** Certificate skill that the refrigerant asks for. */
  readonly skill: string;
  /** Cylinders from stock that travel with the job. */
  readonly supplyIds: readonly string[];
}

export const LEAD_SKILL = 'lead';
export const LOW_PRESSURE_SKILL = 'certified, low pressure';
export const HIGH_PRESSURE_SKILL = 'certified, medium to very high pressure';

/** Emptying, evacuating and relabelling a cylinder for another refrigerant: assumed, low confidence. */
const CYLINDER_CHANGE_MIN = 8 * 60;
/** Shorter pieces of work are not worth a trip: common practice, no source. */
const SHORTEST_PIECE_MIN = 60;

/** Phases in which the machine may still serve the building; in all others it is out of service. */
const IN_SERVICE: ReadonlySet<PhaseKind> = new Set<PhaseKind>([
  'arrive and lock out',
  'rig up',
  'rig down and records',
]);

export const activityId = (job: Job, phase: PhaseEstimate): string => `${job.id}/${phase.id}`;

/** Turns the estimated jobs of a week into a problem that the scheduler can solve. */
export function weekProblem(firm: Firm, jobs: readonly EstimatedJob[]): SchedulingProblem {
  const { epoch, end } = horizonOf(firm);
  const places = [...firm.bases, ...firm.sites];
  return {
    horizon_min: (end.getTime() - epoch.getTime()) / 60_000,
    calendars: calendarsOf(firm),
    places: places.map(({ id }) => id),
    travel_min: travelMatrix(places),
    units: [
      ...firm.people.map((person) => personUnit(firm, person, epoch)),
      ...firm.gear.map((unit) => gearUnit(unit)),
      ...firm.cylinders.map(({ id, baseId, refrigerant }) => ({
        ...gearFacts(id, 'cylinder', baseId),
        cleanOut: { minutes: CYLINDER_CHANGE_MIN, initialState: refrigerant },
      })),
    ],
    capacities: [],
    budgets: [],
    activities: jobs.flatMap((one) => activitiesOf(firm, one, epoch)),
    lags: jobs.flatMap(lagsOf),
    holds: jobs.flatMap((one) => [...gearHolds(one), ...cylinderHolds(one)]),
  };
}

function gearFacts(id: string, kind: string, baseId: string): Omit<Unit, 'cleanOut'> {
  return { id, kind, calendarId: null, basePlace: baseId, returnsToBase: false, skills: [] };
}

function gearUnit(unit: GearUnit): Unit {
  const changes = unit.kind === 'recovery machine' || (unit.kind === 'hose set' && unit.use === 'transfer');
  return {
    ...gearFacts(unit.id, unit.kind, unit.baseId),
    cleanOut: changes
      ? { minutes: Math.ceil(unit.cleanOut_s / 60), initialState: unit.lastRefrigerant }
      : null,
  };
}

function personUnit(firm: Firm, person: Person, epoch: Date): Unit {
  const zone = zoneOfPerson(firm, person);
  const skills = person.certificates.flatMap((certificate) =>
    skillsOf(certificate).map((name) => ({
      name,
      validUntil_min: lastMinute(certificate.validUntil, zone, epoch),
    })),
  );
  if (person.grade === 'lead') skills.push({ name: LEAD_SKILL, validUntil_min: null });
  return {
    id: person.id,
    kind: 'person',
    calendarId: shiftCalendarId(person),
    basePlace: person.baseId,
    returnsToBase: true,
    skills,
    cleanOut: null,
  };
}

/** 40 CFR 82.161, from memory: type II for medium to very high pressure, type III for low, universal for all. */
function skillsOf({ kind }: Certificate): string[] {
  if (kind === 'universal') return [LOW_PRESSURE_SKILL, HIGH_PRESSURE_SKILL];
  if (kind === 'type II') return [HIGH_PRESSURE_SKILL];
  return kind === 'type III' ? [LOW_PRESSURE_SKILL] : [];
}

function lastMinute(day: string | null, zone: string, epoch: Date): number | null {
  if (day === null) return null;
  return Math.floor((instantOfLocal(`${day}T23:59`, zone).getTime() - epoch.getTime()) / 60_000);
}

function activitiesOf(firm: Firm, { job, site, estimate, skill }: EstimatedJob, epoch: Date): Activity[] {
  const minutes = (local: string): number =>
    Math.round((instantOfLocal(local, site.timeZone).getTime() - epoch.getTime()) / 60_000);
  const last = estimate.phases.at(-1);
  return estimate.phases.map((phase): Activity => {
    const duration_min = Math.max(1, Math.ceil(phase.planned_s / 60));
    return {
      id: activityId(job, phase),
      jobId: job.id,
      place: site.id,
      calendarIds: calendarIdsOf(site, phase),
      breakable: phase.interruptible,
      minimumPiece_min: Math.min(SHORTEST_PIECE_MIN, duration_min),
      release_min: Math.max(0, minutes(job.notBefore)),
      deadline_min: null,
      due_min: phase === last ? minutes(job.due) : null,
      state: estimate.refrigerant,
      modes: [{ duration_min, needs: needsOf(firm, phase, skill), amounts: [], consumes: [] }],
      pinned: null,
    };
  });
}

function calendarIdsOf(site: Site, phase: PhaseEstimate): string[] {
  const ids: string[] = [];
  if (phase.kind === 'open work') ids.push(dayWorkCalendarId(site));
  else if (phase.manner !== 'unattended' && site.access.length > 0) ids.push(accessCalendarId(site));
  if (!IN_SERVICE.has(phase.kind) && site.outages.length > 0) ids.push(outageCalendarId(site));
  return ids;
}

function needsOf(firm: Firm, phase: PhaseEstimate, skill: string): Need[] {
  const eligible = firm.people.map(({ id }) => id);
  const need = (name: string, count: number, skills: readonly string[]): Need => ({
    name,
    eligible,
    count,
    skills,
    keptInBreaks: false,
  });
  const leads = phase.needsLead ? 1 : 0;
  const certified = Math.max(0, phase.certified - leads);
  const others = Math.max(0, phase.crew - leads - certified);
  return [
    need('lead', leads, phase.certified > 0 ? [LEAD_SKILL, skill] : [LEAD_SKILL]),
    need('certified', certified, [skill]),
    need('second person', others, []),
  ].filter(({ count }) => count > 0);
}

function lagsOf({ job, estimate }: EstimatedJob): Lag[] {
  return estimate.phases.slice(1).map((phase, index): Lag => {
    const { minimum_s, maximum_s } = phase.gapBefore;
    return {
      from: activityId(job, estimate.phases[index]!),
      fromEnd: 'end',
      to: activityId(job, phase),
      toEnd: 'start',
      minimum_min: Math.ceil(minimum_s / 60),
      maximum_min: maximum_s === null ? null : Math.floor(maximum_s / 60),
    };
  });
}

/** One hold for each unbroken run of phases that use the same kind of gear: it stays on site between them. */
function gearHolds({ job, estimate }: EstimatedJob): Hold[] {
  const holds: Hold[] = [];
  const open = new Map<
    string,
    { from: PhaseEstimate; to: PhaseEstimate; use: PhaseEstimate['gear'][number] }
  >();
  const close = (key: string): void => {
    const run = open.get(key);
    if (!run) return;
    open.delete(key);
    holds.push({
      id: `${job.id}/${run.use.kind} from ${run.from.id}`,
      jobId: job.id,
      fromActivity: activityId(job, run.from),
      toActivity: activityId(job, run.to),
      eligible: run.use.eligibleIds,
      count: run.use.count,
      state: estimate.refrigerant,
    });
  };
  for (const phase of estimate.phases) {
    const used = new Map(
      phase.gear.map((use) => [`${use.kind} ${use.count} ${use.eligibleIds.join(' ')}`, use]),
    );
    for (const key of [...open.keys()]) if (!used.has(key)) close(key);
    for (const [key, use] of used) open.set(key, { from: open.get(key)?.from ?? phase, to: phase, use });
  }
  for (const key of [...open.keys()]) close(key);
  return holds;
}

function cylinderHolds({ job, estimate, supplyIds }: EstimatedJob): Hold[] {
  const phaseOf = (...kinds: PhaseKind[]): PhaseEstimate | undefined =>
    estimate.phases.find(({ kind }) => kinds.includes(kind));
  const last = estimate.phases.at(-1)!;
  const back = phaseOf('liquid recharge') ?? last;
  const holds: Hold[] = [];
  const plan = estimate.cylinders;
  const out = phaseOf('liquid recovery', 'vapour recovery');
  if (plan && out) {
    holds.push({
      id: `${job.id}/cylinders`,
      jobId: job.id,
      fromActivity: activityId(job, out),
      toActivity: activityId(job, back),
      eligible: plan.eligibleIds,
      count: plan.needed + plan.spare,
      state: estimate.refrigerant,
    });
  }
  const first = phaseOf('vapour pre-charge', 'liquid recharge');
  if (supplyIds.length > 0 && first) {
    holds.push({
      id: `${job.id}/supply`,
      jobId: job.id,
      fromActivity: activityId(job, first),
      toActivity: activityId(job, back),
      eligible: supplyIds,
      count: supplyIds.length,
      state: estimate.refrigerant,
    });
  }
  return holds;
}
