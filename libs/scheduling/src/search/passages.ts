import type { Passage } from '../model/plan.ts';
import { spanAt } from '../placement/open-time.ts';
import { initialState, type Taken, type UnitTimeline } from '../placement/unit-timeline.ts';
import type { Workspace } from '../placement/workspace.ts';

/** Travel and clean-outs between bookings, as late as the next booking allows; the way home right after work. */
export function passagesOf(workspace: Workspace): Passage[] {
  const { places } = workspace.compiled.problem;
  const nameOf = (place: number | null): string | null => (place === null ? null : places[place]!);
  return workspace.timelines.flatMap((timeline) =>
    legsOf(timeline).map(({ from, to, ...leg }) => ({
      ...leg,
      fromPlace: nameOf(from),
      toPlace: nameOf(to),
    })),
  );
}

type Leg = Omit<Passage, 'fromPlace' | 'toPlace'> & {
  readonly from: number | null;
  readonly to: number | null;
};

function legsOf(timeline: UnitTimeline): Leg[] {
  const { unit, basePlace } = timeline.facts;
  const legs: Leg[] = [];
  const add = (
    kind: Passage['kind'],
    start_min: number,
    end_min: number,
    from: number | null,
    to: number | null,
  ): void => {
    if (end_min > start_min) legs.push({ unitId: unit.id, kind, start_min, end_min, from, to });
  };
  let previous: Taken | null = null;
  for (const booking of timeline.bookings) {
    const fresh: boolean =
      previous === null || (unit.returnsToBase && !isSameSpan(timeline, previous, booking));
    const from: number | null = fresh ? basePlace : previous!.place;
    const arrive_min =
      booking.start_min - timeline.cleanOut(previous?.state ?? initialState(unit), booking.state);
    add('clean-out', arrive_min, booking.start_min, booking.place, booking.place);
    add('travel', arrive_min - timeline.travel(from, booking.place), arrive_min, from, booking.place);
    if (fresh && previous && unit.returnsToBase) addWayHome(previous);
    previous = booking;
  }
  if (previous && unit.returnsToBase) addWayHome(previous);
  return legs;

  function addWayHome(last: Taken): void {
    add('travel', last.end_min, last.end_min + timeline.travel(last.place, basePlace), last.place, basePlace);
  }
}

function isSameSpan(timeline: UnitTimeline, earlier: Taken, later: Taken): boolean {
  const span = spanAt(timeline.facts.open, earlier.start_min);
  return span !== undefined && later.start_min < span[1];
}
