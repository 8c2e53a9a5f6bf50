import type { PlacementReason } from '../model/plan.ts';
import type { Lag } from '../model/problem.ts';
import type { CompiledHold, CompiledJob, CompiledLag } from './compiled-problem.ts';
import { placeActivity } from './place-activity.ts';
import type { Placed, Workspace } from './workspace.ts';

/** Attempts to move the start of something before a job is given up. */
const MOST_ATTEMPTS = 400;

/** Something must start later than it did, or the job can't be placed. */
type Verdict =
  | { readonly kind: 'fits' }
  | {
      readonly kind: 'later';
      readonly index: number;
      readonly from_min: number;
      readonly reason: PlacementReason;
    }
  | { readonly kind: 'impossible'; readonly reason: PlacementReason };

/**
 * Places every activity of a job at its earliest, with its holds; a broken longest lag, or a hold for which no unit
 * is free long enough, pushes the earlier activity on and the job is laid anew. Books the whole job or nothing.
 *
 * @returns null when placed, else why not
 */
export function placeJob(workspace: Workspace, job: CompiledJob): PlacementReason | null {
  const notBefore = new Map<number, number>();
  let last: PlacementReason | null = null;
  for (let attempt = 0; attempt < MOST_ATTEMPTS; attempt += 1) {
    const mark = workspace.mark();
    const verdict = layJob(workspace, job, notBefore);
    if (verdict.kind === 'fits') return null;
    workspace.undoTo(mark);
    if (verdict.kind === 'impossible') return last ?? verdict.reason;
    notBefore.set(verdict.index, verdict.from_min);
    last = verdict.reason;
  }
  return last;
}

function layJob(workspace: Workspace, job: CompiledJob, notBefore: ReadonlyMap<number, number>): Verdict {
  const familiar = new Set<number>();
  for (const index of job.activities) {
    const activity = workspace.compiled.activities[index]!;
    const earliest_min = earliestStart(workspace, index, notBefore.get(index) ?? 0);
    const outcome = placeActivity(workspace, activity, earliest_min, familiar);
    if ('reason' in outcome) return { kind: 'impossible', reason: outcome.reason };
    workspace.book(index, outcome.placed);
    for (const unit of outcome.placed.units.flat()) familiar.add(unit);
    const broken = brokenLag(workspace, index) ?? bookHolds(workspace, activity.holdsTo);
    if (broken) return broken;
  }
  return { kind: 'fits' };
}

function valueAt(placed: Placed, end: Lag['fromEnd']): number {
  return end === 'start' ? placed.start_min : placed.end_min;
}

function earliestStart(workspace: Workspace, index: number, notBefore_min: number): number {
  const { activity, lagsIn } = workspace.compiled.activities[index]!;
  const unhindered_min = workspace.earliest[index]!;
  let earliest_min = Math.max(activity.release_min, notBefore_min);
  if (Number.isFinite(unhindered_min)) earliest_min = Math.max(earliest_min, unhindered_min);
  for (const { lag, from } of lagsIn) {
    const before = workspace.placed[from];
    if (!before || lag.minimum_min === null) continue;
    const shortest_min = Math.min(...activity.modes.map(({ duration_min }) => duration_min));
    const needed_min = valueAt(before, lag.fromEnd) + lag.minimum_min;
    earliest_min = Math.max(earliest_min, lag.toEnd === 'start' ? needed_min : needed_min - shortest_min);
  }
  return earliest_min;
}

function brokenLag(workspace: Workspace, index: number): Verdict | null {
  const { lagsIn, lagsOut } = workspace.compiled.activities[index]!;
  for (const compiled of [...lagsIn, ...lagsOut]) {
    const verdict = verdictOfLag(workspace, compiled);
    if (verdict) return verdict;
  }
  return null;
}

function verdictOfLag(workspace: Workspace, { lag, from, to }: CompiledLag): Verdict | null {
  const [earlier, later] = [workspace.placed[from], workspace.placed[to]];
  if (!earlier || !later) return null;
  const gap_min = valueAt(later, lag.toEnd) - valueAt(earlier, lag.fromEnd);
  if (lag.minimum_min !== null && gap_min < lag.minimum_min) {
    const reason = {
      code: 'lag-too-short',
      path: `activities.${lag.to}`,
      message: `${lag.to} must follow ${lag.from} by ${lag.minimum_min} min`,
    };
    return { kind: 'later', index: to, from_min: later.start_min + lag.minimum_min - gap_min, reason };
  }
  if (lag.maximum_min !== null && gap_min > lag.maximum_min) {
    const reason = {
      code: 'lag-too-long',
      path: `activities.${lag.to}`,
      message: `${lag.to} must follow ${lag.from} within ${lag.maximum_min} min; the earliest found is ${gap_min} min`,
    };
    return { kind: 'later', index: from, from_min: earlier.start_min + gap_min - lag.maximum_min, reason };
  }
  return null;
}

function bookHolds(workspace: Workspace, holds: readonly CompiledHold[]): Verdict | null {
  for (const hold of holds) {
    const [first, last] = [workspace.placed[hold.from]!, workspace.placed[hold.to]!];
    const [start_min, end_min] = [first.start_min, last.end_min];
    const units = freeUnits(workspace, hold, start_min, end_min);
    if (units === null) return laterHold(workspace, hold, start_min, end_min);
    workspace.bookHold({ hold, units, start_min, end_min });
  }
  return null;
}

/** Units free for the whole span: those whose state already fits first, then by position. */
function freeUnits(
  workspace: Workspace,
  hold: CompiledHold,
  start_min: number,
  end_min: number,
): number[] | null {
  const { place } = workspace.compiled.activities[hold.from]!;
  const free = hold.eligible.filter((unit) =>
    workspace.timelines[unit]!.freeFor(place, hold.hold.state).some(
      ([from, to]) => from <= start_min && to >= end_min,
    ),
  );
  if (free.length < hold.hold.count) return null;
  return free
    .toSorted((a, b) => passageTo(workspace, a, hold) - passageTo(workspace, b, hold) || a - b)
    .slice(0, hold.hold.count);
}

function passageTo(workspace: Workspace, unit: number, hold: CompiledHold): number {
  const timeline = workspace.timelines[unit]!;
  const { unit: facts, basePlace } = timeline.facts;
  const { place } = workspace.compiled.activities[hold.from]!;
  return (
    timeline.travel(basePlace, place) +
    timeline.cleanOut(facts.cleanOut?.initialState ?? null, hold.hold.state)
  );
}

/** The next minute at which enough units are free for as long; impossible when there is none before the horizon. */
function laterHold(workspace: Workspace, hold: CompiledHold, start_min: number, end_min: number): Verdict {
  const { place } = workspace.compiled.activities[hold.from]!;
  const length_min = end_min - start_min;
  const next = hold.eligible
    .map((unit) => {
      const spans = workspace.timelines[unit]!.freeFor(place, hold.hold.state);
      const usable = spans
        .map(([from, to]) => [Math.max(from, start_min + 1), to] as const)
        .filter(([from, to]) => to - from >= length_min);
      return usable[0]?.[0] ?? Number.POSITIVE_INFINITY;
    })
    .toSorted((a, b) => a - b)[hold.hold.count - 1];
  const { id, count, eligible } = hold.hold;
  const reason = {
    code: 'units-held-elsewhere',
    path: `holds.${id}`,
    message: `${id} needs ${count} of ${eligible.length} for ${(length_min / 60).toFixed(1)} h in one span; they are not free together`,
  };
  if (next === undefined || !Number.isFinite(next)) return { kind: 'impossible', reason };
  return { kind: 'later', index: hold.from, from_min: next, reason };
}
