import type { NormId } from '@brimline/firm';
import type { Setup, PhaseEstimate, GearUse } from './estimate.ts';
import type { JobContext } from './job-context.ts';
import { fixedSpan, sumOfSpreads } from './norms.ts';
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

/**
 * The crew of hands-on work with refrigerant or pressure: two on a roof or in a basement, and with a refrigerant that
 * burns or poisons. Common practice, no source.
 */
export function pairOf(context: JobContext, least: number): number {
  const isHard = context.site.carryIn === 'roof or basement' || context.refrigerant.safetyGroup !== 'A1';
  return isHard ? Math.max(2, least) : crewOf(context, least);
}

export function arrive(context: JobContext): PhaseEstimate {
  const isThere = context.job.sameVisitAs !== undefined;
  const induction = context.site.induction === 'strict' ? 'inductionStrict' : 'inductionOrdinary';
  return phase({
    kind: 'arrive and lock out',
    ...fromNorms(context, 'arrive, permits and lockout', [
      [isThere ? 'sameVisit' : induction, 1],
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
  const isThere = context.job.sameVisitAs !== undefined;
  const moves = setup.method !== 'none';
  const circuits = setup.circuitOrder === 'together' ? context.circuits : 1;
  return phase({
    kind: 'rig up',
    ...fromNorms(context, 'rig up', [
      [context.site.carryIn === 'ground level' ? 'carryInGround' : 'carryInHard', isThere ? 0 : 1],
      ['largeUnit', largeUnit ? setup.machineIds.length : 0],
      ['connectCircuit', circuits],
      ['coreRemoval', setup.coresRemoved ? 2 * circuits : 0],
      ['purgeHoses', moves ? 1 : 0],
      ['scaleSetUp', moves ? 1 : 0],
    ]),
    manner: 'attended',
    crew: 2,
    certified: 1,
    gear,
    interruptible: true,
    longestGapBefore_s: SAME_VISIT_S,
  });
}

/** Hoses go to the next circuit. */
export function nextCircuit(
  context: JobContext,
  setup: Setup,
  gear: readonly GearUse[],
  part: string,
): PhaseEstimate {
  return phase({
    kind: 'rig up',
    part,
    ...fromNorms(context, 'move the hoses to the next circuit', [
      ['connectCircuit', 1],
      ['coreRemoval', setup.coresRemoved ? 2 : 0],
      ['purgeHoses', 1],
    ]),
    manner: 'attended',
    crew: 2,
    certified: 1,
    gear,
    interruptible: true,
    longestGapBefore_s: OVERNIGHT_S,
  });
}

/** Warm water lifts the pressure of a low-pressure machine before it is emptied. */
export function warmUp(context: JobContext, gear: readonly GearUse[]): PhaseEstimate {
  return phase({
    kind: 'warm up',
    ...fromNorms(context, 'warm the machine by water', [['warmWater', 1]]),
    manner: 'watched',
    crew: crewOf(context, 1),
    gear,
    longestGapBefore_s: OVERNIGHT_S,
  });
}

export function recoveryHold(context: JobContext, gear: readonly GearUse[], part: string): PhaseEstimate {
  return phase({
    kind: 'recovery hold',
    part,
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
    crew: pairOf(context, 1),
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
    crew: pairOf(context, 1),
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

/** The rest of the time that the oil heater needs, beside everything that runs meanwhile. */
export function oilHeatUp(asked_s: number, left_s: number): PhaseEstimate {
  return phase({
    kind: 'oil heat-up',
    elapsed: fixedSpan(left_s),
    manner: 'unattended',
    crew: 0,
    reason: {
      label: 'wait for warm oil',
      value: left_s / 3600,
      unit: 'h',
      formula: 'asked less the steps that run meanwhile',
      inputs: [{ label: 'oil heater on before start-up', value: asked_s / 3600, unit: 'h', source: 'job' }],
      limitedBy: 'the oil heater',
      source: 'job file',
    },
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
