import { KILOGRAMS_PER_POUND } from '@brimline/quantities';
import type { GearUse, PhaseEstimate, PhaseKind } from './estimate.ts';
import type { JobContext } from './job-context.ts';
import { sumOfSpreads } from './norms.ts';
import type { TestLoop } from './risk-facts.ts';

/** Chance that a rise test fails: 0.15, 0.25 and 0.5 for dry and small, ordinary, wet. Judged, no source. */
const RISE_FAILS = { easy: 0.15, ordinary: 0.25, wet: 0.5 };
/** Chance that a pressure test finds a leak. Judged, no source. */
const PRESSURE_FAILS = 0.15;
/** Water from which a system counts as wet. Assumed, low confidence. */
const WET_KG = 0.25;
const SMALL_KG = 200 * KILOGRAMS_PER_POUND;

function riseFails({ job, nameplate_kg }: JobContext): number {
  const water_kg = job.moisture_kg ?? 0;
  if (water_kg >= WET_KG) return RISE_FAILS.wet;
  return nameplate_kg < SMALL_KG && job.moisture_kg !== null ? RISE_FAILS.easy : RISE_FAILS.ordinary;
}

/** What is done again after a failure: people search and mend, then phases run once more. */
function loop(
  test: TestLoop['test'],
  probability: number,
  people: readonly PhaseEstimate['elapsed'][],
  again: readonly PhaseEstimate[],
  source: string,
): TestLoop {
  const each = sumOfSpreads(
    [...people, ...again.map(({ elapsed }) => elapsed)].map((spread) => ({ spread, times: 1 })),
  );
  const pairs_s = people.reduce((sum, { likely_s }) => sum + 2 * likely_s, 0);
  const attended_s = again.reduce((sum, { elapsed, crew }) => sum + elapsed.likely_s * crew, pairs_s);
  const gear: readonly GearUse[] = again.at(-1)?.gear ?? [];
  return {
    test,
    probability,
    each,
    crew: attended_s / each.likely_s,
    gearUnits: gear.reduce((sum, { count }) => sum + count, 0),
    gear,
    repeats: again.map(({ id }) => id),
    source,
  };
}

/** The tests of a work plan that may fail. */
export function testLoops(context: JobContext, phases: readonly PhaseEstimate[]): TestLoop[] {
  const { leakSearch, repairLeak, evacuationSoak } = context.norms;
  const last = (kind: PhaseKind): PhaseEstimate | undefined =>
    phases.findLast((phase) => phase.kind === kind);
  const loops: TestLoop[] = [];
  const [raise, hold, release] = [
    last('nitrogen pressure test'),
    last('nitrogen hold'),
    last('nitrogen release'),
  ];
  if (raise && hold && release) {
    loops.push(
      loop('pressure test', PRESSURE_FAILS, [leakSearch, repairLeak], [raise, hold], 'judged, no source'),
    );
  }
  const [pull, rise] = [last('evacuation'), last('rise test')];
  if (pull && rise) {
    loops.push(
      loop('rise test', riseFails(context), [leakSearch, evacuationSoak], [pull, rise], 'judged, no source'),
    );
  }
  return loops;
}
