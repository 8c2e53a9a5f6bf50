import type { Mode } from '../model/problem.ts';
import type { PlacementReason } from '../model/plan.ts';
import type { CompiledActivity } from './compiled-problem.ts';
import { chooseCrew, hasSkills } from './crew-choice.ts';
import { common, longestSpan, type OpenTime, piecesFrom, spanAt } from './open-time.ts';
import type { Placed, Workspace } from './workspace.ts';

export type PlaceOutcome = { readonly placed: Placed } | { readonly reason: PlacementReason };

/** The mode and start with the earliest end at or after a minute, or why there is none. */
export function placeActivity(
  workspace: Workspace,
  activity: CompiledActivity,
  earliest_min: number,
  familiar: ReadonlySet<number>,
): PlaceOutcome {
  let best: Placed | null = null;
  const { modes, pinned } = activity.activity;
  for (const [index, mode] of modes.entries()) {
    if (pinned && pinned.mode !== null && pinned.mode !== index) continue;
    if (!workspace.budgets.canAfford(activity.index, index)) continue;
    const placed = placeInMode(workspace, activity, index, mode, earliest_min, familiar);
    if (placed && (best === null || placed.end_min < best.end_min)) best = placed;
  }
  return best ? { placed: best } : { reason: whyNot(workspace, activity, earliest_min) };
}

function placeInMode(
  workspace: Workspace,
  activity: CompiledActivity,
  modeIndex: number,
  mode: Mode,
  earliest_min: number,
  familiar: ReadonlySet<number>,
): Placed | null {
  if (mode.needs.length === 0) return placeWithoutCrew(workspace, activity, modeIndex, mode, earliest_min);
  for (const start_min of candidateStarts(workspace, activity, mode, earliest_min)) {
    const placed = placeAt(workspace, activity, modeIndex, mode, start_min, familiar);
    if (placed) return placed;
  }
  return null;
}

function placeWithoutCrew(
  workspace: Workspace,
  activity: CompiledActivity,
  modeIndex: number,
  mode: Mode,
  earliest_min: number,
): Placed | null {
  const pin_min = activity.activity.pinned?.start_min ?? null;
  let start_min = pin_min ?? earliest_min;
  for (;;) {
    const at = nextOpen(activity.open, start_min, mode.duration_min);
    if (at === null || (pin_min !== null && at > pin_min)) return null;
    const pieces = piecesOf(activity, activity.open, at, mode);
    const fits_min = pieces ? earliestByCapacity(workspace, mode, at, pieces) : at + 1;
    if (pieces && fits_min === at) return placedFrom(modeIndex, at, pieces, []);
    if (!Number.isFinite(fits_min)) return null;
    start_min = fits_min;
  }
}

/** A span of length zero may stand anywhere, also where everything is closed. */
function nextOpen(open: OpenTime, from_min: number, duration_min: number): number | null {
  if (duration_min === 0) return from_min;
  for (const [spanFrom, spanTo] of open) {
    if (spanTo > from_min) return Math.max(spanFrom, from_min);
  }
  return null;
}

function piecesOf(
  { activity }: CompiledActivity,
  open: OpenTime,
  start_min: number,
  mode: Mode,
): [number, number][] | null {
  if (mode.duration_min === 0) return [];
  return piecesFrom(open, start_min, mode.duration_min, activity.breakable, activity.minimumPiece_min);
}

function placedFrom(mode: number, start_min: number, pieces: [number, number][], units: number[][]): Placed {
  return { mode, start_min, end_min: pieces.at(-1)?.[1] ?? start_min, pieces, units };
}

function earliestByCapacity(
  workspace: Workspace,
  mode: Mode,
  start_min: number,
  pieces: [number, number][],
): number {
  let latest_min = start_min;
  for (const { capacityId, amount } of mode.amounts) {
    const profile = workspace.profiles[workspace.compiled.capacityIndex.get(capacityId)!]!;
    for (const [from, to] of pieces) {
      const fits_min = profile.earliestFit(from, to - from, amount);
      if (fits_min > from) latest_min = Math.max(latest_min, start_min + (fits_min - from));
    }
  }
  return latest_min;
}

function placeAt(
  workspace: Workspace,
  activity: CompiledActivity,
  modeIndex: number,
  mode: Mode,
  start_min: number,
  familiar: ReadonlySet<number>,
): Placed | null {
  if (mode.duration_min > 0 && spanAt(activity.open, start_min) === undefined) return null;
  const { breakable, minimumPiece_min } = activity.activity;
  const crew = chooseCrew(workspace, {
    activity,
    needs: mode.needs,
    start_min,
    least_min: breakable ? Math.min(minimumPiece_min, mode.duration_min) : mode.duration_min,
    validAt_min: start_min + mode.duration_min,
    familiar,
  });
  if (!crew) return null;
  const open = crew
    .flat()
    .reduce<OpenTime>(
      (left, unit) =>
        common(left, workspace.timelines[unit]!.freeFor(activity.place, activity.activity.state)),
      activity.open,
    );
  const pieces = piecesOf(activity, open, start_min, mode);
  if (!pieces || earliestByCapacity(workspace, mode, start_min, pieces) > start_min) return null;
  const placed = placedFrom(modeIndex, start_min, pieces, crew);
  return isCrewValid(workspace, activity, mode, placed) ? placed : null;
}

/** Certificates at the true end, units kept through pauses, and units that a pin names. */
function isCrewValid(
  workspace: Workspace,
  { activity, place }: CompiledActivity,
  mode: Mode,
  placed: Placed,
): boolean {
  const pinned = (activity.pinned?.units ?? []).map((id) => workspace.compiled.unitIndex.get(id));
  if (!pinned.every((unit) => placed.units.some((units) => units.includes(unit!)))) return false;
  return placed.units.every((units, need) =>
    units.every((unit) => {
      if (!hasSkills(workspace, unit, mode.needs[need]!.skills, placed.end_min)) return false;
      if (!mode.needs[need]!.keptInBreaks) return true;
      const span = spanAt(workspace.timelines[unit]!.freeFor(place, activity.state), placed.start_min);
      return span !== undefined && span[1] >= placed.end_min;
    }),
  );
}

/** Minutes at which something begins to be free: between them a start can only get later for nothing. */
function candidateStarts(
  workspace: Workspace,
  activity: CompiledActivity,
  mode: Mode,
  earliest_min: number,
): number[] {
  const pin_min = activity.activity.pinned?.start_min ?? null;
  if (pin_min !== null) return pin_min >= earliest_min ? [pin_min] : [];
  const starts = new Set<number>([earliest_min]);
  const add = (open: OpenTime): void => {
    for (const [from] of open) if (from > earliest_min) starts.add(from);
  };
  add(activity.open);
  for (const { eligible } of mode.needs) {
    for (const id of eligible) {
      const unit = workspace.compiled.unitIndex.get(id)!;
      add(workspace.timelines[unit]!.freeFor(activity.place, activity.activity.state));
    }
  }
  return [...starts].toSorted((a, b) => a - b);
}

function whyNot(workspace: Workspace, compiled: CompiledActivity, earliest_min: number): PlacementReason {
  const { activity, open, place } = compiled;
  const mode = activity.modes[0]!;
  const path = `activities.${activity.id}`;
  if (!activity.modes.some((_, index) => workspace.budgets.canAfford(compiled.index, index))) {
    return {
      code: 'budget-spent',
      path,
      message: `${activity.id} can be paid by no mode out of what is left of the budgets`,
    };
  }
  for (const need of mode.needs) {
    const skilled = need.eligible.filter((id) =>
      hasSkills(
        workspace,
        workspace.compiled.unitIndex.get(id)!,
        need.skills,
        earliest_min + mode.duration_min,
      ),
    );
    if (skilled.length < need.count) {
      const message = `${activity.id} needs ${need.count} with ${need.skills.join(' and ') || 'no special skill'}; ${skilled.length} ${skilled.length === 1 ? 'has' : 'have'} it by then`;
      return { code: 'no-skill', path: `${path}.${need.name}`, message };
    }
  }
  const openLater = common(open, [[earliest_min, Number.POSITIVE_INFINITY]]);
  if (!activity.breakable && longestSpan(openLater) < mode.duration_min) {
    const message = `${activity.id} needs ${hours(mode.duration_min)} in one piece; the longest open span left is ${hours(longestSpan(openLater))}`;
    return { code: 'window-too-short', path, message };
  }
  const reach = mode.needs.flatMap(({ eligible }) =>
    eligible.map((id) =>
      longestSpan(workspace.timelines[workspace.compiled.unitIndex.get(id)!]!.freeFor(place, activity.state)),
    ),
  );
  const message = `${activity.id} finds no ${hours(mode.duration_min)} with everyone that it needs before the plan ends (longest span that anyone has free there: ${hours(Math.max(0, ...reach))})`;
  return { code: 'no-common-time', path, message };
}

function hours(minutes: number): string {
  return `${(minutes / 60).toFixed(1)} h`;
}
