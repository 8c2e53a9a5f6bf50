import type { Firm } from '@brimline/firm';
import { checkPlan, type SolveResult, solve } from '@brimline/scheduling';
import { JobBookings, plannedJob } from './booked-jobs.ts';
import { horizonOf, zoneOfPerson } from './calendars.ts';
import { ENGINE_VERSION } from './engine-version.ts';
import { estimateJobs, type JobEstimates } from './estimate-jobs.ts';
import { priceJobs } from './price-job.ts';
import type { PlannedJob, Refusal, ScheduleFacts, WeekPlan } from './week-plan.ts';
import { type EstimatedJob, weekProblem } from './week-problem.ts';

export interface PlanProgress {
  readonly stage: 'estimating' | 'scheduling';
  readonly done: number;
  readonly of: number;
}

export interface PlanOptions {
  readonly seed: number;
  /** Passes of the scheduler's generation scheme. */
  readonly schedules?: number;
  readonly onProgress?: (progress: PlanProgress) => void;
  readonly shouldStop?: () => boolean;
}

export type PlanOutcome =
  | { readonly kind: 'planned'; readonly plan: WeekPlan }
  | { readonly kind: 'nothing feasible'; readonly refused: readonly Refusal[] };

/** Enough that a longer search seldom finds better on a week of a dozen jobs. */
const SCHEDULES = 400;

/**
 * The main job: estimates every job of the firm, books the week and prices it. Jobs that can't be done are refused
 * with their reasons; the rest is planned. The same firm and seed give the same plan.
 *
 * @throws Error when the scheduler's plan breaks a constraint by the independent check: a fault, never a result
 */
export function planFirm(firm: Firm, options: PlanOptions): PlanOutcome {
  const of = firm.jobs.length;
  const estimates = estimateJobs(firm, options.seed, (done) =>
    options.onProgress?.({ stage: 'estimating', done, of }),
  );
  const problem = weekProblem(firm, estimates.estimated);
  const schedules = options.schedules ?? SCHEDULES;
  const result = solve(problem, {
    seed: options.seed,
    schedules,
    onProgress: ({ schedules: done }) => options.onProgress?.({ stage: 'scheduling', done, of: schedules }),
    ...(options.shouldStop ? { shouldStop: options.shouldStop } : {}),
  });
  const violations = checkPlan(problem, result.plan);
  if (violations.length > 0)
    throw new Error(`the plan breaks a constraint: ${JSON.stringify(violations[0])}`);
  return outcomeOf(firm, options.seed, estimates, result);
}

function outcomeOf(
  firm: Firm,
  seed: number,
  { estimated, refused }: JobEstimates,
  result: SolveResult,
): PlanOutcome {
  const unplaced = result.unplaced.map(({ jobId, reasons }): Refusal => ({
    id: jobId,
    title: titleOf(estimated, jobId),
    reasons,
  }));
  const everyRefusal = [...refused, ...unplaced].toSorted((a, b) => a.id.localeCompare(b.id));
  const placed = estimated.filter(({ job }) => !unplaced.some(({ id }) => id === job.id));
  if (placed.length === 0) return { kind: 'nothing feasible', refused: everyRefusal };
  const { epoch } = horizonOf(firm);
  const bookings = new JobBookings(
    result.plan,
    epoch,
    new Set(firm.gear.map(({ id }) => id)),
    new Set(firm.cylinders.map(({ id }) => id)),
  );
  const plan: WeekPlan = {
    firm: { name: firm.name, notice: firm.notice },
    planFrom: firm.planFrom,
    planDays: firm.planDays,
    epoch: epoch.toISOString(),
    engineVersion: ENGINE_VERSION,
    seed,
    people: firm.people.map((person) => ({
      id: person.id,
      name: person.name,
      grade: person.grade,
      timeZone: zoneOfPerson(firm, person),
    })),
    gear: firm.gear.map(({ id, kind, description }) => ({ id, kind, description })),
    cylinders: firm.cylinders.map(({ id, waterCapacity_kg, ports }) => ({ id, waterCapacity_kg, ports })),
    jobs: plannedJobs(firm, placed, bookings, result),
    refused: everyRefusal,
    schedule: scheduleFacts(result, bookings),
    passages: result.plan.passages.map(({ start_min, end_min, ...passage }) => ({
      ...passage,
      start: bookings.instant(start_min),
      end: bookings.instant(end_min),
    })),
  };
  return { kind: 'planned', plan };
}

function plannedJobs(
  firm: Firm,
  placed: readonly EstimatedJob[],
  bookings: JobBookings,
  result: SolveResult,
): PlannedJob[] {
  const booked = placed.map((one) => ({ one, phases: bookings.phases(one) }));
  const quotes = priceJobs(firm, booked, bookings, result.plan);
  return booked
    .map(({ one, phases }) => plannedJob(one, bookings, phases, quotes.get(one.job.id)!))
    .toSorted((a, b) => a.id.localeCompare(b.id));
}

function titleOf(estimated: readonly EstimatedJob[], jobId: string): string {
  return estimated.find(({ job }) => job.id === jobId)?.job.title ?? jobId;
}

function scheduleFacts({ plan }: SolveResult, bookings: JobBookings): ScheduleFacts {
  return {
    objective: plan.objective,
    lowerBound: bookings.instant(plan.lowerBound_min),
    end: bookings.instant(plan.objective.makespan_min),
    bound: plan.bound,
    gap: plan.gap,
    schedules: plan.schedules,
  };
}
