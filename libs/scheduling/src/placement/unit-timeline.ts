import type { Unit } from '../model/problem.ts';
import type { OpenTime } from './open-time.ts';

/** Time in which a unit is taken, where, and in which state that leaves it. */
export interface Taken {
  readonly start_min: number;
  readonly end_min: number;
  readonly place: number | null;
  readonly state: string | null;
}

/** What a unit's moves cost: travel between places and clean-outs between states. */
export interface UnitFacts {
  readonly unit: Unit;
  readonly open: OpenTime;
  readonly basePlace: number | null;
  readonly travel_min: readonly (readonly number[])[];
  readonly horizon_min: number;
}

/** One unit's bookings in time order, and the gaps left between them. */
export class UnitTimeline {
  private readonly taken: Taken[] = [];
  private readonly freeCache = new Map<string, OpenTime>();

  constructor(readonly facts: UnitFacts) {}

  get bookings(): readonly Taken[] {
    return this.taken;
  }

  take(booking: Taken): void {
    let at = this.taken.length;
    while (at > 0 && this.taken[at - 1]!.start_min > booking.start_min) at -= 1;
    this.taken.splice(at, 0, booking);
    this.freeCache.clear();
  }

  release(booking: Taken): void {
    this.taken.splice(this.taken.indexOf(booking), 1);
    this.freeCache.clear();
  }

  clear(): void {
    this.taken.length = 0;
    this.freeCache.clear();
  }

  /** Spans in which the unit can serve at a place in a state: travel, clean-outs and the way home already taken off. */
  freeFor(place: number | null, state: string | null): OpenTime {
    const key = `${place} ${state}`;
    const known = this.freeCache.get(key);
    if (known) return known;
    const free = this.facts.open.flatMap((span) => this.freeWithin(span, place, state));
    this.freeCache.set(key, free);
    return free;
  }

  private freeWithin(
    [open_min, close_min]: readonly [number, number],
    place: number | null,
    state: string | null,
  ): [number, number][] {
    const inside = this.taken.filter(({ start_min, end_min }) => start_min < close_min && end_min > open_min);
    const before = this.taken.findLast(({ end_min }) => end_min <= open_min) ?? null;
    const after = this.taken.find(({ start_min }) => start_min >= close_min) ?? null;
    const free: [number, number][] = [];
    for (let gap = 0; gap <= inside.length; gap += 1) {
      const from = this.earliestAfter(inside[gap - 1] ?? null, before, open_min, place, state);
      const to = this.latestBefore(inside[gap] ?? null, after, close_min, place, state);
      if (from < to) free.push([from, to]);
    }
    return free;
  }

  private earliestAfter(
    previous: Taken | null,
    earlier: Taken | null,
    open_min: number,
    place: number | null,
    state: string | null,
  ): number {
    if (previous) return previous.end_min + this.passage(previous.place, place, previous.state, state);
    const { unit, basePlace } = this.facts;
    if (unit.returnsToBase) {
      const cleaned = earlier
        ? this.cleanOut(earlier.state, state)
        : this.cleanOut(initialState(unit), state);
      return open_min + this.travel(basePlace, place) + cleaned;
    }
    if (earlier)
      return Math.max(open_min, earlier.end_min + this.passage(earlier.place, place, earlier.state, state));
    return open_min + this.travel(basePlace, place) + this.cleanOut(initialState(unit), state);
  }

  private latestBefore(
    next: Taken | null,
    later: Taken | null,
    close_min: number,
    place: number | null,
    state: string | null,
  ): number {
    if (next) return next.start_min - this.passage(place, next.place, state, next.state);
    if (this.facts.unit.returnsToBase) return close_min - this.travel(place, this.facts.basePlace);
    if (later)
      return Math.min(close_min, later.start_min - this.passage(place, later.place, state, later.state));
    return close_min;
  }

  private passage(
    from: number | null,
    to: number | null,
    before: string | null,
    after: string | null,
  ): number {
    return this.travel(from, to) + this.cleanOut(before, after);
  }

  travel(from: number | null, to: number | null): number {
    return from === null || to === null || from === to ? 0 : this.facts.travel_min[from]![to]!;
  }

  /** A unit that has held nothing needs no clean-out. */
  cleanOut(before: string | null, after: string | null): number {
    const { cleanOut } = this.facts.unit;
    return cleanOut === null || before === null || after === null || before === after ? 0 : cleanOut.minutes;
  }
}

export function initialState(unit: Unit): string | null {
  return unit.cleanOut?.initialState ?? null;
}
