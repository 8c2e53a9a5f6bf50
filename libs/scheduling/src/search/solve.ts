import { SeededRandom } from '@brimline/chance';
import { lowerBound } from '../bounds/lower-bound.ts';
import type {
  Booking,
  HeldUnits,
  ObjectiveVector,
  PlacementReason,
  Plan,
  SolveOptions,
  SolveResult,
} from '../model/plan.ts';
import type { SchedulingProblem } from '../model/problem.ts';
import { type CompiledProblem, compileProblem, isWaiting } from '../placement/compiled-problem.ts';
import { placeJob } from '../placement/place-job.ts';
import { Workspace } from '../placement/workspace.ts';
import { objectiveOf, weighed } from './objective.ts';
import { passagesOf } from './passages.ts';
import { firstPriorities, neighbour } from './priorities.ts';

interface Trial {
  readonly priorities: Float64Array;
  readonly objective: ObjectiveVector;
  readonly cost: number;
}

/**
 * Books the jobs of a problem: each is placed whole, in an order that a seeded search improves. Everything that binds
 * (skills, calendars, travel, clean-outs, holds, lags) is met in every plan; what can't be placed is left out and says
 * why. One seed and one budget give one plan, on any machine.
 *
 * @throws OutOfDomainError when the problem contradicts itself: unknown names, activities that wait in a ring
 */
export function solve(problem: SchedulingProblem, options: SolveOptions): SolveResult {
  const compiled = compileProblem(problem);
  const workspace = new Workspace(compiled);
  const random = new SeededRandom(options.seed);
  let schedules = 0;
  let best: Trial | null = null;
  const bound = lowerBound(compiled, new Set(compiled.jobs.map(({ id }) => id)));
  const attempt = (priorities: Float64Array): void => {
    schedules += 1;
    const unplaced = decode(workspace, priorities).size;
    const objective = objectiveOf(workspace, unplaced);
    const cost = weighed(objective);
    if (best !== null && cost >= best.cost) return;
    best = { priorities, objective, cost };
    options.onProgress?.({ schedules, best: objective, lowerBound_min: bound.value_min });
  };
  const isOver = (): boolean => schedules >= options.schedules || options.shouldStop?.() === true;
  for (const priorities of firstPriorities(compiled)) if (best === null || !isOver()) attempt(priorities);
  while (!isOver() && compiled.jobs.length > 1) attempt(neighbour(best!.priorities, random));
  return resultOf(workspace, best!, schedules, options.seed);
}

/** Lays the jobs by priority, each after the jobs that it waits for; returns the jobs left out with their reasons. */
function decode(workspace: Workspace, priorities: Float64Array): Map<string, PlacementReason> {
  workspace.clear();
  const unplaced = new Map<string, PlacementReason>();
  for (const index of layingOrder(workspace.compiled, priorities)) {
    const job = workspace.compiled.jobs[index]!;
    const reason = placeJob(workspace, job);
    if (reason) unplaced.set(job.id, reason);
  }
  return unplaced;
}

function layingOrder(compiled: CompiledProblem, priorities: Float64Array): number[] {
  const position = new Map(compiled.jobs.map(({ id }, index) => [id, index]));
  const waitsFor = compiled.jobs.map(() => new Set<number>());
  for (const { activity, lagsIn } of compiled.activities) {
    const own = position.get(activity.jobId)!;
    for (const { from } of lagsIn.filter(isWaiting)) {
      const other = position.get(compiled.activities[from]!.activity.jobId)!;
      if (other !== own) waitsFor[own]!.add(other);
    }
  }
  const left = new Set(compiled.jobs.keys());
  const order: number[] = [];
  while (left.size > 0) {
    const ready = [...left].filter((index) => [...waitsFor[index]!].every((other) => !left.has(other)));
    const next = (ready.length > 0 ? ready : [...left]).reduce((first, index) =>
      priorities[index]! < priorities[first]! ? index : first,
    );
    left.delete(next);
    order.push(next);
  }
  return order;
}

function resultOf(workspace: Workspace, best: Trial, schedules: number, seed: number): SolveResult {
  const unplaced = decode(workspace, best.priorities);
  const { compiled } = workspace;
  const placedJobs = new Set(compiled.jobs.flatMap(({ id }) => (unplaced.has(id) ? [] : [id])));
  const bound = lowerBound(compiled, placedJobs);
  const { makespan_min } = best.objective;
  const plan: Plan = {
    bookings: bookingsOf(workspace),
    held: heldUnits(workspace),
    passages: passagesOf(workspace),
    objective: best.objective,
    lowerBound_min: bound.value_min,
    bound: bound.name,
    gap: bound.value_min > 0 ? (makespan_min - bound.value_min) / bound.value_min : 0,
    schedules,
    seed,
  };
  return { plan, unplaced: [...unplaced].map(([jobId, reason]) => ({ jobId, reasons: [reason] })) };
}

function bookingsOf({ compiled, placed }: Workspace): Booking[] {
  return compiled.activities.flatMap(({ activity }, index) => {
    const one = placed[index];
    if (!one) return [];
    const { needs } = activity.modes[one.mode]!;
    return [
      {
        activityId: activity.id,
        jobId: activity.jobId,
        mode: one.mode,
        start_min: one.start_min,
        end_min: one.end_min,
        pieces: one.pieces,
        units: one.units.map((units, need) => ({
          need: needs[need]!.name,
          unitIds: units.map((unit) => compiled.problem.units[unit]!.id),
        })),
      },
    ];
  });
}

function heldUnits({ compiled, held }: Workspace): HeldUnits[] {
  return held.map(({ hold, units, start_min, end_min }) => ({
    holdId: hold.hold.id,
    jobId: hold.hold.jobId,
    unitIds: units.map((unit) => compiled.problem.units[unit]!.id),
    start_min,
    end_min,
  }));
}
