import type { ObjectiveVector } from '../model/plan.ts';
import type { Workspace } from '../placement/workspace.ts';
import { passagesOf } from './passages.ts';

/**
 * What one unit of each term is worth, in minutes of work for one person: assumed, low confidence. A job left out
 * outweighs everything else; lateness outweighs travel; an early end only decides between equals.
 */
const WEIGHTS = {
  unplacedJobs: 1_000_000,
  lateness_min: 10,
  travel_min: 1,
  cleanOut_min: 1,
  held_min: 0.01,
  makespan_min: 0.1,
} as const satisfies Record<keyof ObjectiveVector, number>;

/** The terms of a plan under construction. */
export function objectiveOf(workspace: Workspace, unplacedJobs: number): ObjectiveVector {
  let lateness_min = 0;
  let makespan_min = 0;
  for (const [index, placed] of workspace.placed.entries()) {
    if (!placed) continue;
    const { due_min } = workspace.compiled.activities[index]!.activity;
    makespan_min = Math.max(makespan_min, placed.end_min);
    if (due_min !== null) lateness_min += Math.max(0, placed.end_min - due_min);
  }
  const held_min = workspace.held.reduce(
    (sum, { units, start_min, end_min }) => sum + units.length * (end_min - start_min),
    0,
  );
  let travel_min = 0;
  let cleanOut_min = 0;
  for (const { kind, start_min, end_min } of passagesOf(workspace)) {
    if (kind === 'travel') travel_min += end_min - start_min;
    else cleanOut_min += end_min - start_min;
  }
  return { lateness_min, unplacedJobs, travel_min, cleanOut_min, held_min, makespan_min };
}

/** One number for comparing plans; the vector stays with the result. */
export function weighed(objective: ObjectiveVector): number {
  return (Object.keys(WEIGHTS) as (keyof ObjectiveVector)[]).reduce(
    (sum, term) => sum + WEIGHTS[term] * objective[term],
    0,
  );
}
