import type { WeekPlan } from '@brimline/planning';
import { BookingEntity, PlanEntity } from './entities/plans.ts';
import type { Store } from './store.ts';

/** Two takers for one unit at one time: the database refuses. */
export class BookingClashError extends Error {
  constructor(cause: unknown) {
    super('a person, gear unit or cylinder would be booked twice at one time', { cause });
    this.name = 'BookingClashError';
  }
}

/** Plans and the bookings that they make. */
export class PlanRepository {
  constructor(private readonly store: Store) {}

  /**
   * Keeps a plan with all its bookings, or nothing of it.
   *
   * @throws BookingClashError when any unit would be taken twice at one time
   */
  async save(plan: WeekPlan, made: Date): Promise<number> {
    try {
      return await this.store.write(async (manager) => {
        const { seed, engineVersion } = plan;
        const { identifiers } = await manager.insert(PlanEntity, {
          made,
          seed,
          engineVersion,
          content: plan as never,
        });
        const planId = Number(identifiers[0]!['id']);
        for (const booking of bookingsOf(plan)) await manager.insert(BookingEntity, { ...booking, planId });
        return planId;
      });
    } catch (error) {
      if (error instanceof Error && error.message.includes('booking_no_overlap'))
        throw new BookingClashError(error);
      throw error;
    }
  }

  async latest(): Promise<WeekPlan | null> {
    const [plan] = await this.store.read.find(PlanEntity, { order: { id: 'DESC' }, take: 1 });
    return plan?.content ?? null;
  }

  async countBookings(): Promise<number> {
    return this.store.read.count(BookingEntity);
  }
}

interface Span {
  readonly unitId: string;
  readonly jobId: string;
  readonly start: Date;
  readonly end: Date;
}

function bookingsOf(plan: WeekPlan): Span[] {
  return plan.jobs.flatMap(({ id: jobId, phases, cylinders, cylindersHeld }) => [
    ...phases.flatMap(({ people, gear, pieces, start, end }) => [
      ...people.flatMap((unitId) => pieces.map((piece) => span(unitId, jobId, piece.start, piece.end))),
      ...gear.map((unitId) => span(unitId, jobId, start, end)),
    ]),
    ...(cylindersHeld
      ? cylinders.map((unitId) => span(unitId, jobId, cylindersHeld.start, cylindersHeld.end))
      : []),
  ]);
}

function span(unitId: string, jobId: string, start: string, end: string): Span {
  return { unitId, jobId, start: new Date(start), end: new Date(end) };
}
