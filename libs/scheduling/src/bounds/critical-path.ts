import type { SchedulingProblem } from '../model/problem.ts';
import { type CompiledProblem, compileProblem } from '../placement/compiled-problem.ts';
import { piecesFrom } from '../placement/open-time.ts';

export interface EarliestTimes {
  readonly starts: Float64Array;
  readonly ends: Float64Array;
}

/**
 * Earliest start and end of every activity if nobody and nothing else were in the way: longest path over the lags of
 * both signs with the shortest modes, each in the open time of its own calendars. No plan can do better.
 *
 * @returns minutes; infinite where the open time does not suffice
 */
export function earliestTimes(compiled: CompiledProblem): EarliestTimes {
  const times = {
    starts: new Float64Array(compiled.activities.length),
    ends: new Float64Array(compiled.activities.length),
  };
  let changed = true;
  for (let round = 0; changed && round <= compiled.activities.length; round += 1) {
    changed = false;
    for (const job of compiled.jobs) {
      for (const index of job.activities) changed = settle(compiled, times, index) || changed;
    }
  }
  return times;
}

/** Moves one activity to its earliest; true when it moved. */
function settle(compiled: CompiledProblem, { starts, ends }: EarliestTimes, index: number): boolean {
  const { activity, open } = compiled.activities[index]!;
  const duration_min = Math.min(...activity.modes.map((mode) => mode.duration_min));
  const from_min = earliestByLags(compiled, { starts, ends }, index, duration_min);
  const [start_min, end_min] = earliestSpan(open, from_min, duration_min, activity.breakable);
  if (end_min === ends[index] && start_min === starts[index]) return false;
  starts[index] = start_min;
  ends[index] = end_min;
  return true;
}

function earliestByLags(
  compiled: CompiledProblem,
  { starts, ends }: EarliestTimes,
  index: number,
  duration_min: number,
): number {
  const { activity, lagsIn, lagsOut } = compiled.activities[index]!;
  let from_min = activity.release_min;
  for (const { lag, from } of lagsIn) {
    if (lag.minimum_min === null) continue;
    const needed_min = (lag.fromEnd === 'start' ? starts[from]! : ends[from]!) + lag.minimum_min;
    from_min = Math.max(from_min, lag.toEnd === 'start' ? needed_min : needed_min - duration_min);
  }
  const longest_min = Math.max(...activity.modes.map((mode) => mode.duration_min));
  for (const { lag, to } of lagsOut) {
    // A longest lag holds the earlier one back: it can't start before the later one's earliest less the lag.
    if (lag.maximum_min === null || (lag.fromEnd === 'end' && activity.breakable)) continue;
    const needed_min = (lag.toEnd === 'start' ? starts[to]! : ends[to]!) - lag.maximum_min;
    from_min = Math.max(from_min, lag.fromEnd === 'start' ? needed_min : needed_min - longest_min);
  }
  return from_min;
}

/** Longest path through a problem with its shortest modes and no resources [min]. */
export function criticalPath(problem: SchedulingProblem): number {
  return Math.max(0, ...earliestTimes(compileProblem(problem)).ends);
}

function earliestSpan(
  open: readonly (readonly [number, number])[],
  from_min: number,
  duration_min: number,
  breakable: boolean,
): [number, number] {
  if (duration_min === 0) return [from_min, from_min];
  for (const [spanFrom, spanTo] of open) {
    const start_min = Math.max(spanFrom, from_min);
    if (start_min >= spanTo) continue;
    const pieces = piecesFrom(open, start_min, duration_min, breakable, 1);
    if (pieces) return [start_min, pieces.at(-1)![1]];
  }
  return [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
}
