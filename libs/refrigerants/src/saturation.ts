import { OutOfDomainError } from '@brimline/quantities';
import type { Refrigerant } from './refrigerant.ts';
import { curveEnd, curveInverse, curveValue, type UniformCurve } from './uniform-curve.ts';

/** Rounding of a conversion may put a table's own end this far outside it [K]; such a value counts as the end. */
const END_SLACK_K = 1e-9;
const END_SLACK_LN = 1e-12;

/** @throws OutOfDomainError unless the temperature lies in the refrigerant's table */
export function requireTabulated(r: Refrigerant, temperature_K: number): void {
  if (temperature_K >= r.tableMinimum_K - END_SLACK_K && temperature_K <= r.tableMaximum_K + END_SLACK_K)
    return;
  throw new OutOfDomainError(
    `${r.name} temperature [K]`,
    temperature_K,
    `${r.tableMinimum_K} to ${r.tableMaximum_K}`,
  );
}

function saturationValue(r: Refrigerant, curve: UniformCurve, temperature_K: number): number {
  requireTabulated(r, temperature_K);
  return curveValue(curve, temperature_K);
}

function saturationTemperature(
  r: Refrigerant,
  lnPressure: UniformCurve,
  pressure_Pa: number,
  which: string,
): number {
  const wanted = Math.log(pressure_Pa);
  const low = lnPressure.knots[0] as number;
  const high = lnPressure.knots[2 * (lnPressure.lastInterval + 1)] as number;
  if (!(wanted >= low - END_SLACK_LN && wanted <= high + END_SLACK_LN)) {
    const allowed = `${Math.exp(low).toPrecision(6)} to ${Math.exp(high).toPrecision(6)}`;
    throw new OutOfDomainError(`${r.name} ${which} pressure [Pa abs]`, pressure_Pa, allowed);
  }
  return Math.min(Math.max(curveInverse(lnPressure, wanted), lnPressure.first), curveEnd(lnPressure));
}

/**
 * Pressure at which the liquid starts to boil: ln p interpolated over T.
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature [K]
 * @returns bubble pressure [Pa abs]
 * @throws OutOfDomainError outside the table
 * @validity tableMinimum_K to tableMaximum_K
 * @source the refrigerant's equation of state, see its `sources` and data/README.md
 * @example bubblePressure(refrigerant('R-134a'), 298.15) // => 665381
 */
export function bubblePressure(r: Refrigerant, temperature_K: number): number {
  return Math.exp(saturationValue(r, r.tables.lnBubblePressure, temperature_K));
}

/**
 * Pressure at which the vapour starts to condense: ln p interpolated over T; equals the bubble pressure of a pure fluid.
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature [K]
 * @returns dew pressure [Pa abs]
 * @throws OutOfDomainError outside the table
 * @validity tableMinimum_K to tableMaximum_K
 * @source the refrigerant's equation of state, see its `sources` and data/README.md
 */
export function dewPressure(r: Refrigerant, temperature_K: number): number {
  return Math.exp(saturationValue(r, r.tables.lnDewPressure, temperature_K));
}

/**
 * Temperature at which the liquid starts to boil; the exact inverse of `bubblePressure`.
 *
 * @param r refrigerant [-]
 * @param pressure_Pa pressure [Pa abs]
 * @returns temperature [K]
 * @throws OutOfDomainError when the pressure lies outside the table
 * @validity pressures reached between tableMinimum_K and tableMaximum_K
 * @source the refrigerant's equation of state, see its `sources` and data/README.md
 */
export function bubbleTemperature(r: Refrigerant, pressure_Pa: number): number {
  return saturationTemperature(r, r.tables.lnBubblePressure, pressure_Pa, 'bubble');
}

/**
 * Temperature at which the vapour starts to condense; the exact inverse of `dewPressure`.
 *
 * @param r refrigerant [-]
 * @param pressure_Pa pressure [Pa abs]
 * @returns temperature [K]
 * @throws OutOfDomainError when the pressure lies outside the table
 * @validity pressures reached between tableMinimum_K and tableMaximum_K
 * @source the refrigerant's equation of state, see its `sources` and data/README.md
 */
export function dewTemperature(r: Refrigerant, pressure_Pa: number): number {
  return saturationTemperature(r, r.tables.lnDewPressure, pressure_Pa, 'dew');
}

/**
 * Density of the liquid at the bubble point.
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature [K]
 * @returns density [kg/m3]
 * @throws OutOfDomainError outside the table
 * @validity tableMinimum_K to tableMaximum_K
 * @source the refrigerant's equation of state, see its `sources` and data/README.md
 */
export function liquidDensity(r: Refrigerant, temperature_K: number): number {
  return saturationValue(r, r.tables.liquidDensity, temperature_K);
}

/**
 * Density of the vapour at the dew point: ln rho interpolated over T.
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature [K]
 * @returns density [kg/m3]
 * @throws OutOfDomainError outside the table
 * @validity tableMinimum_K to tableMaximum_K
 * @source the refrigerant's equation of state, see its `sources` and data/README.md
 */
export function saturatedVapourDensity(r: Refrigerant, temperature_K: number): number {
  return Math.exp(saturationValue(r, r.tables.lnVapourDensity, temperature_K));
}

/**
 * Enthalpy of the vapour at the dew point less that of the liquid at the bubble point, both at this temperature
 * and with the nominal composition.
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature [K]
 * @returns latent heat [J/kg]
 * @throws OutOfDomainError outside the table
 * @validity tableMinimum_K to tableMaximum_K
 * @source the refrigerant's equation of state, see its `sources` and data/README.md
 */
export function latentHeat(r: Refrigerant, temperature_K: number): number {
  return saturationValue(r, r.tables.latentHeat, temperature_K);
}

/**
 * Isobaric heat capacity of the liquid at the bubble point.
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature [K]
 * @returns heat capacity [J/(kg K)]
 * @throws OutOfDomainError outside the table
 * @validity tableMinimum_K to tableMaximum_K
 * @source the refrigerant's equation of state, see its `sources` and data/README.md
 */
export function liquidHeatCapacity(r: Refrigerant, temperature_K: number): number {
  return saturationValue(r, r.tables.liquidHeatCapacity, temperature_K);
}

/**
 * Isobaric heat capacity of the vapour at the dew point.
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature [K]
 * @returns heat capacity [J/(kg K)]
 * @throws OutOfDomainError outside the table
 * @validity tableMinimum_K to tableMaximum_K
 * @source the refrigerant's equation of state, see its `sources` and data/README.md
 */
export function vapourHeatCapacity(r: Refrigerant, temperature_K: number): number {
  return saturationValue(r, r.tables.vapourHeatCapacity, temperature_K);
}

/**
 * Ratio of isobaric to isochoric heat capacity of the vapour at the dew point.
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature [K]
 * @returns ratio [-]
 * @throws OutOfDomainError outside the table
 * @validity tableMinimum_K to tableMaximum_K
 * @source the refrigerant's equation of state, see its `sources` and data/README.md
 */
export function vapourHeatCapacityRatio(r: Refrigerant, temperature_K: number): number {
  return saturationValue(r, r.tables.vapourHeatCapacityRatio, temperature_K);
}

/**
 * Speed of sound in the vapour at the dew point.
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature [K]
 * @returns speed [m/s]
 * @throws OutOfDomainError outside the table
 * @validity tableMinimum_K to tableMaximum_K
 * @source the refrigerant's equation of state, see its `sources` and data/README.md
 */
export function vapourSpeedOfSound(r: Refrigerant, temperature_K: number): number {
  return saturationValue(r, r.tables.vapourSpeedOfSound, temperature_K);
}

/**
 * Second virial coefficient on a mass basis: Z = 1 + B rho + ...
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature [K]
 * @returns B [m3/kg]
 * @throws OutOfDomainError outside the table
 * @validity tableMinimum_K to tableMaximum_K
 * @source the refrigerant's equation of state, see its `sources` and data/README.md
 */
export function secondVirial(r: Refrigerant, temperature_K: number): number {
  return saturationValue(r, r.tables.secondVirial, temperature_K);
}
