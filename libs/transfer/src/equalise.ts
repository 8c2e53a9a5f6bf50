import {
  refusal,
  type Result,
  requireNotNegative,
  requirePositive,
  requireWithin,
  success,
} from '@brimline/quantities';
import {
  bubblePressure,
  latentHeat,
  liquidDensity,
  liquidHeatCapacity,
  liquidViscosityEstimate,
  type Refrigerant,
} from '@brimline/refrigerants';
import type { HosePiece } from './hose-path.ts';
import { massFlowUnchecked, staticHead } from './liquid-flow.ts';
import type { TransferProblem } from './notes.ts';
import { vapourDensityOverLiquid } from './vapour-space.ts';

/** Most that moves without heat: assumed, low confidence. */
const MOST_WITHOUT_HEAT = 0.6;
const STEPS = 60;

/**
 * Cooling of a cylinder that empties by its own vapour pressure, for each e-fold of its contents:
 *
 *   dT = rhoV h_fg / (rhoL cL)
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature of the liquid [K]
 * @returns temperature drop for each e-fold of the mass [K]
 * @throws OutOfDomainError outside the refrigerant's table
 * @validity no heat from outside, steel ignored: the worst case
 * @source energy balance
 * @example selfCooling(refrigerant('R-134a'), 297.15) // => 3.25
 */
export function selfCooling(r: Refrigerant, temperature_K: number): number {
  const vapour_J_m3 = vapourDensityOverLiquid(r, temperature_K) * latentHeat(r, temperature_K);
  return vapour_J_m3 / (liquidDensity(r, temperature_K) * liquidHeatCapacity(r, temperature_K));
}

/**
 * Temperature of a cylinder after vapour was drawn from it with no heat from outside:
 *
 *   (M cL + M_s c_s) dT = -h_fg dm,  in small steps
 *
 * @param r refrigerant [-]
 * @param input liquid and steel [kg], start [K], mass drawn [kg]
 * @returns temperature at the end [K]
 * @throws OutOfDomainError unless less is drawn than is there; outside the refrigerant's table
 * @validity the cylinder at one temperature
 * @source energy balance; steel 460 J/kgK, from memory
 */
export function temperatureAfterVapourDraw(
  r: Refrigerant,
  input: {
    readonly liquid_kg: number;
    readonly steel_kg: number;
    readonly start_K: number;
    readonly drawn_kg: number;
  },
): number {
  requirePositive('liquid [kg]', input.liquid_kg);
  requireWithin('mass drawn [kg]', input.drawn_kg, 0, input.liquid_kg * 0.999);
  let temperature_K = input.start_K;
  const step_kg = input.drawn_kg / STEPS;
  for (let step = 0; step < STEPS; step += 1) {
    const left_kg = input.liquid_kg - (step + 0.5) * step_kg;
    const capacity_J_K = left_kg * liquidHeatCapacity(r, temperature_K) + input.steel_kg * 460;
    temperature_K -= (latentHeat(r, temperature_K) * step_kg) / capacity_J_K;
  }
  return temperature_K;
}

export interface EqualiseInput {
  readonly refrigerant: Refrigerant;
  readonly mass_kg: number;
  readonly path: readonly HosePiece[];
  readonly source: { readonly liquid_kg: number; readonly temperature_K: number };
  readonly sink_K: number;
  /** Source level above the sink's. */
  readonly head_m?: number;
  /** Heat given to the source: warm water, never flame. */
  readonly heat_W?: number;
}

export interface Equalisation {
  readonly time_s: number;
  readonly startFlow_kg_s: number;
}

/**
 * Liquid moved by a difference of pressure alone: one side warm, the other cold, or one above the other. The source
 * cools as it empties and the flow decays; heat holds it up.
 *
 * @param input refrigerant, mass [kg], hose path [m], source [kg, K], sink [K], level difference [m], heat [W]
 * @returns time [s] and the flow at the start [kg/s]; or that the pressures meet before the mass has moved
 * @throws OutOfDomainError unless mass and contents are above 0; outside the refrigerant's table
 * @validity the sink stays at its temperature; without heat at most 60 % of the contents (assumed, low confidence)
 * @source Darcy and Weisbach; energy balance of the source
 */
export function equaliseTransfer(input: EqualiseInput): Result<Equalisation, TransferProblem> {
  const { refrigerant: r, mass_kg, path, source, sink_K, head_m = 0, heat_W = 0 } = input;
  requirePositive('mass [kg]', mass_kg);
  requirePositive('liquid in the source [kg]', source.liquid_kg);
  requireNotNegative('heat [W]', heat_W);
  const stalled = refusal<TransferProblem>({
    code: 'too-little-heat',
    path: 'source',
    message: 'the pressures meet before the mass has moved: warm the source or cool the sink',
  });
  if (heat_W === 0 && mass_kg > MOST_WITHOUT_HEAT * source.liquid_kg) return stalled;
  const fluid = {
    density_kg_m3: liquidDensity(r, source.temperature_K),
    viscosity_Pa_s: liquidViscosityEstimate(r, source.temperature_K).value_Pa_s,
  };
  const step_kg = mass_kg / STEPS;
  let temperature_K = source.temperature_K;
  let time_s = 0;
  let startFlow_kg_s = 0;
  for (let step = 0; step < STEPS; step += 1) {
    const driving_Pa =
      bubblePressure(r, temperature_K) - bubblePressure(r, sink_K) + staticHead(fluid.density_kg_m3, head_m);
    const flow = massFlowUnchecked(path, fluid, driving_Pa);
    if (flow <= 0) return stalled;
    if (step === 0) startFlow_kg_s = flow;
    time_s += step_kg / flow;
    const left_kg = source.liquid_kg - (step + 0.5) * step_kg;
    const warmed_K = (heat_W * step_kg) / flow / (left_kg * liquidHeatCapacity(r, temperature_K));
    temperature_K += Math.min(
      warmed_K,
      source.temperature_K - temperature_K + selfCooling(r, temperature_K) * (step_kg / left_kg),
    );
    temperature_K -= selfCooling(r, temperature_K) * (step_kg / left_kg);
  }
  return success({ time_s, startFlow_kg_s });
}
