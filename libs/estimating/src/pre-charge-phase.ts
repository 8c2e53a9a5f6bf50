import { KELVIN_AT_ZERO_CELSIUS, PASCALS_PER_PSI } from '@brimline/quantities';
import { bubblePressure, saturatedVapourDensity } from '@brimline/refrigerants';
import { FREEZE_MARGIN_K, type PreCharge, VAPOUR_UTILISATION, vapourPreCharge } from '@brimline/transfer';
import type { GearUse, PhaseEstimate } from './estimate.ts';
import type { JobContext } from './job-context.ts';
import type { JobPhysics } from './job-physics.ts';
import { relativeSpread, sumOfSpreads } from './norms.ts';
import { phase, reasonInput as input } from './phase-draft.ts';
import type { TransferWay } from './transfer-way.ts';

/** Cylinders that can feed the pre-charge at once: a manifold of three, common practice, no source. */
const MANIFOLD = 3;
const SPREAD = 0.4;

export interface Feeding {
  readonly liquid_kg: number;
  readonly steel_kg: number;
}

export interface PreChargePhase {
  readonly phase: PhaseEstimate;
  readonly preCharge: PreCharge;
}

/**
 * Space that vapour has to fill before liquid may come: all of an evacuated machine; of one that lost its liquid, the
 * share that its vapour leaves below the safe saturation; none where nothing can freeze or liquid is there.
 */
export function vapourSpaceToFill(context: JobContext, evacuated: boolean, pressure_Pa: number): number {
  if (evacuated) return context.volume_m3;
  if (context.chiller.evaporatorFluid === 'none') return 0;
  const { refrigerant, chiller, before_kg, volume_m3 } = context;
  const safe_K = chiller.freezingPoint_K + FREEZE_MARGIN_K;
  if (pressure_Pa >= bubblePressure(refrigerant, safe_K)) return 0;
  return Math.max(0, volume_m3 - before_kg / saturatedVapourDensity(refrigerant, safe_K));
}

/** Vapour first, until saturation stands above freezing. */
export function preChargePhase(
  context: JobContext,
  physics: JobPhysics,
  way: TransferWay,
  sources: readonly Feeding[],
  gear: readonly GearUse[],
  part: string,
): PreChargePhase {
  const { refrigerant, ambient_K, chiller } = context;
  const preCharge = vapourPreCharge({
    refrigerant,
    volume_m3: context.volume_m3,
    freezingPoint_K: chiller.freezingPoint_K,
    ambient_K,
    cylinders: sources.slice(0, MANIFOLD),
    lineFlow_kg_s: physics.vapourLine(way) * VAPOUR_UTILISATION,
  });
  const elapsed = sumOfSpreads([
    { spread: context.norms.preChargeSetUp, times: 1 },
    { spread: relativeSpread(preCharge.time_s, SPREAD), times: 1 },
  ]);
  return {
    phase: phase({
      kind: 'vapour pre-charge',
      part,
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
          input(
            'safe saturation',
            preCharge.safe_K - KELVIN_AT_ZERO_CELSIUS,
            'degC',
            'freezing point plus 2 K, assumed',
          ),
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
