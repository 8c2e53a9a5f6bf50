import { requireNotNegative } from '@brimline/quantities';
import {
  dewPressure,
  dewTemperature,
  latentHeat,
  type Refrigerant,
  saturatedVapourDensity,
} from '@brimline/refrigerants';
import { efficiencyUnchecked, machineDisplacement, type MachineRating } from './recovery-machine.ts';
import { rootBetween } from './root-between.ts';

/** Heat to liquid left in a barrel: assumed, low confidence. 100 to 300 with still water, 2000 to 10000 flowing. */
export const STILL_WATER_CONDUCTANCE_W_K = 200;
export const FLOWING_WATER_CONDUCTANCE_W_K = 2000;
/** A coil or bare shell in still air: assumed, low confidence, 20 to 60. */
export const STILL_AIR_CONDUCTANCE_W_K = 50;

/** Below this distance above the freezing point a warning is due; below the point it is a hazard. */
const NEAR_FREEZING_K = 2;

export interface BoilOffInput {
  readonly refrigerant: Refrigerant;
  readonly machines: readonly MachineRating[];
  /** Heat conductance to the boiling liquid. */
  readonly conductance_W_K: number;
  /** Of the water or air that gives the heat. */
  readonly heatSource_K: number;
  readonly heater_W?: number;
  /** Of still fluid in the tubes; absent: nothing to freeze. */
  readonly freezingPoint_K?: number;
  /** Discharge pressure of the machines; no re-expansion loss unless given. */
  readonly dischargePressure_Pa?: number;
}

export interface BoilOff {
  readonly massFlow_kg_s: number;
  readonly evaporation_K: number;
  readonly freezing: 'none' | 'near' | 'hazard';
}

/**
 * Liquid that is left boils at the temperature at which the heat it gets is what the machines draw:
 *
 *   V0 eta rhoV(Te) h_fg(Te) = UA (T_heat - Te) + P_heater
 *
 * @param input refrigerant, machines [kg/s], conductance [W/K], heat source [K], heater [W], freezing point [K]
 * @returns mass flow [kg/s], boiling temperature [K], freeze hazard
 * @throws OutOfDomainError outside the refrigerant's table
 * @validity steady, one temperature, no oil
 * @source energy balance; conductances assumed, low confidence
 */
export function boilOff(input: BoilOffInput): BoilOff {
  const {
    refrigerant: r,
    conductance_W_K,
    heatSource_K,
    heater_W = 0,
    freezingPoint_K,
    dischargePressure_Pa,
  } = input;
  requireNotNegative('heat conductance [W/K]', conductance_W_K);
  const machines = input.machines.map((rating) => machineDisplacement(rating));
  const drawn = (evaporation_K: number): number => {
    const ratio =
      dischargePressure_Pa === undefined ? 1 : dischargePressure_Pa / dewPressure(r, evaporation_K);
    const density = saturatedVapourDensity(r, evaporation_K);
    return machines.reduce(
      (sum, { displacement_m3_s, clearance }) =>
        sum + displacement_m3_s * efficiencyUnchecked(clearance, ratio) * density,
      0,
    );
  };
  const deficit = (evaporation_K: number): number =>
    drawn(evaporation_K) * latentHeat(r, evaporation_K) -
    conductance_W_K * (heatSource_K - evaporation_K) -
    heater_W;
  const [coldest_K, warmest_K] = [r.tableMinimum_K, Math.min(heatSource_K, r.tableMaximum_K)];
  const evaporation_K =
    deficit(coldest_K) >= 0
      ? coldest_K
      : deficit(warmest_K) <= 0
        ? warmest_K
        : rootBetween(deficit, coldest_K, warmest_K, 1e-6);
  return {
    massFlow_kg_s: drawn(evaporation_K),
    evaporation_K,
    freezing: freezingOf(evaporation_K, freezingPoint_K),
  };
}

function freezingOf(evaporation_K: number, freezingPoint_K: number | undefined): BoilOff['freezing'] {
  if (freezingPoint_K === undefined || evaporation_K >= freezingPoint_K + NEAR_FREEZING_K) return 'none';
  return evaporation_K < freezingPoint_K ? 'hazard' : 'near';
}

/**
 * Least heat conductance that keeps boiling above a freezing point: UA = V0 rhoV(Tf) h_fg(Tf) / (T_heat - Tf).
 *
 * @returns conductance [W/K]
 * @source energy balance at the freezing point
 */
export function leastConductance(
  r: Refrigerant,
  machines: readonly MachineRating[],
  heatSource_K: number,
  freezingPoint_K: number,
): number {
  const displacement_m3_s = machines.reduce(
    (sum, rating) => sum + machineDisplacement(rating).displacement_m3_s,
    0,
  );
  const heat_W =
    displacement_m3_s * saturatedVapourDensity(r, freezingPoint_K) * latentHeat(r, freezingPoint_K);
  return heat_W / (heatSource_K - freezingPoint_K);
}

/** Temperature of liquid that boils at a pressure, for the freezing line [K]. */
export const boilingTemperature = (r: Refrigerant, pressure_Pa: number): number =>
  dewTemperature(r, pressure_Pa);
