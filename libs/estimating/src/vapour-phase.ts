import type { RecoveryMachine } from '@brimline/firm';
import { KELVIN_AT_ZERO_CELSIUS, refusal, type Result, success } from '@brimline/quantities';
import { bubblePressure, dewPressure, vapourDensity } from '@brimline/refrigerants';
import { type RecoveryLevel, requiredRecoveryLevel } from '@brimline/rules';
import {
  FLOWING_WATER_CONDUCTANCE_W_K,
  STILL_AIR_CONDUCTANCE_W_K,
  STILL_WATER_CONDUCTANCE_W_K,
  VAPOUR_UTILISATION,
  type VapourRecovery,
} from '@brimline/transfer';
import type { EstimateProblem, GearUse, PhaseEstimate, Reason } from './estimate.ts';
import type { JobContext } from './job-context.ts';
import type { JobPhysics } from './job-physics.ts';
import { relativeSpread } from './norms.ts';
import { OVERNIGHT_S, pairOf } from './people-phases.ts';
import { phase, reasonInput as input } from './phase-draft.ts';
import type { TransferWay } from './transfer-way.ts';

/** Spread of the transfer model; that of the volume itself is drawn with it. */
const SPREAD_MEASURED_VOLUME = 0.25;
const SPREAD_GUESSED_VOLUME = 0.4;

export interface VapourPhase {
  readonly phase: PhaseEstimate;
  readonly recovery: VapourRecovery;
  readonly level: RecoveryLevel;
  /** Likely span that goes with the volume, and with the liquid that is trapped. */
  readonly vapour_s: number;
  readonly heel_s: number;
  readonly heel_kg: number;
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

/** Pressure of what is in the machine before liquid or vapour leaves it. */
export function startPressure(context: JobContext, temperature_K: number): number {
  const { refrigerant: r, before_kg, volume_m3 } = context;
  const saturation_Pa = dewPressure(r, temperature_K);
  const density = before_kg / volume_m3;
  if (density >= vapourDensity(r, temperature_K, saturation_Pa)) return saturation_Pa;
  let [low_Pa, high_Pa] = [0, saturation_Pa];
  for (let halving = 0; halving < 50; halving += 1) {
    const middle_Pa = (low_Pa + high_Pa) / 2;
    if (vapourDensity(r, temperature_K, middle_Pa) < density) low_Pa = middle_Pa;
    else high_Pa = middle_Pa;
  }
  return high_Pa;
}

/** Vapour down to the level that the rule asks, the liquid that is trapped boiling off first. */
export function vapourPhase(
  context: JobContext,
  physics: JobPhysics,
  way: TransferWay,
  gear: readonly GearUse[],
  part: string,
): Result<VapourPhase, EstimateProblem> {
  const { refrigerant, ambient_K, volume_m3, atmosphere_Pa } = context;
  const temperature_K = way.warmedTo_K ?? ambient_K;
  const level = strictestLevel(context, way.machines);
  const recovered = physics.vapour(way, {
    volume_m3,
    temperature_K,
    startPressure_Pa: startPressure(context, temperature_K),
    endPressure_Pa: Math.min(level.pressure_Pa, atmosphere_Pa),
  });
  if (!recovered.ok) {
    const { code, message } = recovered.problems[0]!;
    const path = `gear.${way.machines[0]!.id}`;
    return refusal({ code, path, message: `${message} (${level.text} required)` });
  }
  const recovery = recovered.value;
  const conductance = heelConductance(context);
  const boiling = physics.boilOff(way, conductance.value_W_K, temperature_K);
  const heel_kg = Math.max(
    0,
    Math.min(context.before_kg * context.trappedShare, context.before_kg - recovery.start_kg),
  );
  const heel_s = heel_kg / (boiling.massFlow_kg_s * VAPOUR_UTILISATION);
  const vapour_s = recovery.time_s / VAPOUR_UTILISATION;
  const share = context.volume.isMeasured ? SPREAD_MEASURED_VOLUME : SPREAD_GUESSED_VOLUME;
  const elapsed = relativeSpread(Math.max(heel_s + vapour_s, LEAST_S), share);
  return success({
    phase: phase({
      kind: 'vapour recovery',
      part,
      elapsed,
      manner: 'watched',
      crew: pairOf(context, 1),
      certified: 1,
      gear,
      interruptible: true,
      longestGapBefore_s: OVERNIGHT_S,
      reason: vapourReason(context, {
        elapsed_s: elapsed.likely_s,
        level,
        recovery,
        heel_kg,
        conductance,
        boils_K: boiling.evaporation_K,
      }),
    }),
    recovery,
    level,
    heel_kg,
    heel_s,
    vapour_s,
    heelPressure_Pa: bubblePressure(refrigerant, boiling.evaporation_K),
    freezing: context.chiller.waterFlow ? 'none' : boiling.freezing,
  });
}

/** A machine that stands at its level already is still connected and read. */
const LEAST_S = 300;

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
  const trapped = context.job.known?.trappedShare === undefined ? 'assumed, low confidence' : 'job';
  return {
    label: 'vapour out',
    value: elapsed_s / 3600,
    unit: 'h',
    formula: 't = [heel / boil-off rate + integral of V d(rho)/m(rho)] / utilisation',
    inputs: [
      input('level to reach', level.pressure_Pa / 1000, 'kPa abs', `${level.text}, ${level.citation}`),
      input('internal volume', context.volume_m3, 'm3', context.volume.source),
      input('vapour at the start', recovery.start_kg, 'kg', 'vapour density at the temperature'),
      input('vapour left at the level', recovery.left_kg, 'kg', 'vapour density at the level'),
      input(
        'liquid heel',
        heel_kg,
        'kg',
        `${Math.round(context.trappedShare * 100)} % of the charge, ${trapped}`,
      ),
      input('heat to the heel', conductance.value_W_K, 'W/K', `assumed, ${conductance.text}`),
      input('heel boils at', boils_K - KELVIN_AT_ZERO_CELSIUS, 'degC', 'energy balance'),
      input('utilisation', VAPOUR_UTILISATION, '-', 'assumed, low confidence'),
    ],
    limitedBy: recovery.limitedBy.text,
    source: 'mass balance of a machine of constant displacement with clearance, sucking through its hose',
  };
}

/**
 * The lowest of the levels that the machines' dates of make ask for. Each independent circuit is an appliance of its
 * own (40 CFR 82.152, from memory), so the charge that counts is the circuit's.
 */
function strictestLevel(context: JobContext, machines: readonly RecoveryMachine[]): RecoveryLevel {
  const levels = machines.map((machine) =>
    requiredRecoveryLevel({
      refrigerant: context.refrigerant,
      charge_kg: context.nameplate_kg / context.circuits,
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
