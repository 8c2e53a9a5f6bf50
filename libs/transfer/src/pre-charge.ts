import { requirePositive } from '@brimline/quantities';
import {
  bubblePressure,
  latentHeat,
  liquidHeatCapacity,
  type Refrigerant,
  saturatedVapourDensity,
} from '@brimline/refrigerants';

/** Saturation is kept this much above the freezing point: assumed, medium confidence, 2 to 3. */
export const FREEZE_MARGIN_K = 2;
/** A cylinder in still air and in a warm-water bath: assumed, medium and low confidence. */
export const CYLINDER_AIR_W_K = 10;
export const CYLINDER_BATH_W_K = 200;
const STEEL_J_KGK = 460;
/** The cylinder must stay this much warmer than the saturation that it feeds. */
const FEED_MARGIN_K = 3;

/** Below this cylinders give vapour too slowly to wait for: assumed, low confidence. */
const LEAST_DROP_K = 0.5;

export interface PreChargeInput {
  readonly refrigerant: Refrigerant;
  readonly volume_m3: number;
  readonly freezingPoint_K: number;
  readonly ambient_K: number;
  readonly cylinders: readonly { readonly liquid_kg: number; readonly steel_kg: number }[];
  /** Heat conductance to each cylinder; still air unless given. */
  readonly conductance_W_K?: number;
  /** What the hose passes from each cylinder. */
  readonly lineFlow_kg_s: number;
}

export interface PreCharge {
  readonly mass_kg: number;
  readonly time_s: number;
  readonly safe_K: number;
  readonly safePressure_Pa: number;
  readonly limitedBy: 'the heat into the cylinders' | 'the hose';
  /** The air is too cold to bring the cylinders above the safe saturation: they need a warm-water bath. */
  readonly needsHeating: boolean;
}

/**
 * Vapour that lifts an evacuated machine to a saturation above freezing, and the time that cylinders need for it:
 *
 *   m = rhoV(Tf + margin) V
 *   burst of each cylinder: m_b = (M cL + M_s c_s)(T_amb - T_end)/h_fg;  then UA (T_amb - T_end)/h_fg each
 *
 * @param input refrigerant, volume [m3], freezing point and ambient [K], cylinders [kg], conductance [W/K], line [kg/s]
 * @returns mass [kg], time [s], safe saturation [K, Pa abs] and what limits
 * @throws OutOfDomainError unless volume and line flow are above 0; outside the refrigerant's table
 * @validity condensation on cold walls ignored; the cylinder at one temperature; in air too cold to feed from, the time
 *   stands for cylinders kept half a kelvin above what is needed
 * @source mass and energy balances; conductances assumed
 */
export function vapourPreCharge(input: PreChargeInput): PreCharge {
  const { refrigerant: r, volume_m3, freezingPoint_K, ambient_K, cylinders, lineFlow_kg_s } = input;
  requirePositive('volume [m3]', volume_m3);
  requirePositive('line flow [kg/s]', lineFlow_kg_s);
  const safe_K = freezingPoint_K + FREEZE_MARGIN_K;
  const mass_kg = saturatedVapourDensity(r, safe_K) * volume_m3;
  const usable_K = ambient_K - safe_K - FEED_MARGIN_K;
  const drop_K = Math.max(LEAST_DROP_K, usable_K);
  const latent_J_kg = latentHeat(r, (ambient_K + safe_K) / 2);
  const burst_kg = cylinders.reduce(
    (sum, { liquid_kg, steel_kg }) =>
      sum + ((liquid_kg * liquidHeatCapacity(r, ambient_K) + steel_kg * STEEL_J_KGK) * drop_K) / latent_J_kg,
    0,
  );
  const count = Math.max(1, cylinders.length);
  const sustained_kg_s = (count * (input.conductance_W_K ?? CYLINDER_AIR_W_K) * drop_K) / latent_J_kg;
  const byLine_s = mass_kg / (count * lineFlow_kg_s);
  const byHeat_s = Math.max(0, mass_kg - burst_kg) / sustained_kg_s;
  return {
    mass_kg,
    time_s: Math.max(byLine_s, byHeat_s),
    safe_K,
    safePressure_Pa: bubblePressure(r, safe_K),
    limitedBy: byHeat_s > byLine_s ? 'the heat into the cylinders' : 'the hose',
    needsHeating: usable_K < LEAST_DROP_K,
  };
}

export interface FreezeProtection {
  /** What keeps the tubes whole, in the order of preference. */
  readonly applies: readonly (
    'proven water flow' | 'drained barrels' | 'vapour pre-charge' | 'entry away from the evaporator'
  )[];
  readonly forbidden: readonly string[];
}

/**
 * Which protection holds while liquid goes into an evacuated machine, and what stays forbidden.
 *
 * @param input fluid in the evaporator, whether it can flow, where the liquid enters [-]
 * @returns protections in order of preference, and what must not be done
 * @source service texts on charging into a vacuum: vapour first, flow proven or barrels drained
 */
export function freezeProtection(input: {
  readonly fluid: 'water' | 'glycol' | 'none';
  readonly waterFlow: boolean;
  readonly entry: 'liquid line' | 'evaporator';
}): FreezeProtection {
  if (input.fluid === 'none') return { applies: [], forbidden: [] };
  const flow = input.waterFlow ? 'proven water flow' : 'drained barrels';
  const away = input.entry === 'liquid line' ? (['entry away from the evaporator'] as const) : [];
  const forbidden = ['liquid into the machine below the safe saturation pressure'];
  if (!input.waterFlow) forbidden.push('any transfer with fluid standing in the barrels');
  return { applies: [flow, 'vapour pre-charge', ...away], forbidden };
}
