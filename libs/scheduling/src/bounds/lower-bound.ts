import type { CompiledProblem } from '../placement/compiled-problem.ts';
import { common } from '../placement/open-time.ts';
import { earliestTimes } from './critical-path.ts';

export interface LowerBound {
  readonly value_min: number;
  readonly name: string;
}

/** The best of the bounds at hand on the end of the given jobs, with its name. */
export function lowerBound(compiled: CompiledProblem, jobIds: ReadonlySet<string>): LowerBound {
  const { ends } = earliestTimes(compiled);
  let path_min = 0;
  for (const { activity, index } of compiled.activities) {
    if (jobIds.has(activity.jobId)) path_min = Math.max(path_min, ends[index]!);
  }
  const bounds: LowerBound[] = [{ value_min: path_min, name: 'critical path with calendars' }];
  bounds.push(capacityEnergy(compiled, jobIds), crewEnergy(compiled, jobIds));
  return bounds.reduce((best, bound) => (bound.value_min > best.value_min ? bound : best));
}

/** Work that a counted resource must carry over its amount, from the first release on. */
function capacityEnergy(compiled: CompiledProblem, jobIds: ReadonlySet<string>): LowerBound {
  let value_min = 0;
  for (const { id, amount } of compiled.problem.capacities) {
    let work = 0;
    let from_min = Number.POSITIVE_INFINITY;
    for (const { activity } of compiled.activities) {
      if (!jobIds.has(activity.jobId)) continue;
      const least = Math.min(...activity.modes.map((mode) => mode.duration_min * amountOf(mode.amounts, id)));
      if (least > 0) from_min = Math.min(from_min, activity.release_min);
      work += least;
    }
    if (work > 0 && amount > 0) value_min = Math.max(value_min, from_min + Math.ceil(work / amount));
  }
  return { value_min, name: 'energy of the scarcest capacity' };
}

function amountOf(
  amounts: readonly { readonly capacityId: string; readonly amount: number }[],
  id: string,
): number {
  return amounts.find(({ capacityId }) => capacityId === id)?.amount ?? 0;
}

/** The minute at which everyone together has been open for as long as all the crew time needed. */
function crewEnergy(compiled: CompiledProblem, jobIds: ReadonlySet<string>): LowerBound {
  const units = new Set<number>();
  let work_min = 0;
  let from_min = Number.POSITIVE_INFINITY;
  for (const { activity } of compiled.activities) {
    if (!jobIds.has(activity.jobId)) continue;
    const least = Math.min(
      ...activity.modes.map(
        ({ duration_min, needs }) => duration_min * needs.reduce((sum, { count }) => sum + count, 0),
      ),
    );
    if (least === 0) continue;
    work_min += least;
    from_min = Math.min(from_min, activity.release_min);
    for (const { needs } of activity.modes) {
      for (const { eligible } of needs) for (const id of eligible) units.add(compiled.unitIndex.get(id)!);
    }
  }
  const name = 'energy of the whole crew';
  if (work_min === 0) return { value_min: 0, name };
  const spans = [...units].flatMap((unit) =>
    common(compiled.unitOpen[unit]!, [[from_min, Number.POSITIVE_INFINITY]]),
  );
  return { value_min: minuteWhenDone(spans, work_min), name };
}

function minuteWhenDone(spans: readonly (readonly [number, number])[], work_min: number): number {
  const changes = spans
    .flatMap(([from, to]) => [[from, 1] as const, [to, -1] as const])
    .toSorted((a, b) => a[0] - b[0]);
  let [done_min, rate, at_min] = [0, 0, changes[0]?.[0] ?? 0];
  for (const [minute, change] of changes) {
    const gain_min = rate * (minute - at_min);
    if (done_min + gain_min >= work_min) return Math.ceil(at_min + (work_min - done_min) / rate);
    done_min += gain_min;
    rate += change;
    at_min = minute;
  }
  return at_min;
}
