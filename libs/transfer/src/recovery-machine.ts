import { KELVIN_AT_ZERO_CELSIUS, requirePositive, requireWithin } from '@brimline/quantities';
import { bubblePressure, refrigerant, saturatedVapourDensity } from '@brimline/refrigerants';

/** What the plate or the certificate of a recovery machine says. */
export interface MachineRating {
  /** Vapour flow at 24 degC saturation of the rating refrigerant. */
  readonly vapourRate_kg_s: number;
  readonly directLiquidRate_kg_s: number;
  readonly ratingRefrigerant: string;
  /** Lowest suction pressure it reaches, absolute; null where nothing is stated. */
  readonly finalVacuum_Pa: number | null;
  /** Heat conductance of its cooler when left in circuit. */
  readonly cooler_W_K: number;
}

/** The machine reduced to what it does to any vapour. */
export interface Displacement {
  readonly displacement_m3_s: number;
  readonly clearance: number;
  readonly finalVacuum_Pa: number;
}

/** Rated vapour flow is stated at this saturation: federal test procedure based on AHRI 740, from memory. */
export const RATING_TEMPERATURE_K = 24 + KELVIN_AT_ZERO_CELSIUS;
/** Clearance share and exponent of re-expansion: assumed, medium confidence; 0.02 to 0.10 and 1.0 to 1.2. */
export const ASSUMED_CLEARANCE = 0.05;
export const ASSUMED_EXPONENT = 1.1;

/**
 * Share of its displacement that a piston machine really takes in, gas left in the clearance having re-expanded:
 *
 *   eta = 1 - c [ (P_discharge/P_suction)^(1/n) - 1 ],  not below 0
 *
 * @param clearance clearance volume over displacement, c [-]
 * @param pressureRatio discharge over suction pressure [-]
 * @param exponent polytropic exponent, n [-]
 * @returns volumetric efficiency [-]
 * @throws OutOfDomainError unless 0 <= c < 1, ratio > 0, n > 0
 * @validity one stage, valves without loss
 * @source volumetric efficiency of a piston compressor, any textbook, from memory
 * @example clearanceEfficiency(0.05, 4) // => 0.8737
 */
export function clearanceEfficiency(
  clearance: number,
  pressureRatio: number,
  exponent: number = ASSUMED_EXPONENT,
): number {
  requireWithin('clearance', clearance, 0, 0.999);
  requirePositive('pressure ratio', pressureRatio);
  requirePositive('exponent', exponent);
  return efficiencyUnchecked(clearance, pressureRatio, exponent);
}

export function efficiencyUnchecked(clearance: number, ratio: number, exponent = ASSUMED_EXPONENT): number {
  const reExpanded = clearance === 0 ? 0 : clearance * (ratio ** (1 / exponent) - 1);
  return Math.min(1, Math.max(0, 1 - reExpanded));
}

/**
 * Suction pressure at which a piston machine no longer moves anything: P_discharge (c/(1+c))^n.
 *
 * @param clearance clearance volume over displacement, c [-]
 * @param dischargePressure_Pa discharge pressure [Pa abs]
 * @param exponent polytropic exponent, n [-]
 * @returns stall pressure [Pa abs]
 * @throws OutOfDomainError unless 0 <= c < 1 and the pressure is above 0
 * @validity one stage
 * @source zero of `clearanceEfficiency`
 * @example stallPressure(0.05, 700000) // => 24576
 */
export function stallPressure(
  clearance: number,
  dischargePressure_Pa: number,
  exponent: number = ASSUMED_EXPONENT,
): number {
  requireWithin('clearance', clearance, 0, 0.999);
  requirePositive('discharge pressure [Pa abs]', dischargePressure_Pa);
  return dischargePressure_Pa * (clearance / (1 + clearance)) ** exponent;
}

/**
 * Clearance of a machine whose final vacuum is stated: that with which it stalls there against the rating
 * refrigerant's saturation pressure at 24 degC.
 *
 * @param finalVacuum_Pa lowest suction pressure [Pa abs]
 * @param dischargePressure_Pa discharge pressure at which it was found [Pa abs]
 * @param exponent polytropic exponent, n [-]
 * @returns clearance [-]
 * @throws OutOfDomainError unless 0 < final vacuum < 0.8 x discharge pressure
 * @validity one stage
 * @source inverse of `stallPressure`
 * @example clearanceFromFinalVacuum(24576, 700000) // => 0.05
 */
export function clearanceFromFinalVacuum(
  finalVacuum_Pa: number,
  dischargePressure_Pa: number,
  exponent: number = ASSUMED_EXPONENT,
): number {
  requirePositive('final vacuum [Pa abs]', finalVacuum_Pa);
  requireWithin('final vacuum [Pa abs]', finalVacuum_Pa, 0, 0.45 * dischargePressure_Pa);
  const share = (finalVacuum_Pa / dischargePressure_Pa) ** (1 / exponent);
  return share / (1 - share);
}

/**
 * Displacement of a machine from its rated vapour flow, V0 = m_rated / rhoV(24 degC), and its clearance.
 *
 * @param rating what the plate says [kg/s, Pa abs]
 * @param ratingEfficiency volumetric efficiency at the rating point; 1 when unknown [-]
 * @returns displacement [m3/s], clearance [-] and the stated final vacuum, 0 when none [Pa abs]
 * @throws OutOfDomainError unless the vapour rate is above 0
 * @validity rating at 24 degC saturation
 * @source federal test procedure based on AHRI 740 (rating temperature from memory); conservation of mass
 */
export function machineDisplacement(rating: MachineRating, ratingEfficiency = 1): Displacement {
  requirePositive('rated vapour flow [kg/s]', rating.vapourRate_kg_s);
  requireWithin('efficiency at the rating point', ratingEfficiency, 0.1, 1);
  const rated = refrigerant(rating.ratingRefrigerant);
  const { finalVacuum_Pa } = rating;
  return {
    displacement_m3_s:
      rating.vapourRate_kg_s / (saturatedVapourDensity(rated, RATING_TEMPERATURE_K) * ratingEfficiency),
    clearance:
      finalVacuum_Pa === null
        ? ASSUMED_CLEARANCE
        : clearanceFromFinalVacuum(finalVacuum_Pa, bubblePressure(rated, RATING_TEMPERATURE_K)),
    finalVacuum_Pa: finalVacuum_Pa ?? 0,
  };
}
