import { localTextOf } from '@brimline/calendar';
import { paySegments, type PaySegment, priceJob, type Quote, type WorkedPiece } from '@brimline/costing';
import type { Firm, GearKind } from '@brimline/firm';
import { SECONDS_PER_HOUR } from '@brimline/quantities';
import type { Plan } from '@brimline/scheduling';
import type { JobBookings } from './booked-jobs.ts';
import { roadDistance } from './travel.ts';
import type { BookedPhase } from './week-plan.ts';
import type { EstimatedJob } from './week-problem.ts';

/** A job with the phases that the plan booked. */
export interface BookedJob {
  readonly one: EstimatedJob;
  readonly phases: readonly BookedPhase[];
}

/** Prices every booked job; overtime is counted over all jobs of a person together. */
export function priceJobs(
  firm: Firm,
  booked: readonly BookedJob[],
  bookings: JobBookings,
  plan: Plan,
): Map<string, Quote> {
  const pay = paySegments(
    booked.flatMap((job) => workedPieces(firm, job)),
    firm.rateCard.overtime,
  );
  return new Map(booked.map((job) => [job.one.job.id, quoteOf(firm, job, bookings, plan, pay)]));
}

function workedPieces(firm: Firm, { one, phases }: BookedJob): WorkedPiece[] {
  return phases.flatMap((phase) =>
    phase.people.flatMap((personId) =>
      phase.pieces.map((piece): WorkedPiece => ({
        personId,
        jobId: one.job.id,
        labourClass: firm.people.find(({ id }) => id === personId)!.labourClass,
        start: new Date(piece.start),
        end: new Date(piece.end),
        timeZone: one.site.timeZone,
      })),
    ),
  );
}

function quoteOf(
  firm: Firm,
  { one, phases }: BookedJob,
  bookings: JobBookings,
  plan: Plan,
  pay: readonly PaySegment[],
): Quote {
  const { job, estimate, site } = one;
  const travel = travelOf(firm, one, plan);
  const held = bookings.cylindersHeld(one);
  const bought_kg = estimate.account.fromStock_kg;
  return priceJob(
    {
      jobId: job.id,
      pay: pay.filter(({ jobId }) => jobId === job.id),
      ...travel,
      gearDays: gearDays(firm, phases, site.timeZone),
      cylinderDays: held ? bookings.cylinders(one).length * days(held.start, held.end, site.timeZone) : 0,
      refrigerant: bought_kg > 0 ? { name: estimate.refrigerant, mass_kg: bought_kg } : null,
      nitrogenCylinders: estimate.nitrogenCylinders,
      filterDriers: estimate.filterDriers,
      oilChanges: estimate.oilChanges,
      contingencyHours: Math.max(0, estimate.attended.p80_s - estimate.attended_person_s) / SECONDS_PER_HOUR,
      due: job.due.slice(0, 10),
    },
    firm.rateCard,
  );
}

/** Legs of people that end at the site, and those from the site back to a base. */
function travelOf(firm: Firm, { site }: EstimatedJob, plan: Plan): { travel_h: number; travel_km: number } {
  const people = new Set(firm.people.map(({ id }) => id));
  const bases = new Set(firm.bases.map(({ id }) => id));
  const places = new Map([...firm.bases, ...firm.sites].map((place) => [place.id, place]));
  let travel_min = 0;
  let travel_m = 0;
  for (const leg of plan.passages) {
    const isOurs = leg.toPlace === site.id || (leg.fromPlace === site.id && bases.has(leg.toPlace ?? ''));
    if (leg.kind !== 'travel' || !people.has(leg.unitId) || !isOurs) continue;
    travel_min += leg.end_min - leg.start_min;
    travel_m += roadDistance(places.get(leg.fromPlace!)!, places.get(leg.toPlace!)!);
  }
  return { travel_h: travel_min / 60, travel_km: travel_m / 1000 };
}

/** Calendar days from the first to the last use of each unit, idle days included. */
function gearDays(
  firm: Firm,
  phases: readonly BookedPhase[],
  timeZone: string,
): { kind: GearKind; days: number }[] {
  const spans = new Map<string, { start: string; end: string }>();
  for (const { gear, start, end } of phases) {
    for (const id of gear) spans.set(id, { start: spans.get(id)?.start ?? start, end });
  }
  const byKind = new Map<GearKind, number>();
  for (const [id, { start, end }] of spans) {
    const { kind } = firm.gear.find((unit) => unit.id === id)!;
    byKind.set(kind, (byKind.get(kind) ?? 0) + days(start, end, timeZone));
  }
  return [...byKind].map(([kind, count]) => ({ kind, days: count }));
}

/** Local calendar days that a span touches. */
function days(start: string, end: string, timeZone: string): number {
  const dayOf = (instant: string): number =>
    Date.parse(`${localTextOf(new Date(instant), timeZone, 'yyyy-MM-dd')}T00:00:00Z`) / 86_400_000;
  return dayOf(end) - dayOf(start) + 1;
}
