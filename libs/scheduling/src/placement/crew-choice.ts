import type { Need } from '../model/problem.ts';
import type { CompiledActivity } from './compiled-problem.ts';
import { spanAt } from './open-time.ts';
import type { Workspace } from './workspace.ts';

export interface CrewRequest {
  readonly activity: CompiledActivity;
  readonly needs: readonly Need[];
  readonly start_min: number;
  /** Time that each unit must be free from the start on. */
  readonly least_min: number;
  /** Minute at which certificates must still be valid. */
  readonly validAt_min: number;
  /** Units that already work on the job: kept together where possible. */
  readonly familiar: ReadonlySet<number>;
}

/** Has the unit every skill, valid at the minute? */
export function hasSkills(
  workspace: Workspace,
  unit: number,
  skills: readonly string[],
  validAt_min: number,
): boolean {
  const held = workspace.timelines[unit]!.facts.unit.skills;
  return skills.every((skill) =>
    held.some(
      ({ name, validUntil_min }) =>
        name === skill && (validUntil_min === null || validUntil_min >= validAt_min),
    ),
  );
}

/**
 * Named units for every need at a start, or null. Prefers those who already work on the job, then those with the
 * fewest skills to spare and the shortest way; ties go by position, so the choice is always the same.
 */
export function chooseCrew(workspace: Workspace, request: CrewRequest): number[][] | null {
  const taken = new Set<number>();
  const chosen: number[][] = [];
  for (const need of request.needs) {
    const free = eligibleUnits(workspace, request, need, taken);
    if (free.length < need.count) return null;
    const units = free.toSorted((a, b) => rank(workspace, request, a) - rank(workspace, request, b) || a - b);
    chosen.push(units.slice(0, need.count));
    for (const unit of chosen.at(-1)!) taken.add(unit);
  }
  return chosen;
}

function eligibleUnits(
  workspace: Workspace,
  request: CrewRequest,
  need: Need,
  taken: ReadonlySet<number>,
): number[] {
  const { activity, start_min, least_min, validAt_min } = request;
  return need.eligible.flatMap((id) => {
    const unit = workspace.compiled.unitIndex.get(id)!;
    if (taken.has(unit) || !hasSkills(workspace, unit, need.skills, validAt_min)) return [];
    const free = workspace.timelines[unit]!.freeFor(activity.place, activity.activity.state);
    const span = spanAt(free, start_min);
    return span !== undefined && span[1] - start_min >= least_min ? [unit] : [];
  });
}

const UNFAMILIAR = 1_000_000;
const SKILL_TO_SPARE = 1_000;

function rank(workspace: Workspace, { activity, familiar }: CrewRequest, unit: number): number {
  const timeline = workspace.timelines[unit]!;
  const { basePlace } = timeline.facts;
  return (
    (familiar.has(unit) ? 0 : UNFAMILIAR) +
    timeline.facts.unit.skills.length * SKILL_TO_SPARE +
    timeline.travel(basePlace, activity.place)
  );
}
