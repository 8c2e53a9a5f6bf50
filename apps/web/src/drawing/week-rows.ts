import type { Manner } from '@brimline/estimating';
import type { BookedPhase, PlannedJob, PlannedPassage, WeekPlan } from '@brimline/planning';

export interface BookedPiece {
  readonly from_ms: number;
  readonly to_ms: number;
  readonly manner: Manner;
  readonly title: string;
}

/** Pieces of one job that follow each other without a pause in one row. */
export interface WeekBlock {
  readonly jobId: string;
  readonly from_ms: number;
  readonly to_ms: number;
  readonly pieces: readonly BookedPiece[];
}

export interface WeekRow {
  readonly id: string;
  readonly blocks: readonly WeekBlock[];
  readonly passages: readonly PlannedPassage[];
}

type Unit = 'people' | 'gear' | 'cylinders';

/** What one person or piece of gear does in the week, in the order of time. */
export function rowOf(plan: WeekPlan, kind: Unit, id: string): WeekRow {
  const blocks = plan.jobs.flatMap((job) =>
    blocksOf(
      job,
      job.phases.filter((phase) => phase[kind].includes(id)),
    ),
  );
  return {
    id,
    blocks: blocks.toSorted((a, b) => a.from_ms - b.from_ms),
    passages: plan.passages.filter(({ unitId }) => unitId === id),
  };
}

/** A job's own blocks, all its phases together. */
export function blocksOf(job: PlannedJob, phases: readonly BookedPhase[]): WeekBlock[] {
  const pieces = phases.flatMap(({ pieces: worked, start, end, manner, title }) =>
    (worked.length > 0 ? worked : [{ start, end }]).map((piece) => ({
      from_ms: Date.parse(piece.start),
      to_ms: Date.parse(piece.end),
      manner,
      title,
    })),
  );
  const blocks: { jobId: string; from_ms: number; to_ms: number; pieces: BookedPiece[] }[] = [];
  for (const piece of pieces.toSorted((a, b) => a.from_ms - b.from_ms)) {
    const last = blocks.at(-1);
    if (last && piece.from_ms <= last.to_ms) {
      last.pieces.push(piece);
      last.to_ms = Math.max(last.to_ms, piece.to_ms);
    } else blocks.push({ jobId: job.id, from_ms: piece.from_ms, to_ms: piece.to_ms, pieces: [piece] });
  }
  return blocks;
}

/** Cylinders of one water capacity: how many are held when, under how many there are. */
export interface CylinderPool {
  readonly waterCapacity_kg: number;
  readonly limit: number;
  /** From each instant on, so many are held. */
  readonly steps: readonly { readonly at_ms: number; readonly held: number }[];
  readonly most: number;
}

export function cylinderPools(plan: WeekPlan): CylinderPool[] {
  const classes = new Map<string, string[]>();
  const capacities = new Map<string, number>();
  for (const { id, waterCapacity_kg } of plan.cylinders) {
    const key = waterCapacity_kg.toFixed(1);
    capacities.set(key, waterCapacity_kg);
    classes.set(key, [...(classes.get(key) ?? []), id]);
  }
  return [...classes]
    .map(([key, ids]) => poolOf(plan, capacities.get(key)!, new Set(ids)))
    .toSorted((a, b) => a.waterCapacity_kg - b.waterCapacity_kg);
}

function poolOf(plan: WeekPlan, waterCapacity_kg: number, ids: ReadonlySet<string>): CylinderPool {
  const changes = plan.jobs.flatMap((job) => {
    const count = job.cylinders.filter((id) => ids.has(id)).length;
    if (!job.cylindersHeld || count === 0) return [];
    return [
      { at_ms: Date.parse(job.cylindersHeld.start), by: count },
      { at_ms: Date.parse(job.cylindersHeld.end), by: -count },
    ];
  });
  const steps: { at_ms: number; held: number }[] = [];
  let held = 0;
  for (const { at_ms, by } of changes.toSorted((a, b) => a.at_ms - b.at_ms)) {
    held += by;
    if (steps.at(-1)?.at_ms === at_ms) steps[steps.length - 1] = { at_ms, held };
    else steps.push({ at_ms, held });
  }
  return { waterCapacity_kg, limit: ids.size, steps, most: Math.max(0, ...steps.map((step) => step.held)) };
}

/** The first and last instant of anything booked or travelled. */
export function spanOf(plan: WeekPlan): { readonly from_ms: number; readonly to_ms: number } {
  const instants = [
    Date.parse(plan.epoch),
    Date.parse(plan.schedule.end),
    Date.parse(plan.schedule.lowerBound),
    ...plan.passages.flatMap(({ start, end }) => [Date.parse(start), Date.parse(end)]),
    ...plan.jobs.flatMap(({ phases }) => phases.map(({ end }) => Date.parse(end))),
  ];
  return { from_ms: Math.min(...instants), to_ms: Math.max(...instants) };
}

interface TimeSpan {
  readonly from_ms: number;
  readonly to_ms: number;
}

/** Pauses between two bookings of one job in which a unit neither travels nor is cleaned: it stays where it is. */
export function stays({ blocks, passages }: WeekRow): TimeSpan[] {
  return blocks.flatMap((block, index) => {
    const next = blocks[index + 1];
    if (!next || next.jobId !== block.jobId) return [];
    const pause = { from_ms: block.to_ms, to_ms: next.from_ms };
    const moves = passages.some(
      ({ start, end }) => Date.parse(start) < pause.to_ms && Date.parse(end) > pause.from_ms,
    );
    return moves ? [] : [pause];
  });
}

/** From the end of a booking and of what follows it at once, to the next thing in the row; null: nothing more. */
export function freeSpanAfter(
  { blocks, passages }: WeekRow,
  block: WeekBlock,
): { readonly from_ms: number; readonly to_ms: number | null } {
  const onTheRoad = passages.find(({ start }) => Math.abs(Date.parse(start) - block.to_ms) <= 60_000);
  const from_ms = onTheRoad ? Date.parse(onTheRoad.end) : block.to_ms;
  const starts = [
    ...blocks.map((other) => other.from_ms),
    ...passages.filter((passage) => passage !== onTheRoad).map(({ start }) => Date.parse(start)),
  ].filter((start_ms) => start_ms >= from_ms);
  return { from_ms, to_ms: starts.length > 0 ? Math.min(...starts) : null };
}
