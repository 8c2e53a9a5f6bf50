import type { ChargeCurve, ChargeMark, ChargePoint, Manner, PhaseKind } from '@brimline/estimating';
import type { BookedPhase } from '@brimline/planning';

/** A stretch of the calendar: a worked piece of a phase, or the pause between two of them. */
export interface PlacedSpan {
  readonly from_ms: number;
  readonly to_ms: number;
  readonly manner: Manner;
  /** Null in a pause, when nothing of the job runs. */
  readonly phase: { readonly id: string; readonly kind: PhaseKind; readonly title: string } | null;
  /** Does any refrigerant change its place? */
  readonly moves: boolean;
}

export type PlacedPoint = Omit<ChargePoint, 'time_s'> & { readonly at_ms: number };
export type PlacedMark = Omit<ChargeMark, 'time_s'> & { readonly at_ms: number };

/** The charge curve on the calendar: the same pounds, with the nights and waits that the bookings put between. */
export interface PlacedCurve {
  readonly spans: readonly PlacedSpan[];
  readonly points: readonly PlacedPoint[];
  readonly marks: readonly PlacedMark[];
}

type Step = ChargeCurve['steps'][number];
type Piece = { readonly from_ms: number; readonly to_ms: number };

/** Smaller changes than this share of the nameplate charge count as none. */
const STILL_SHARE = 1e-6;

/** Lays the curve's own working clock over the booked pieces of its phases. */
export function placeCurve(curve: ChargeCurve, phases: readonly BookedPhase[]): PlacedCurve {
  const byId = new Map(phases.map((phase) => [phase.id, phase]));
  const spans: PlacedSpan[] = [];
  const points: PlacedPoint[] = [];
  const marks: PlacedMark[] = [];
  for (const step of curve.steps) {
    const phase = byId.get(step.phaseId);
    if (!phase) continue;
    const pieces = piecesOf(phase);
    for (const { piece, from_s, to_s } of shareOut(step, pieces)) {
      const placed = placePiece(curve, piece, from_s, to_s);
      addPause(spans, piece.from_ms);
      spans.push({ ...piece, manner: phase.manner, phase, moves: doMove(placed, curve.nameplate_kg) });
      points.push(...placed);
    }
    marks.push(...placeMarks(curve, step, pieces));
  }
  return { spans, points, marks };
}

function piecesOf(phase: BookedPhase): Piece[] {
  const pieces = phase.pieces.length > 0 ? phase.pieces : [phase];
  return pieces.map(({ start, end }) => ({ from_ms: Date.parse(start), to_ms: Date.parse(end) }));
}

/** Gives each worked piece its part of the step, in proportion to its length. */
function shareOut(step: Step, pieces: readonly Piece[]) {
  const worked_ms = pieces.reduce((sum, { from_ms, to_ms }) => sum + to_ms - from_ms, 0);
  let done_ms = 0;
  return pieces.map((piece) => {
    const at = (ms: number): number =>
      worked_ms === 0 ? step.from_s : step.from_s + ((step.to_s - step.from_s) * ms) / worked_ms;
    const from_s = at(done_ms);
    done_ms += piece.to_ms - piece.from_ms;
    return { piece, from_s, to_s: at(done_ms) };
  });
}

function placePiece(curve: ChargeCurve, piece: Piece, from_s: number, to_s: number): PlacedPoint[] {
  const scale = to_s > from_s ? (piece.to_ms - piece.from_ms) / (to_s - from_s) : 0;
  const inner = curve.points.filter(({ time_s }) => time_s > from_s && time_s < to_s);
  return [stateAt(curve.points, from_s, 'after'), ...inner, stateAt(curve.points, to_s, 'before')].map(
    ({ time_s, ...state }) => ({ ...state, at_ms: piece.from_ms + (time_s - from_s) * scale }),
  );
}

/** The state at a time, read between two points; where several stand at that time, the first or the last of them. */
function stateAt(points: readonly ChargePoint[], time_s: number, side: 'before' | 'after'): ChargePoint {
  const same = points.filter((point) => point.time_s === time_s);
  const exact = side === 'before' ? same[0] : same.at(-1);
  if (exact) return exact;
  const before = points.findLast((point) => point.time_s < time_s);
  const after = points.find((point) => point.time_s > time_s);
  if (!before || !after) return { ...(before ?? after ?? EMPTY), time_s };
  const share = (time_s - before.time_s) / (after.time_s - before.time_s);
  const between = (a: number, b: number): number => a + (b - a) * share;
  return {
    time_s,
    chiller_kg: between(before.chiller_kg, after.chiller_kg),
    transit_kg: between(before.transit_kg, after.transit_kg),
    cylinder_kg: before.cylinder_kg.map((mass_kg, index) => between(mass_kg, after.cylinder_kg[index] ?? 0)),
    pressure_Pa: between(before.pressure_Pa, after.pressure_Pa),
  };
}

const EMPTY: ChargePoint = { time_s: 0, chiller_kg: 0, transit_kg: 0, cylinder_kg: [], pressure_Pa: 0 };

function doMove(points: readonly PlacedPoint[], nameplate_kg: number): boolean {
  const first = points[0];
  if (!first) return false;
  const still = (a: number, b: number): boolean => Math.abs(a - b) <= nameplate_kg * STILL_SHARE;
  return !points.every(
    (point) =>
      still(point.chiller_kg, first.chiller_kg) &&
      still(point.transit_kg, first.transit_kg) &&
      point.cylinder_kg.every((mass_kg, index) => still(mass_kg, first.cylinder_kg[index] ?? 0)),
  );
}

function addPause(spans: PlacedSpan[], next_ms: number): void {
  const last = spans.at(-1);
  if (!last || last.to_ms >= next_ms) return;
  spans.push({ from_ms: last.to_ms, to_ms: next_ms, manner: 'unattended', phase: null, moves: false });
}

/** Losses and levels belong to the end of what went before; swaps and stock to the start of what comes after. */
function stepOfMark(curve: ChargeCurve, { time_s, kind }: ChargeMark): Step | undefined {
  return kind === 'not recovered' || kind === 'level reached'
    ? curve.steps.find(({ to_s }) => time_s <= to_s)
    : curve.steps.findLast(({ from_s }) => time_s >= from_s);
}

function placeMarks(curve: ChargeCurve, step: Step, pieces: readonly Piece[]): PlacedMark[] {
  const shares = shareOut(step, pieces);
  return curve.marks
    .filter((mark) => stepOfMark(curve, mark) === step)
    .map(({ time_s, ...mark }) => {
      const share = shares.find(({ to_s }) => time_s <= to_s) ?? shares.at(-1)!;
      const length_s = share.to_s - share.from_s;
      const part = length_s > 0 ? Math.min(1, (time_s - share.from_s) / length_s) : 0;
      return { ...mark, at_ms: share.piece.from_ms + part * (share.piece.to_ms - share.piece.from_ms) };
    });
}
