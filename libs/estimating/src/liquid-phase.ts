import { KELVIN_AT_ZERO_CELSIUS, refusal, type Result, success } from '@brimline/quantities';
import { saturatedVapourDensity } from '@brimline/refrigerants';
import { LIQUID_UTILISATION_WITHOUT_CHANGES, spanOfTransfer } from '@brimline/transfer';
import type { EstimateProblem, GearUse, PhaseEstimate, Reason } from './estimate.ts';
import type { JobContext } from './job-context.ts';
import type { JobPhysics, LiquidRate } from './job-physics.ts';
import type { Norm } from './norms.ts';
import { relativeSpread, sumOfSpreads } from './norms.ts';
import { OVERNIGHT_S } from './people-phases.ts';
import { phase, reasonInput as input } from './phase-draft.ts';
import type { TransferWay } from './transfer-way.ts';

/** Spread that the transfer model carries: low to medium confidence. */
const LIQUID_SPREAD = 0.35;
/** Less than this is no flow: the lift or the temperature holds it back. */
const LEAST_FLOW_KG_S = 1e-5;

/** Mass that leaves as liquid: what was there, less what is trapped and the vapour that fills the machine. */
export function liquidToMove(context: JobContext, temperature_K: number): number {
  const vapour_kg = saturatedVapourDensity(context.refrigerant, temperature_K) * context.volume_m3;
  return Math.max(0, context.before_kg * (1 - context.trappedShare) - vapour_kg);
}

export interface LiquidPhase {
  readonly phase: PhaseEstimate;
  readonly mass_kg: number;
  readonly limitedBy: string;
}

export interface LiquidRequest {
  readonly kind: 'liquid recovery' | 'liquid recharge';
  readonly mass_kg: number;
  readonly changes: number;
  readonly isLargeCylinder: boolean;
  /** Works out what limits the flow too. */
  readonly showsLimit: boolean;
  readonly gear: readonly GearUse[];
  /** Tells circuits apart; empty where there is one. */
  readonly part: string;
}

/** Liquid out of the machine into cylinders, or back: a steady flow, utilisation, and cylinder changes. */
export function liquidPhase(
  context: JobContext,
  physics: JobPhysics,
  way: TransferWay,
  request: LiquidRequest,
): Result<LiquidPhase, EstimateProblem> {
  const isOut = request.kind === 'liquid recovery';
  const temperature_K = isOut ? (way.warmedTo_K ?? context.ambient_K) : context.ambient_K;
  const rate = physics.liquidRate(way, isOut ? 'chiller' : 'cylinder', temperature_K, request.showsLimit);
  if (!(rate.massFlow_kg_s > LEAST_FLOW_KG_S)) return refusal(noFlow(context, way, isOut));
  const moving_s = spanOfTransfer(request.mass_kg, rate.massFlow_kg_s, LIQUID_UTILISATION_WITHOUT_CHANGES);
  const change = context.norms[request.isLargeCylinder ? 'changeLarge' : 'changeSmall'];
  const elapsed = sumOfSpreads([
    { spread: relativeSpread(moving_s, LIQUID_SPREAD), times: 1 },
    { spread: change, times: request.changes },
  ]);
  return success({
    phase: phase({
      kind: request.kind,
      part: request.part,
      elapsed,
      manner: 'attended',
      crew: 2,
      certified: 1,
      gear: request.gear,
      interruptible: true,
      reason: liquidReason(way, request, { rate, temperature_K, change, likely_s: elapsed.likely_s }),
      longestGapBefore_s: OVERNIGHT_S,
    }),
    mass_kg: request.mass_kg,
    limitedBy: rate.limitedBy,
  });
}

function noFlow(context: JobContext, way: TransferWay, isOut: boolean): EstimateProblem {
  const where = isOut ? 'out of the machine' : 'into the machine';
  return {
    code: 'no-liquid-flow',
    path: context.lift_m === 0 ? `gear.${way.machines[0]!.id}` : 'job.known.lift',
    message: `no liquid flows ${where} by ${way.method} with ${way.machines[0]!.id}: lift, temperature or machine hold it back`,
  };
}

interface LiquidFacts {
  readonly rate: LiquidRate;
  readonly temperature_K: number;
  readonly change: Norm;
  readonly likely_s: number;
}

function liquidReason(
  way: TransferWay,
  { kind, mass_kg, changes }: LiquidRequest,
  { rate, temperature_K, change, likely_s }: LiquidFacts,
): Reason {
  const isOut = kind === 'liquid recovery';
  return {
    label: isOut ? 'liquid out' : 'liquid in',
    value: likely_s / 60,
    unit: 'min',
    formula: 't = mass / (utilisation x flow) + changes x time of a change',
    inputs: [
      input(
        'liquid to move',
        mass_kg,
        'kg',
        isOut ? 'charge less vapour and trapped liquid' : 'nameplate less what is in',
      ),
      input(
        'steady flow',
        rate.massFlow_kg_s * 60,
        'kg/min',
        `${way.method} model, limited by ${rate.limitedBy}`,
      ),
      input(
        'utilisation',
        LIQUID_UTILISATION_WITHOUT_CHANGES,
        '-',
        'calibrated to common practice, no source',
      ),
      input(
        'liquid temperature',
        temperature_K - KELVIN_AT_ZERO_CELSIUS,
        'degC',
        isOut && way.warmedTo_K !== null ? 'warm water' : 'site, by month',
      ),
      input('cylinder changes', changes, '-', 'cylinder plan'),
      input('one change', change.likely_s / 60, 'min', change.source),
    ],
    limitedBy: rate.limitedBy,
    source:
      way.method === 'direct'
        ? 'least of machine rating and choked hose'
        : 'push-pull balance of vapour, hose and receiver',
  };
}
