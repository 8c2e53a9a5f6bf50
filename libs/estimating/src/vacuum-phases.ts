import type { NitrogenSet } from '@brimline/firm';
import {
  formatQuantity,
  PASCALS_PER_MICRON,
  PASCALS_PER_PSI,
  refusal,
  type Result,
  success,
} from '@brimline/quantities';
import { type Evacuation, nitrogenUse, REAL_TO_DRY } from '@brimline/vacuum';
import type { EstimateProblem, GearUse, PhaseEstimate, Spread } from './estimate.ts';
import type { JobContext } from './job-context.ts';
import type { JobPhysics, VacuumLine } from './job-physics.ts';
import {
  FIXED_SPANS,
  fixedSpan,
  leastEvacuation,
  relativeSpread,
  reportedEvacuation,
  sumOfSpreads,
} from './norms.ts';
import { crewOf, OVERNIGHT_S } from './people-phases.ts';
import { normReason, phase } from './phase-draft.ts';

/** First pulls of a triple evacuation stop here: common practice, no source. */
const SHALLOW_PULL_PA = 1500 * PASCALS_PER_MICRON;
const DRY_SPREAD = 0.3;
/** A wet system is right within a factor of two. */
const WET_SPREAD = 1;
/** Water in a machine that was opened for a short time: assumed, low confidence, 0.01 to 0.2 kg. */
export const ASSUMED_WATER_KG = 0.05;

export interface NitrogenPlan {
  readonly raise: PhaseEstimate;
  readonly hold: PhaseEstimate;
  readonly cylinders: number;
  readonly testPressure_Pa: number;
}

/** Raise in stages with two people, then hold: overnight where the site lets it stand, else two hours watched. */
export function nitrogenTest(
  context: JobContext,
  sets: readonly NitrogenSet[],
  gear: readonly GearUse[],
): Result<NitrogenPlan, EstimateProblem> {
  const { chiller, atmosphere_Pa, volume_m3, ambient_K, norms, site } = context;
  const testPressure_Pa = atmosphere_Pa + chiller.testPressure_Pa_gauge;
  const set = sets[0];
  if (!set) return refusal({ code: 'no-nitrogen-set', path: 'gear', message: 'no nitrogen set may be used' });
  const use = nitrogenUse({
    volume_m3,
    testPressure_Pa,
    startPressure_Pa: atmosphere_Pa,
    temperature_K: ambient_K,
    cylinderVolume_m3: set.cylinderVolume_m3,
    fillPressure_Pa: set.fillPressure_Pa,
  });
  const hold_s = site.unattendedAllowed
    ? FIXED_SPANS.nitrogenHoldOvernight_s
    : FIXED_SPANS.nitrogenHoldShort_s;
  return success({
    raise: phase({
      kind: 'nitrogen pressure test',
      elapsed: norms.raiseNitrogen,
      manner: 'attended',
      crew: 2,
      certified: 1,
      gear,
      longestGapBefore_s: OVERNIGHT_S,
      reason: normReason('raise nitrogen and search for leaks', [{ norm: norms.raiseNitrogen, times: 1 }]),
    }),
    hold: phase({
      kind: 'nitrogen hold',
      elapsed: fixedSpan(hold_s),
      manner: site.unattendedAllowed ? 'unattended' : 'watched',
      crew: site.unattendedAllowed ? 0 : crewOf(context, 1),
      gear,
      longestGapBefore_s: 30 * 60,
      reason: {
        label: 'hold under nitrogen',
        value: hold_s / 3600,
        unit: 'h',
        formula: 'fixed by specification',
        inputs: [
          {
            label: 'test pressure',
            value: chiller.testPressure_Pa_gauge / PASCALS_PER_PSI,
            unit: 'psig',
            source: 'machine register',
          },
          { label: 'nitrogen', value: use.mass_kg, unit: 'kg', source: 'mass balance with real-gas density' },
        ],
        limitedBy: null,
        source: site.unattendedAllowed
          ? 'overnight: common practice, no source'
          : 'UFGS-15741N 3.7.3: two hours',
      },
    }),
    cylinders: use.cylinders,
    testPressure_Pa,
  });
}

export interface EvacuationPlan {
  /** Likely spans that go with the volume, and with the water; real, not dry. */
  readonly dry_s: number;
  readonly drying_s: number;
  readonly phases: readonly PhaseEstimate[];
  /** One entry an evacuation phase, in order. */
  readonly pulls: readonly Evacuation[];
  readonly riseTest: PhaseEstimate;
  readonly iceWarning: boolean;
  readonly oilChanges: number;
}

/** Pressures to reach, and the water that is there at the start of each pull. */
function pullTargets({ job }: JobContext): { readonly to_Pa: number; readonly water_kg: number }[] {
  const last_Pa = job.evacuationTarget_Pa;
  const targets =
    job.evacuation === 'triple'
      ? [Math.max(SHALLOW_PULL_PA, last_Pa), Math.max(SHALLOW_PULL_PA, last_Pa), last_Pa]
      : [last_Pa];
  const water_kg = job.moisture_kg ?? ASSUMED_WATER_KG;
  return targets.map((to_Pa, index) => ({ to_Pa, water_kg: index === 0 ? water_kg : 0 }));
}

/** The pulls of an evacuation without their phases: enough to compare pumps and hoses. */
export function evacuationPulls(
  context: JobContext,
  physics: JobPhysics,
  line: VacuumLine,
): Result<readonly Evacuation[], EstimateProblem> {
  const pulls: Evacuation[] = [];
  for (const { to_Pa, water_kg } of pullTargets(context)) {
    const pull = physics.pull(line, to_Pa, water_kg);
    if (!pull.ok) return refusal({ ...pull.problems[0]!, path: `gear.${line.pump.id}` });
    pulls.push(pull.value);
  }
  return success(pulls);
}

/** Likely span of the pulls, each at least as long as crews trust. */
export function spanOfPulls(context: JobContext, pulls: readonly Evacuation[]): number {
  return pulls.reduce((sum, pull, index) => {
    const dry_s = (pull.time_s - pull.drying_s) * REAL_TO_DRY;
    return sum + pullSpread(context, pull, dry_s, index === pulls.length - 1).likely_s;
  }, 0);
}

/** Deep pull, or three pulls with nitrogen sweeps between; then the pump is shut off and the rise is watched. */
export function evacuationPlan(
  context: JobContext,
  physics: JobPhysics,
  line: VacuumLine,
  gear: readonly GearUse[],
  nitrogen: readonly GearUse[],
): Result<EvacuationPlan, EstimateProblem> {
  const solved = evacuationPulls(context, physics, line);
  if (!solved.ok) return solved;
  const pulls = solved.value;
  const targets = pullTargets(context);
  const phases: PhaseEstimate[] = [];
  for (const [index, { to_Pa, water_kg }] of targets.entries()) {
    const part = targets.length > 1 ? `pull ${index + 1}` : '';
    const isLast = index === targets.length - 1;
    phases.push(pullPhase(context, pulls[index]!, { to_Pa, water_kg, part, isLast }, gear));
    if (!isLast) phases.push(sweepPhase(context, `after pull ${index + 1}`, [...gear, ...nitrogen]));
  }
  return success({
    dry_s: pulls.reduce((sum, pull) => sum + (pull.time_s - pull.drying_s) * REAL_TO_DRY, 0),
    drying_s: pulls.reduce((sum, { drying_s }) => sum + drying_s, 0),
    phases,
    pulls,
    riseTest: riseTestPhase(context, gear),
    iceWarning: pulls.some(({ iceWarning }) => iceWarning),
    oilChanges: 1 + Math.floor((context.job.moisture_kg ?? ASSUMED_WATER_KG) / 0.5) + (targets.length - 1),
  });
}

interface PullFacts {
  readonly to_Pa: number;
  readonly water_kg: number;
  readonly part: string;
  readonly isLast: boolean;
}

/** The spread of the computed pull, moved up to the least span where that is longer. */
function pullSpread(context: JobContext, pull: Evacuation, dry_s: number, isLast: boolean): Spread {
  const computed = sumOfSpreads([
    { spread: relativeSpread(dry_s, DRY_SPREAD), times: 1 },
    ...(pull.drying_s > 0 ? [{ spread: relativeSpread(pull.drying_s, WET_SPREAD), times: 1 }] : []),
  ]);
  const least_s = isLast ? leastEvacuation(context.nameplate_kg) : 0;
  return computed.likely_s >= least_s ? computed : relativeSpread(least_s, DRY_SPREAD);
}

function pullPhase(
  context: JobContext,
  pull: Evacuation,
  { to_Pa, water_kg, part, isLast }: PullFacts,
  gear: readonly GearUse[],
): PhaseEstimate {
  const { unattendedAllowed } = context.site;
  const dry_s = (pull.time_s - pull.drying_s) * REAL_TO_DRY;
  const elapsed = pullSpread(context, pull, dry_s, isLast);
  return phase({
    kind: 'evacuation',
    ...(part === '' ? {} : { part }),
    elapsed,
    manner: unattendedAllowed ? 'unattended' : 'watched',
    crew: unattendedAllowed ? 0 : crewOf(context, 1),
    gear,
    interruptible: !unattendedAllowed,
    longestGapBefore_s: 30 * 60,
    reason: {
      label: 'evacuate',
      value: elapsed.likely_s / 3600,
      unit: 'h',
      formula: 't = larger of least span and 1.5 x integral of V/S d(ln P) + water / drying rate',
      inputs: [
        {
          label: 'internal volume',
          value: context.volume_m3,
          unit: 'm3',
          source: context.volume.source,
        },
        { label: 'target', value: to_Pa / PASCALS_PER_MICRON, unit: 'micron', source: 'job' },
        {
          label: 'dry time',
          value: dry_s / 3600,
          unit: 'h',
          source: 'integration through the hose, times 1.5 (assumed, low confidence)',
        },
        {
          label: 'least span of the last pull',
          value: (isLast ? leastEvacuation(context.nameplate_kg) : 0) / 3600,
          unit: 'h',
          source: 'oil and pockets give up gas slowly: common practice, no source',
        },
        {
          label: 'what crews report for this charge',
          value: reportedText(context.nameplate_kg),
          unit: 'h',
          source: 'common practice, no source; only its least is used',
        },
        {
          label: 'water',
          value: water_kg,
          unit: 'kg',
          source: context.job.moisture_kg === null ? 'assumed, low confidence' : 'job',
        },
        {
          label: 'drying time',
          value: pull.drying_s / 3600,
          unit: 'h',
          source: 'plateau where pump and heat balance',
        },
      ],
      limitedBy: elapsed.likely_s > dry_s + pull.drying_s ? 'the least span of a pull' : pull.limitedBy.text,
      source: 'mass balance; conductance by Knudsen; water by IAPWS saturation',
    },
  });
}

function reportedText(charge_kg: number): string {
  const { low_s, likely_s, high_s } = reportedEvacuation(charge_kg);
  return [low_s, likely_s, high_s].map((span_s) => span_s / 3600).join(' / ');
}

function sweepPhase(context: JobContext, part: string, gear: readonly GearUse[]): PhaseEstimate {
  const parts = [
    { norm: context.norms.nitrogenSweep, times: 1 },
    { norm: context.norms.evacuationSoak, times: 1 },
  ];
  return phase({
    kind: 'nitrogen sweep',
    part,
    elapsed: sumOfSpreads(parts.map(({ norm, times }) => ({ spread: norm, times }))),
    manner: 'attended',
    crew: crewOf(context, 1),
    certified: 1,
    gear,
    reason: normReason('break the vacuum with dry nitrogen', parts),
  });
}

function riseTestPhase(context: JobContext, gear: readonly GearUse[]): PhaseEstimate {
  const span_s = context.isLarge ? FIXED_SPANS.riseTestLarge_s : FIXED_SPANS.riseTest_s;
  return phase({
    kind: 'rise test',
    elapsed: fixedSpan(span_s),
    manner: 'watched',
    crew: crewOf(context, 1),
    certified: 1,
    gear,
    reason: {
      label: 'rise test',
      value: span_s / 3600,
      unit: 'h',
      formula: 'fixed by specification; a failed test is counted in the percentiles',
      inputs: [
        {
          label: 'target',
          value: formatQuantity(context.job.evacuationTarget_Pa, 'absolute pressure', 'micron', 0),
          unit: '-',
          source: 'job',
        },
      ],
      limitedBy: null,
      source: context.isLarge
        ? 'UFGS-15741N 3.7.3: two hours'
        : 'UFGS-15182 3.3: one hour, at most 500 micron',
    },
  });
}
