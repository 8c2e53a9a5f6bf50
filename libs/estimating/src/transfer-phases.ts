import type { RecoveryMachine } from '@brimline/firm';
import { KELVIN_AT_ZERO_CELSIUS, PASCALS_PER_PSI, refusal, type Result, success } from '@brimline/quantities';
import {
  bubblePressure,
  saturatedVapourDensity,
  vapourDensity,
  vapourViscosityEstimate,
} from '@brimline/refrigerants';
import { type RecoveryLevel, requiredRecoveryLevel } from '@brimline/rules';
import {
  boilOff,
  CHILLER_CONDUCTANCE_W_K,
  CYLINDER_CONDUCTANCE_W_K,
  directTransfer,
  FLOWING_WATER_CONDUCTANCE_W_K,
  gasFlow,
  hosePath,
  LIQUID_UTILISATION_WITHOUT_CHANGES,
  type PreCharge,
  pushPullState,
  pushPullTransfer,
  spanOfTransfer,
  STILL_AIR_CONDUCTANCE_W_K,
  STILL_WATER_CONDUCTANCE_W_K,
  VAPOUR_UTILISATION,
  vapourPreCharge,
  type VapourRecovery,
  vapourRecovery,
} from '@brimline/transfer';
import type { EstimateProblem, GearUse, PhaseEstimate, Reason, ReasonInput } from './estimate.ts';
import type { JobContext } from './job-context.ts';
import { relativeSpread, sumOfSpreads } from './norms.ts';
import { crewOf, OVERNIGHT_S } from './people-phases.ts';
import { phase } from './phase-draft.ts';
import type { TransferWay } from './ways.ts';

/** Liquid left in low spots when the liquid stops: assumed, low confidence, 2 to 10 % of the charge. */
export const LIQUID_HEEL_SHARE = 0.05;
/** Spreads that the transfer model carries: low to medium confidence. */
const LIQUID_SPREAD = 0.35;
const VAPOUR_SPREAD_MEASURED_VOLUME = 0.25;
const VAPOUR_SPREAD_GUESSED_VOLUME = 0.4;
/** Cylinders that can feed the pre-charge at once: a manifold of three, common practice, no source. */
const MANIFOLD = 3;

const celsius = (temperature_K: number): number => temperature_K - KELVIN_AT_ZERO_CELSIUS;

function input(label: string, value: number | string, unit: string, source: string): ReasonInput {
  return { label, value, unit, source };
}

/**
 * The steady flow of liquid by a way, out of the chiller or out of cylinders. What limits a push-pull takes three more
 * balances: it is worked out only for the ways that somebody will read.
 */
export function liquidFlowOf(
  context: JobContext,
  way: TransferWay,
  from: 'chiller' | 'cylinder',
  isShown: boolean,
): { readonly massFlow_kg_s: number; readonly limitedBy: string } {
  const common = {
    refrigerant: context.refrigerant,
    temperature_K: context.ambient_K,
    machines: way.machines,
    path: hosePath(way.hose, { coresLeftIn: way.coresRemoved ? 0 : 1 }),
  };
  if (way.method === 'direct') {
    const { massFlow_kg_s, limitedBy } = directTransfer(common);
    return { massFlow_kg_s, limitedBy: limitedBy.text };
  }
  const balance = {
    ...common,
    coolerBypassed: way.coolerBypassed,
    sourceConductance_W_K: from === 'chiller' ? CHILLER_CONDUCTANCE_W_K : CYLINDER_CONDUCTANCE_W_K,
  };
  if (!isShown) return { massFlow_kg_s: pushPullState(balance).massFlow_kg_s, limitedBy: '' };
  const { massFlow_kg_s, limitedBy } = pushPullTransfer(balance);
  return { massFlow_kg_s, limitedBy: limitedBy.text };
}

/** Mass that leaves as liquid: what was there, less the heel and the vapour that fills the machine. */
export function liquidToMove(context: JobContext): number {
  const vapour_kg = saturatedVapourDensity(context.refrigerant, context.ambient_K) * context.volume_m3;
  return Math.max(0, context.before_kg * (1 - LIQUID_HEEL_SHARE) - vapour_kg);
}

export interface LiquidPhase {
  readonly phase: PhaseEstimate;
  readonly mass_kg: number;
  readonly limitedBy: string;
}

interface LiquidRequest {
  readonly kind: 'liquid recovery' | 'liquid recharge';
  readonly mass_kg: number;
  readonly changes: number;
  readonly isLargeCylinder: boolean;
  readonly isShown: boolean;
  readonly gear: readonly GearUse[];
}

/** Liquid out of the machine into cylinders, or back: a steady flow, utilisation, and cylinder changes. */
export function liquidPhase(context: JobContext, way: TransferWay, request: LiquidRequest): LiquidPhase {
  const from = request.kind === 'liquid recovery' ? 'chiller' : 'cylinder';
  const flow = liquidFlowOf(context, way, from, request.isShown);
  const moving_s = spanOfTransfer(request.mass_kg, flow.massFlow_kg_s, LIQUID_UTILISATION_WITHOUT_CHANGES);
  const change = context.norms[request.isLargeCylinder ? 'changeLarge' : 'changeSmall'];
  const elapsed = sumOfSpreads([
    { spread: relativeSpread(moving_s, LIQUID_SPREAD), times: 1 },
    { spread: change, times: request.changes },
  ]);
  const reason: Reason = {
    label: request.kind === 'liquid recovery' ? 'liquid out' : 'liquid in',
    value: elapsed.likely_s / 60,
    unit: 'min',
    formula: 't = mass / (utilisation x flow) + changes x time of a change',
    inputs: [
      input('liquid to move', request.mass_kg, 'kg', 'charge less vapour and trapped liquid'),
      input(
        'steady flow',
        flow.massFlow_kg_s * 60,
        'kg/min',
        `${way.method} model, limited by ${flow.limitedBy}`,
      ),
      input(
        'utilisation',
        LIQUID_UTILISATION_WITHOUT_CHANGES,
        '-',
        'calibrated to common practice, no source',
      ),
      input('liquid temperature', celsius(context.ambient_K), 'degC', 'site, by month'),
      input('cylinder changes', request.changes, '-', 'cylinder plan'),
      input('one change', change.likely_s / 60, 'min', change.source),
    ],
    limitedBy: flow.limitedBy,
    source:
      way.method === 'direct'
        ? 'least of machine rating and choked hose'
        : 'push-pull balance of vapour, hose and receiver',
  };
  return {
    phase: phase({
      kind: request.kind,
      elapsed,
      manner: 'attended',
      crew: 2,
      certified: 1,
      gear: request.gear,
      interruptible: true,
      reason,
      longestGapBefore_s: OVERNIGHT_S,
    }),
    mass_kg: request.mass_kg,
    limitedBy: flow.limitedBy,
  };
}

export interface VapourPhase {
  readonly phase: PhaseEstimate;
  readonly recovery: VapourRecovery;
  readonly level: RecoveryLevel;
  readonly heel_kg: number;
  readonly heel_s: number;
  readonly heelPressure_Pa: number;
  readonly freezing: 'none' | 'near' | 'hazard';
}

/** Heat that reaches liquid left in the machine. */
function heelConductance({ chiller }: JobContext): { readonly value_W_K: number; readonly text: string } {
  if (chiller.cooling === 'air-cooled' && !chiller.waterFlow)
    return { value_W_K: STILL_AIR_CONDUCTANCE_W_K, text: 'still air' };
  return chiller.waterFlow
    ? { value_W_K: FLOWING_WATER_CONDUCTANCE_W_K, text: 'water flowing' }
    : { value_W_K: STILL_WATER_CONDUCTANCE_W_K, text: 'still water' };
}

/** Vapour down to the level that the rule asks, the liquid heel boiling off first. */
export function vapourPhase(
  context: JobContext,
  way: TransferWay,
  gear: readonly GearUse[],
): Result<VapourPhase, EstimateProblem> {
  const { refrigerant, ambient_K, volume_m3, atmosphere_Pa } = context;
  const level = strictestLevel(context, way.machines);
  const path = hosePath(way.hose, { coresLeftIn: way.coresRemoved ? 0 : 1 });
  const conductance = heelConductance(context);
  const recovery = vapourRecovery({
    refrigerant,
    volume_m3,
    temperature_K: ambient_K,
    endPressure_Pa: Math.min(level.pressure_Pa, atmosphere_Pa),
    machines: way.machines,
    path,
  });
  if (!recovery.ok) {
    const { code, message } = recovery.problems[0]!;
    return refusal({
      code,
      path: `gear.${way.machines[0]!.id}`,
      message: `${message} (${level.text} required)`,
    });
  }
  const heel_kg = context.before_kg * LIQUID_HEEL_SHARE;
  const boiling = boilOff({
    refrigerant,
    machines: way.machines,
    conductance_W_K: conductance.value_W_K,
    heatSource_K: ambient_K,
    ...(context.chiller.evaporatorFluid === 'none'
      ? {}
      : { freezingPoint_K: context.chiller.freezingPoint_K }),
  });
  const heel_s = heel_kg / (boiling.massFlow_kg_s * VAPOUR_UTILISATION);
  const vapour_s = recovery.value.time_s / VAPOUR_UTILISATION;
  const share =
    context.chiller.internalVolume_m3 === null ? VAPOUR_SPREAD_GUESSED_VOLUME : VAPOUR_SPREAD_MEASURED_VOLUME;
  const elapsed = relativeSpread(heel_s + vapour_s, share);
  return success({
    phase: phase({
      kind: 'vapour recovery',
      elapsed,
      manner: 'watched',
      crew: crewOf(context, 1),
      certified: 1,
      gear,
      interruptible: true,
      longestGapBefore_s: OVERNIGHT_S,
      reason: vapourReason(context, {
        elapsed_s: elapsed.likely_s,
        level,
        recovery: recovery.value,
        heel_kg,
        conductance,
        boils_K: boiling.evaporation_K,
      }),
    }),
    recovery: recovery.value,
    level,
    heel_kg,
    heel_s,
    heelPressure_Pa: bubblePressure(refrigerant, boiling.evaporation_K),
    freezing: context.chiller.waterFlow ? 'none' : boiling.freezing,
  });
}

interface VapourFacts {
  readonly elapsed_s: number;
  readonly level: RecoveryLevel;
  readonly recovery: VapourRecovery;
  readonly heel_kg: number;
  readonly conductance: { readonly value_W_K: number; readonly text: string };
  readonly boils_K: number;
}

function vapourReason(
  context: JobContext,
  { elapsed_s, level, recovery, heel_kg, conductance, boils_K }: VapourFacts,
): Reason {
  return {
    label: 'vapour out',
    value: elapsed_s / 3600,
    unit: 'h',
    formula: 't = [heel / boil-off rate + integral of V d(rho)/m(rho)] / utilisation',
    inputs: [
      input('level to reach', level.pressure_Pa / 1000, 'kPa abs', `${level.text}, ${level.citation}`),
      input(
        'internal volume',
        context.volume_m3,
        'm3',
        context.chiller.internalVolume_m3 === null ? 'assumed from the charge' : 'machine register',
      ),
      input('vapour at the start', recovery.start_kg, 'kg', 'vapour density at the temperature'),
      input('vapour left at the level', recovery.left_kg, 'kg', 'vapour density at the level'),
      input('liquid heel', heel_kg, 'kg', 'assumed 5 % of the charge, low confidence'),
      input('heat to the heel', conductance.value_W_K, 'W/K', `assumed, ${conductance.text}`),
      input('heel boils at', celsius(boils_K), 'degC', 'energy balance'),
      input('utilisation', VAPOUR_UTILISATION, '-', 'assumed, low confidence'),
    ],
    limitedBy: recovery.limitedBy.text,
    source: 'mass balance of a machine of constant displacement with clearance, sucking through its hose',
  };
}

/** The lowest of the levels that the machines' dates of make ask for. */
function strictestLevel(context: JobContext, machines: readonly RecoveryMachine[]): RecoveryLevel {
  const levels = machines.map((machine) =>
    requiredRecoveryLevel({
      refrigerant: context.refrigerant,
      charge_kg: context.nameplate_kg,
      recoveryMachineMade: machine.made,
      atmosphere_Pa: context.atmosphere_Pa,
    }),
  );
  return levels.reduce((least, level) => (level.pressure_Pa < least.pressure_Pa ? level : least));
}

/** Vapour left in the machine at a level: what recovery can't take. */
export function vapourAt(context: JobContext, pressure_Pa: number): number {
  return (
    vapourDensity(context.refrigerant, context.ambient_K, Math.min(pressure_Pa, context.atmosphere_Pa)) *
    context.volume_m3
  );
}

export interface PreChargePhase {
  readonly phase: PhaseEstimate;
  readonly preCharge: PreCharge;
}

/** Vapour first, until saturation stands above freezing. */
export function preChargePhase(
  context: JobContext,
  way: TransferWay,
  sources: readonly { readonly liquid_kg: number; readonly steel_kg: number }[],
  gear: readonly GearUse[],
): PreChargePhase {
  const { refrigerant, ambient_K, chiller } = context;
  const path = hosePath(way.hose, { coresLeftIn: way.coresRemoved ? 0 : 1 });
  const { massFlow_kg_s } = gasFlow({
    path,
    upstreamPressure_Pa: bubblePressure(refrigerant, ambient_K),
    upstreamDensity_kg_m3: saturatedVapourDensity(refrigerant, ambient_K),
    viscosity_Pa_s: vapourViscosityEstimate(refrigerant, ambient_K).value_Pa_s,
    downstreamPressure_Pa: 0,
  });
  const preCharge = vapourPreCharge({
    refrigerant,
    volume_m3: context.volume_m3,
    freezingPoint_K: chiller.freezingPoint_K,
    ambient_K,
    cylinders: sources.slice(0, MANIFOLD),
    lineFlow_kg_s: massFlow_kg_s * VAPOUR_UTILISATION,
  });
  const elapsed = sumOfSpreads([
    { spread: context.norms.preChargeSetUp, times: 1 },
    { spread: relativeSpread(preCharge.time_s, VAPOUR_SPREAD_GUESSED_VOLUME), times: 1 },
  ]);
  return {
    phase: phase({
      kind: 'vapour pre-charge',
      elapsed,
      manner: 'attended',
      crew: 2,
      certified: 1,
      gear,
      longestGapBefore_s: (chiller.waterFlow ? 2 : 8) * 3600,
      reason: {
        label: 'vapour in before liquid',
        value: elapsed.likely_s / 60,
        unit: 'min',
        formula:
          't = set-up + larger of m / line flow and (m - burst) / heat-limited flow, m = rhoV(Tf + margin) V',
        inputs: [
          input('vapour needed', preCharge.mass_kg, 'kg', 'vapour density at the safe saturation'),
          input('safe saturation', celsius(preCharge.safe_K), 'degC', 'freezing point plus 2 K, assumed'),
          input(
            'gate for liquid',
            (preCharge.safePressure_Pa - context.atmosphere_Pa) / PASCALS_PER_PSI,
            'psig',
            'saturation table',
          ),
          input('cylinders feeding', Math.min(MANIFOLD, sources.length), '-', 'cylinder plan'),
        ],
        limitedBy: preCharge.limitedBy,
        source: 'mass and energy balance of the cylinders; heat conductances assumed',
      },
    }),
    preCharge,
  };
}
