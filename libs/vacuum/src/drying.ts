import {
  MOLAR_GAS_CONSTANT_J_MOL_K,
  requireNotNegative,
  requirePositive,
  requireWithin,
} from '@brimline/quantities';
import { GASES } from './gases.ts';
import { rootBetween } from './root-between.ts';
import { waterPressure, TRIPLE_POINT_K } from './water.ts';

/** Heat to water left in the system: assumed, low confidence, 5 to 100 W/K. */
export const WATER_HEAT_W_K = 20;
const COLDEST_ICE_K = 190;
const TOLERANCE_K = 1e-7;

export interface DryingInput {
  /** Speed of all pumps at the vessel for a pressure in it. */
  readonly speedAt: (pressure_Pa: number) => number;
  readonly heat_W_K: number;
  readonly ambient_K: number;
  readonly gasLoad_Pa_m3_s?: number;
}

export interface Drying {
  readonly waterTemperature_K: number;
  /** What the gauge stands at while there is water: its vapour and the gas load. */
  readonly plateau_Pa: number;
  readonly rate_kg_s: number;
  /** The water turns to ice: heat, or break with warm nitrogen. */
  readonly freezes: boolean;
  /** Heat conductance that keeps it liquid. */
  readonly leastHeat_W_K: number;
}

/**
 * Heat that a kilogram of water or ice takes to evaporate: 2500.9 kJ less 2.37 kJ for each degC; ice 2836 kJ.
 *
 * @param temperature_K temperature [K]
 * @returns heat [J/kg]
 * @throws OutOfDomainError outside 190 to 333 K
 * @validity within 0.2 %
 * @source straight line through steam-table values of 0.01, 20 and 40 degC; sublimation near -20 degC; from memory
 * @example heatOfEvaporation(293.15) // => 2453500
 */
export function heatOfEvaporation(temperature_K: number): number {
  requireWithin('temperature [K]', temperature_K, COLDEST_ICE_K, 333);
  return temperature_K >= TRIPLE_POINT_K ? 2.5009e6 - 2370 * (temperature_K - 273.15) : SUBLIMATION_J_KG;
}
const SUBLIMATION_J_KG = 2.836e6;

/**
 * Plateau at which water dries: the pumps take what the heat evaporates:
 *
 *   S(p) p M/(R T_amb) = UA (T_amb - T_w)/h,  p = saturation at T_w
 *
 * If even at the triple point liquid water gives off more heat than it gets, it freezes, and the balance is found over
 * ice: the pressure falls and the rate with it, so a bigger pump dries no faster.
 *
 * @param input.speedAt speed at the vessel for a pressure [m3/s at Pa abs]
 * @param input.heat_W_K heat conductance to the wet spot [W/K]
 * @param input.ambient_K surroundings [K]
 * @param input.gasLoad_Pa_m3_s leak and outgassing beside the water [Pa m3/s]
 * @returns water temperature [K], plateau [Pa abs], rate [kg/s], whether it freezes, and the heat that prevents it [W/K]
 * @throws OutOfDomainError unless the conductance is above 0 and the surroundings lie from 250 to 333 K
 * @validity one wet spot at one temperature; conductance of air used, which is on the safe side
 * @source mass and energy balances; IAPWS saturation
 */
export function dryingPlateau(input: DryingInput): Drying {
  const { speedAt, heat_W_K, ambient_K, gasLoad_Pa_m3_s = 0 } = input;
  requirePositive('heat conductance to the water [W/K]', heat_W_K);
  requireWithin('surroundings [K]', ambient_K, 250, 333);
  requireNotNegative('gas load [Pa m3/s]', gasLoad_Pa_m3_s);
  const kgOf = GASES['water vapour'].molarMass_kg_mol / (MOLAR_GAS_CONSTANT_J_MOL_K * ambient_K);
  const gaugeAt = (vapour_Pa: number): number =>
    gasLoad_Pa_m3_s === 0 ? vapour_Pa : vapour_Pa + gasLoad_Pa_m3_s / speedAt(vapour_Pa);
  const rateAt = (water_K: number): number => {
    const vapour_Pa = waterPressure(water_K);
    const gauge_Pa = gaugeAt(vapour_Pa);
    return Number.isFinite(gauge_Pa) ? speedAt(gauge_Pa) * vapour_Pa * kgOf : 0;
  };
  const spare = (water_K: number): number =>
    heat_W_K * (ambient_K - water_K) - rateAt(water_K) * heatOfEvaporation(water_K);
  const freezes = ambient_K <= TRIPLE_POINT_K || spare(TRIPLE_POINT_K) < 0;
  const [low, high] = freezes
    ? [COLDEST_ICE_K, Math.min(ambient_K, TRIPLE_POINT_K - TOLERANCE_K)]
    : [TRIPLE_POINT_K, ambient_K];
  const water_K = rootBetween(spare, low, high, TOLERANCE_K);
  const short_K = ambient_K - TRIPLE_POINT_K;
  return {
    waterTemperature_K: water_K,
    plateau_Pa: gaugeAt(waterPressure(water_K)),
    rate_kg_s: rateAt(water_K),
    freezes,
    leastHeat_W_K:
      short_K > 0 ? (rateAt(TRIPLE_POINT_K) * heatOfEvaporation(TRIPLE_POINT_K)) / short_K : Infinity,
  };
}
