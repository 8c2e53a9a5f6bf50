import type { SchedulingProblem } from '../model/problem.ts';
import { type CompiledProblem, compileProblem, isWaiting } from '../placement/compiled-problem.ts';
import { piecesFrom } from '../placement/open-time.ts';

/**
 * Earliest end of every activity if nobody and nothing else were in the way: longest path over the minimum lags with
 * the shortest modes, each in the open time of its own calendars. No plan can end an activity before it.
 *
 * @returns earliest ends [min]; infinite where the open time does not suffice
 */
export function earliestEnds(compiled: CompiledProblem): Float64Array {
  const starts = new Float64Array(compiled.activities.length);
  const ends = new Float64Array(compiled.activities.length);
  let changed = true;
  for (let round = 0; changed && round <= compiled.activities.length; round += 1) {
    changed = false;
    for (const job of compiled.jobs) {
      for (const index of job.activities) {
        const { activity, open, lagsIn } = compiled.activities[index]!;
        const duration_min = Math.min(...activity.modes.map((mode) => mode.duration_min));
        let from_min = activity.release_min;
        for (const lag of lagsIn.filter(isWaiting)) {
          const value = lag.lag.fromEnd === 'start' ? starts[lag.from]! : ends[lag.from]!;
          const needed_min = value + lag.lag.minimum_min!;
          from_min = Math.max(from_min, lag.lag.toEnd === 'start' ? needed_min : needed_min - duration_min);
        }
        const [start_min, end_min] = earliestSpan(open, from_min, duration_min, activity.breakable);
        if (end_min !== ends[index] || start_min !== starts[index]) {
          changed = true;
          starts[index] = start_min;
          ends[index] = end_min;
        }
      }
    }
  }
  return ends;
}

/** Longest path through a problem with its shortest modes and no resources [min]. */
export function criticalPath(problem: SchedulingProblem): number {
  return Math.max(0, ...earliestEnds(compileProblem(problem)));
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
