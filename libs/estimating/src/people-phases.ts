import type { Setup, PhaseEstimate, GearUse } from './estimate.ts';
import type { JobContext } from './job-context.ts';
import { fixedSpan, type NormId, sumOfSpreads } from './norms.ts';
import { normReason, phase } from './phase-draft.ts';

/** Work that was begun goes on after one night at most; an opened machine waits no longer. Common practice, no source. */
export const OVERNIGHT_S = 18 * 3600;
/** Once let in and locked out, the crew begins. */
const SAME_VISIT_S = 2 * 3600;

type Count = readonly [norm: NormId, times: number];

function fromNorms(context: JobContext, label: string, counts: readonly Count[]) {
  const parts = counts
    .filter(([, times]) => times > 0)
    .map(([id, times]) => ({ norm: context.norms[id], times }));
  return {
    elapsed: sumOfSpreads(parts.map(({ norm, times }) => ({ spread: norm, times }))),
    reason: normReason(label, parts),
  };
}

/** The crew that a site's two-person rule or the task asks for. */
export function crewOf(context: JobContext, least: number): number {
  return context.site.twoPersonRule ? Math.max(2, least) : least;
}

export function arrive(context: JobContext): PhaseEstimate {
  const induction = context.site.induction === 'strict' ? 'inductionStrict' : 'inductionOrdinary';
  return phase({
    kind: 'arrive and lock out',
    ...fromNorms(context, 'arrive, permits and lockout', [
      [induction, 1],
      ['roomCheck', 1],
    ]),
    manner: 'attended',
    crew: crewOf(context, 1),
    certified: 1,
    needsLead: true,
  });
}

export function rigUp(
  context: JobContext,
  setup: Setup,
  gear: readonly GearUse[],
  largeUnit: boolean,
): PhaseEstimate {
  const circuits = context.chiller.circuits;
  return phase({
    kind: 'rig up',
    ...fromNorms(context, 'rig up', [
      [context.site.carryIn === 'ground level' ? 'carryInGround' : 'carryInHard', 1],
      ['largeUnit', largeUnit ? setup.machineIds.length : 0],
      ['connectCircuit', circuits],
      ['coreRemoval', setup.coresRemoved ? 2 * circuits : 0],
      ['purgeHoses', 1],
      ['scaleSetUp', 1],
    ]),
    manner: 'attended',
    crew: 2,
    certified: 1,
    gear,
    interruptible: true,
    longestGapBefore_s: SAME_VISIT_S,
  });
}

export function recoveryHold(context: JobContext, gear: readonly GearUse[]): PhaseEstimate {
  return phase({
    kind: 'recovery hold',
    ...fromNorms(context, 'rest and recheck at the recovery level', [['recoveryHold', 1]]),
    manner: 'watched',
    crew: crewOf(context, 1),
    certified: 1,
    gear,
    longestGapBefore_s: 30 * 60,
  });
}

export function nitrogenBreak(context: JobContext, gear: readonly GearUse[]): PhaseEstimate {
  return phase({
    kind: 'nitrogen break',
    ...fromNorms(context, 'break with nitrogen and open', [['nitrogenBreak', 1]]),
    longestGapBefore_s: OVERNIGHT_S,
    manner: 'attended',
    crew: crewOf(context, 1),
    certified: 1,
    gear,
  });
}

/** Work by others while the machine stands open; its span is given, not estimated. */
export function openWork(context: JobContext): PhaseEstimate {
  const span_s = context.job.openWork_s;
  return phase({
    kind: 'open work',
    elapsed: fixedSpan(span_s),
    manner: 'unattended',
    crew: 0,
    interruptible: true,
    reason: {
      label: 'open work by the repair crew',
      value: span_s / 3600,
      unit: 'h',
      formula: 'given',
      inputs: [{ label: 'open work', value: span_s / 3600, unit: 'h', source: 'job' }],
      limitedBy: null,
      source: 'job file',
    },
  });
}

export function releaseNitrogen(context: JobContext, gear: readonly GearUse[]): PhaseEstimate {
  return phase({
    kind: 'nitrogen release',
    ...fromNorms(context, 'release nitrogen outdoors', [['releaseNitrogen', 1]]),
    manner: 'attended',
    crew: crewOf(context, 1),
    gear,
  });
}

export function evacuationSetUp(context: JobContext, gear: readonly GearUse[]): PhaseEstimate {
  return phase({
    kind: 'evacuation set-up',
    ...fromNorms(context, 'connect the pump and check it blanked off', [['pumpSetUp', 1]]),
    manner: 'attended',
    crew: crewOf(context, 1),
    certified: 1,
    gear,
  });
}

export function proveWater(context: JobContext): PhaseEstimate {
  return phase({
    kind: 'prove water flow',
    ...fromNorms(context, 'prove water flow through both barrels', [['proveWater', 1]]),
    manner: 'attended',
    crew: crewOf(context, 1),
    certified: 1,
    longestGapBefore_s: 8 * 3600,
  });
}

export function startUp(context: JobContext): PhaseEstimate {
  return phase({
    kind: 'start-up check',
    ...fromNorms(context, 'start up, stabilise and trim', [['startUp', 1]]),
    manner: 'attended',
    crew: crewOf(context, 1),
    certified: 1,
    needsLead: true,
  });
}

export function rigDown(context: JobContext, gear: readonly GearUse[]): PhaseEstimate {
  return phase({
    kind: 'rig down and records',
    ...fromNorms(context, 'rig down, weigh, label, records', [
      ['rigDown', 1],
      ['paperwork', 1],
    ]),
    manner: 'attended',
    crew: 2,
    certified: 1,
    gear,
    interruptible: true,
  });
}
