import type { SeededRandom } from '@brimline/chance';
import { earliestTimes } from '../bounds/critical-path.ts';
import type { CompiledProblem } from '../placement/compiled-problem.ts';

/** Orders that dispatchers use: by due date, by least slack, by longest work, by earliest release. Lowest goes first. */
export function firstPriorities(compiled: CompiledProblem): Float64Array[] {
  const { ends } = earliestTimes(compiled);
  const facts = compiled.jobs.map(({ activities }) => {
    const own = activities.map((index) => compiled.activities[index]!.activity);
    const due_min = Math.min(
      ...own.map((one) => one.due_min ?? one.deadline_min ?? compiled.problem.horizon_min),
    );
    const end_min = Math.max(0, ...activities.map((index) => ends[index]!));
    return {
      due_min,
      slack_min: due_min - end_min,
      work_min: own.reduce((sum, { modes }) => sum + modes[0]!.duration_min, 0),
      release_min: Math.min(...own.map((one) => one.release_min)),
    };
  });
  return [
    Float64Array.from(facts, ({ due_min }) => due_min),
    Float64Array.from(facts, ({ slack_min }) => slack_min),
    Float64Array.from(facts, ({ work_min }) => -work_min),
    Float64Array.from(facts, ({ release_min }) => release_min),
  ];
}

/** The best order with one to three jobs moved to another rank. */
export function neighbour(priorities: Float64Array, random: SeededRandom): Float64Array {
  const order = [...priorities.keys()].toSorted((a, b) => priorities[a]! - priorities[b]! || a - b);
  const moves = 1 + random.nextBelow(3);
  for (let move = 0; move < moves; move += 1) {
    const [job] = order.splice(random.nextBelow(order.length), 1);
    order.splice(random.nextBelow(order.length + 1), 0, job!);
  }
  const changed = new Float64Array(priorities.length);
  for (const [rank, job] of order.entries()) changed[job] = rank;
  return changed;
}
