import {
  KELVIN_AT_ZERO_CELSIUS,
  MOLAR_GAS_CONSTANT_J_MOL_K,
  OutOfDomainError,
  requireNotNegative,
  requirePositive,
  requireWithin,
  STANDARD_ATMOSPHERE_PA,
} from '@brimline/quantities';
import { GASES } from './gases.ts';
import { rootBetween } from './root-between.ts';

const N = [
  1167.0521452767, -724213.16703206, -17.073846940092, 12020.82470247, -3232555.0322333, 14.91510861353,
  -4823.2657361591, 405113.40542057, -0.23855557567849, 650.17534844798,
] as const;
export const TRIPLE_POINT_K = 273.16;
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
  requireWithin('temperature [K]', temperature_K, 190, TRIPLE_POINT_K);
  const theta = temperature_K / TRIPLE_POINT_K;
  const sum =
    -21.2144006 * theta ** 0.00333333333 + 27.3203819 * theta ** 1.20666667 - 6.1059813 * theta ** 1.70333333;
  return TRIPLE_PA * Math.exp(sum / theta);
}

/**
 * Saturation pressure by the form of A. L. Buck, simpler than the IAPWS equations and a second opinion on them:
 * liquid 611.21 exp[(18.678 - t/234.5) t/(257.14 + t)], ice 611.15 exp[(23.036 - t/333.7) t/(279.82 + t)].
 *
 * @param temperature_K temperature [K]
 * @returns pressure [Pa abs]
 * @throws OutOfDomainError outside 193.15 to 323.15 K
 * @validity -80 to 50 degC, within 0.1 % of IAPWS above 0 degC
 * @source A. L. Buck 1981, coefficients of 1996, read in a public encyclopaedia
 * @example waterPressureBuck(293.15) // => 2338.34
 */
export function waterPressureBuck(temperature_K: number): number {
  requireWithin('temperature [K]', temperature_K, 193.15, 323.15);
  const t = temperature_K - KELVIN_AT_ZERO_CELSIUS;
  return t >= 0
    ? 611.21 * Math.exp(((18.678 - t / 234.5) * t) / (257.14 + t))
    : 611.15 * Math.exp(((23.036 - t / 333.7) * t) / (279.82 + t));
}

/** Over liquid above freezing, over ice below [Pa abs]. */
export function waterPressure(temperature_K: number): number {
  return temperature_K >= TRIPLE_POINT_K
    ? waterSaturationPressure(temperature_K)
    : iceSublimationPressure(temperature_K);
}

/**
 * Temperature of the wet spot that holds the gauge at a pressure: the inverse of `waterPressure`.
 *
 * @param pressure_Pa pressure of a plateau with no other gas [Pa abs]
 * @returns temperature [K]
 * @throws OutOfDomainError outside 0.04 Pa to 101325 Pa
 * @validity pure water, no oil
 * @source IAPWS saturation, solved
 * @example waterTemperatureAt(2339.21) // => 293.15
 */
export function waterTemperatureAt(pressure_Pa: number): number {
  requireWithin('pressure [Pa abs]', pressure_Pa, 0.04, STANDARD_ATMOSPHERE_PA);
  return rootBetween((t) => Math.log(waterPressure(t) / pressure_Pa), 190, 374, 1e-8);
}

/** Volume that a mass of water fills as vapour, ideal gas: V = m R T/(M p) [m3]. */
export function waterVapourVolume(mass_kg: number, temperature_K: number, pressure_Pa: number): number {
  requirePositive('pressure [Pa abs]', pressure_Pa);
  return (
    (mass_kg * MOLAR_GAS_CONSTANT_J_MOL_K * temperature_K) /
    (GASES['water vapour'].molarMass_kg_mol * pressure_Pa)
  );
}

/**
 * Greatest water-vapour pressure that a gas-ballast pump digests without water condensing in it:
 * p_W = (B/S) p_out (p_s - p_a)/(p_out - p_s).
 *
 * @param input.ballastShare ballast flow over pump speed [-]
 * @param input.outlet_Pa pressure at which the outlet valve opens [Pa abs]
 * @param input.saturation_Pa saturation of water at the pump's temperature [Pa abs]
 * @param input.ambientWater_Pa water-vapour pressure of the ballast air [Pa abs]
 * @returns vapour pressure at the inlet [Pa abs]
 * @throws OutOfDomainError unless the share is not negative and ambient <= saturation < outlet
 * @validity pump warm; a cold pump digests next to nothing
 * @source Umrath et al., Fundamentals of Vacuum Technology, from memory
 * @example waterVapourTolerance({ ballastShare: 0.1, outlet_Pa: 133300, saturation_Pa: 31200, ambientWater_Pa: 1300 }) // => 3903.7
 */
export function waterVapourTolerance(input: {
  readonly ballastShare: number;
  readonly outlet_Pa: number;
  readonly saturation_Pa: number;
  readonly ambientWater_Pa: number;
}): number {
  const { ballastShare, outlet_Pa, saturation_Pa, ambientWater_Pa } = input;
  requireNotNegative('ballast share', ballastShare);
  if (!(ambientWater_Pa >= 0 && saturation_Pa >= ambientWater_Pa && saturation_Pa < outlet_Pa)) {
    throw new OutOfDomainError(
      'saturation at the pump [Pa abs]',
      saturation_Pa,
      `from the ambient ${ambientWater_Pa} to below the outlet ${outlet_Pa}`,
    );
  }
  return (ballastShare * outlet_Pa * (saturation_Pa - ambientWater_Pa)) / (outlet_Pa - saturation_Pa);
}
