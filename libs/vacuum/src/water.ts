import { MOLAR_GAS_CONSTANT_J_MOL_K, requirePositive, requireWithin } from '@brimline/quantities';
import { GASES } from './gases.ts';

const N = [
  1167.0521452767, -724213.16703206, -17.073846940092, 12020.82470247, -3232555.0322333, 14.91510861353,
  -4823.2657361591, 405113.40542057, -0.23855557567849, 650.17534844798,
] as const;
const TRIPLE_K = 273.16;
const TRIPLE_PA = 611.657;

/**
 * Saturation pressure of liquid water, IAPWS-IF97 equation 30.
 *
 * @param temperature_K temperature [K]
 * @returns pressure [Pa abs]
 * @throws OutOfDomainError outside 273.15 to 647.096 K
 * @validity 273.15 to 647.096 K
 * @source IAPWS R7-97(2012), equation 30
 * @example waterSaturationPressure(300) // => 3536.58941
 */
export function waterSaturationPressure(temperature_K: number): number {
  requireWithin('temperature [K]', temperature_K, 273.15, 647.096);
  const t = temperature_K + N[8] / (temperature_K - N[9]);
  const a = t * t + N[0] * t + N[1];
  const b = N[2] * t * t + N[3] * t + N[4];
  const c = N[5] * t * t + N[6] * t + N[7];
  return 1e6 * ((2 * c) / (-b + Math.sqrt(b * b - 4 * a * c))) ** 4;
}

/**
 * Sublimation pressure of ice.
 *
 * @param temperature_K temperature [K]
 * @returns pressure [Pa abs]
 * @throws OutOfDomainError outside 190 to 273.16 K
 * @validity 190 to 273.16 K
 * @source IAPWS R14-08(2011), equation 6, from memory
 * @example iceSublimationPressure(230) // => 8.9474
 */
export function iceSublimationPressure(temperature_K: number): number {
  requireWithin('temperature [K]', temperature_K, 190, TRIPLE_K);
  const theta = temperature_K / TRIPLE_K;
  const sum =
    -21.2144006 * theta ** 0.00333333333 + 27.3203819 * theta ** 1.20666667 - 6.1059813 * theta ** 1.70333333;
  return TRIPLE_PA * Math.exp(sum / theta);
}

/** Over liquid above freezing, over ice below [Pa abs]. */
export function waterPressure(temperature_K: number): number {
  return temperature_K >= TRIPLE_K
    ? waterSaturationPressure(temperature_K)
    : iceSublimationPressure(temperature_K);
}

/** Volume that a mass of water fills as vapour, ideal gas: V = m R T/(M p) [m3]. */
export function waterVapourVolume(mass_kg: number, temperature_K: number, pressure_Pa: number): number {
  requirePositive('pressure [Pa abs]', pressure_Pa);
  return (
    (mass_kg * MOLAR_GAS_CONSTANT_J_MOL_K * temperature_K) /
    (GASES['water vapour'].molarMass_kg_mol * pressure_Pa)
  );
}

/** Heat of evaporation round 10 degC: steam tables, from memory. */
const EVAPORATION_J_KG = 2.454e6;
const COLDEST_K = 243.15;

export interface Drying {
  readonly waterTemperature_K: number;
  readonly plateau_Pa: number;
  readonly rate_kg_s: number;
  /** The water freezes: heat, or break with warm nitrogen. */
  readonly freezes: boolean;
}

/**
 * Plateau at which water dries: the pumps take what the heat evaporates:
 *
 *   S(p) p M/(R T) = UA (T_amb - T_w)/h,  p = saturation at T_w
 *
 * @param speedAt speed at the vessel for a pressure [m3/s at Pa abs]
 * @param heat_W_K heat conductance to the wet spot [W/K]
 * @param ambient_K surroundings [K]
 * @returns water temperature [K], plateau [Pa abs], rate [kg/s], and whether it freezes
 * @throws OutOfDomainError unless the conductance is above 0 and the surroundings lie from 274 to 333 K
 * @validity one wet spot at one temperature; conductance of air used, which is on the safe side
 * @source mass and energy balances; IAPWS saturation
 */
export function dryingPlateau(
  speedAt: (pressure_Pa: number) => number,
  heat_W_K: number,
  ambient_K: number,
): Drying {
  requirePositive('heat conductance to the water [W/K]', heat_W_K);
  requireWithin('surroundings [K]', ambient_K, 274, 333);
  const removed = (water_K: number): number => {
    const pressure_Pa = waterPressure(water_K);
    const specific = GASES['water vapour'].molarMass_kg_mol / (MOLAR_GAS_CONSTANT_J_MOL_K * ambient_K);
    return speedAt(pressure_Pa) * pressure_Pa * specific;
  };
  let [low, high] = [COLDEST_K, ambient_K];
  for (let step = 0; step < 50; step += 1) {
    const middle = (low + high) / 2;
    if (removed(middle) * EVAPORATION_J_KG < heat_W_K * (ambient_K - middle)) low = middle;
    else high = middle;
  }
  const water_K = (low + high) / 2;
  return {
    waterTemperature_K: water_K,
    plateau_Pa: waterPressure(water_K),
    rate_kg_s: removed(water_K),
    freezes: water_K < TRIPLE_K,
  };
}

/**
 * Greatest water-vapour pressure that a gas-ballast pump digests: p_W = (B/S) p_out (p_s - p_a)/(p_out - p_s).
 *
 * @returns pressure, in the unit of the pressures given [Pa abs]
 * @source Umrath et al., Fundamentals of Vacuum Technology, from memory
 */
export function waterVapourTolerance(
  ballastShare: number,
  outlet_Pa: number,
  saturation_Pa: number,
  ambientWater_Pa: number,
): number {
  return (ballastShare * outlet_Pa * (saturation_Pa - ambientWater_Pa)) / (outlet_Pa - saturation_Pa);
}
