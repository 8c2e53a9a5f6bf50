import { earliestTimes } from '../bounds/critical-path.ts';
import type { Mode } from '../model/problem.ts';
import { BudgetLedger } from './budget-ledger.ts';
import { CapacityProfile } from './capacity-profile.ts';
import type { CompiledHold, CompiledProblem } from './compiled-problem.ts';
import { type Taken, UnitTimeline } from './unit-timeline.ts';

/** An activity as placed. */
export interface Placed {
  readonly mode: number;
  readonly start_min: number;
  readonly end_min: number;
  readonly pieces: readonly (readonly [number, number])[];
  /** Units by need, in the order of the mode's needs. */
  readonly units: readonly (readonly number[])[];
}

export interface PlacedHold {
  readonly hold: CompiledHold;
  readonly units: readonly number[];
  readonly start_min: number;
  readonly end_min: number;
}

/** The plan under construction: every unit's bookings, every capacity's level. */
export class Workspace {
  readonly timelines: readonly UnitTimeline[];
  readonly profiles: readonly CapacityProfile[];
  readonly placed: (Placed | null)[];
  readonly budgets: BudgetLedger;
  /** Nothing can start before these: lags of both signs and calendars already followed through. */
  readonly earliest: Float64Array;
  readonly held: PlacedHold[] = [];
  private readonly undo: (() => void)[] = [];

  constructor(readonly compiled: CompiledProblem) {
    const { problem, unitOpen, unitBase } = compiled;
    this.timelines = problem.units.map(
      (unit, index) =>
        new UnitTimeline({
          unit,
          open: unitOpen[index]!,
          basePlace: unitBase[index]!,
          travel_min: problem.travel_min,
          horizon_min: problem.horizon_min,
        }),
    );
    this.profiles = problem.capacities.map(({ amount }) => new CapacityProfile(amount));
    this.placed = problem.activities.map(() => null);
    this.budgets = new BudgetLedger(compiled);
    this.earliest = earliestTimes(compiled).starts;
  }

  clear(): void {
    for (const timeline of this.timelines) timeline.clear();
    for (const profile of this.profiles) profile.clear();
    this.placed.fill(null);
    this.budgets.clear();
    this.held.length = 0;
    this.undo.length = 0;
  }

  /** Books a placed activity on its units and capacities. */
  book(index: number, placed: Placed): void {
    const { activity, place } = this.compiled.activities[index]!;
    const mode = activity.modes[placed.mode]!;
    for (const [need, units] of placed.units.entries()) {
      const spans = mode.needs[need]!.keptInBreaks
        ? [[placed.start_min, placed.end_min] as const]
        : placed.pieces;
      for (const unit of units) {
        for (const [start_min, end_min] of spans) {
          this.take(unit, { start_min, end_min, place, state: activity.state });
        }
      }
    }
    this.useCapacities(placed, mode.amounts, 1);
    this.budgets.spend(index, placed.mode, 1);
    this.placed[index] = placed;
    this.undo.push(() => {
      this.useCapacities(placed, mode.amounts, -1);
      this.budgets.spend(index, placed.mode, -1);
      this.placed[index] = null;
    });
  }

  bookHold(held: PlacedHold): void {
    const { place } = this.compiled.activities[held.hold.from]!;
    const { start_min, end_min } = held;
    for (const unit of held.units)
      this.take(unit, { start_min, end_min, place, state: held.hold.hold.state });
    this.held.push(held);
    this.undo.push(() => this.held.pop());
  }

  /** A point to which `undoTo` can return. */
  mark(): number {
    return this.undo.length;
  }

  undoTo(mark: number): void {
    while (this.undo.length > mark) this.undo.pop()!();
  }

  private take(unit: number, booking: Taken): void {
    const timeline = this.timelines[unit]!;
    timeline.take(booking);
    this.undo.push(() => timeline.release(booking));
  }

  private useCapacities(placed: Placed, amounts: Mode['amounts'], sign: 1 | -1): void {
    for (const { capacityId, amount } of amounts) {
      const profile = this.profiles[this.compiled.capacityIndex.get(capacityId)!]!;
      for (const [from, to] of placed.pieces) profile.take(from, to, sign * amount);
    }
  }
}
