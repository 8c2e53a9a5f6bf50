import type { Quote } from '@brimline/costing';
import type { PhaseEstimate } from '@brimline/estimating';
import type { Booking, HeldUnits, Plan } from '@brimline/scheduling';
import type { BookedPhase, JobHours, PlannedJob } from './week-plan.ts';
import { activityId, type EstimatedJob } from './week-problem.ts';

/** Reads a job's bookings out of a plan, in instants and hours. */
export class JobBookings {
  private readonly bookings: ReadonlyMap<string, Booking>;
  private readonly held: readonly HeldUnits[];

  constructor(
    plan: Plan,
    private readonly epoch: Date,
    private readonly gearIds: ReadonlySet<string>,
    private readonly cylinderIds: ReadonlySet<string>,
  ) {
    this.bookings = new Map(plan.bookings.map((booking) => [booking.activityId, booking]));
    this.held = plan.held;
  }

  isPlaced({ job, estimate }: EstimatedJob): boolean {
    return estimate.phases.every((phase) => this.bookings.has(activityId(job, phase)));
  }

  phases({ job, estimate }: EstimatedJob): BookedPhase[] {
    const held = this.held.filter(({ jobId }) => jobId === job.id);
    return estimate.phases.map((phase) =>
      this.bookedPhase(phase, this.bookings.get(activityId(job, phase))!, held),
    );
  }

  /** When the job's cylinders leave the stock and when they are free again; null where it holds none. */
  cylindersHeld({ job }: EstimatedJob): PlannedJob['cylindersHeld'] {
    const holds = this.held.filter(
      ({ jobId, unitIds }) => jobId === job.id && unitIds.some((id) => this.cylinderIds.has(id)),
    );
    if (holds.length === 0) return null;
    return {
      start: this.instant(Math.min(...holds.map(({ start_min }) => start_min))),
      end: this.instant(Math.max(...holds.map(({ end_min }) => end_min))),
    };
  }

  cylinders({ job }: EstimatedJob): string[] {
    const ids = this.held.filter(({ jobId }) => jobId === job.id).flatMap(({ unitIds }) => unitIds);
    return [...new Set(ids.filter((id) => this.cylinderIds.has(id)))].toSorted();
  }

  instant(minute: number): string {
    return new Date(this.epoch.getTime() + minute * 60_000).toISOString();
  }

  private bookedPhase(phase: PhaseEstimate, booking: Booking, held: readonly HeldUnits[]): BookedPhase {
    const people = booking.units.flatMap(({ unitIds }) => unitIds);
    const worked_min = booking.pieces.reduce((sum, [from, to]) => sum + to - from, 0);
    const during = held.filter(
      ({ start_min, end_min }) => start_min < booking.end_min && end_min > booking.start_min,
    );
    const unitIds = during.flatMap((hold) => hold.unitIds);
    const used = new Set(phase.gear.flatMap(({ eligibleIds }) => eligibleIds));
    return {
      id: phase.id,
      kind: phase.kind,
      title: phase.title,
      manner: phase.manner,
      start: this.instant(booking.start_min),
      end: this.instant(booking.end_min),
      pieces: booking.pieces.map(([from, to]) => ({ start: this.instant(from), end: this.instant(to) })),
      attended_h: (worked_min / 60) * people.length,
      people,
      gear: unitIds.filter((id) => this.gearIds.has(id) && used.has(id)).toSorted(),
      cylinders: unitIds.filter((id) => this.cylinderIds.has(id)).toSorted(),
    };
  }
}

/** A job as the plan shows it. */
export function plannedJob(
  one: EstimatedJob,
  bookings: JobBookings,
  phases: readonly BookedPhase[],
  quote: Quote,
): PlannedJob {
  const { job, site, chiller, estimate } = one;
  return {
    id: job.id,
    title: job.title,
    scope: job.scope,
    refrigerant: estimate.refrigerant,
    charge_kg: estimate.account.nameplate_kg,
    site: { id: site.id, name: site.name, timeZone: site.timeZone },
    chiller: { id: chiller.id, description: chiller.description },
    due: job.due,
    hours: hoursOf(one),
    price: { currency: quote.currency, minorUnits: quote.price.minorUnits },
    setup: estimate.setup,
    cylinders: bookings.cylinders(one),
    cylindersHeld: bookings.cylindersHeld(one),
    phases,
    cautions: estimate.cautions,
    assumptions: estimate.assumptions,
    estimate,
    quote,
  };
}

function hoursOf({ estimate }: EstimatedJob): JobHours {
  return {
    elapsed: estimate.elapsed_s / 3600,
    attended: estimate.attended_person_s / 3600,
    gear: estimate.gear_s / 3600,
    p50: estimate.elapsed.p50_s / 3600,
    p80: estimate.elapsed.p80_s / 3600,
    p90: estimate.elapsed.p90_s / 3600,
  };
}
