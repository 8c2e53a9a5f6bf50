import { OutOfDomainError, requirePositive } from '@brimline/quantities';
import type { Refrigerant } from './refrigerant.ts';
import { requireTabulated } from './saturation.ts';
import { curveValue } from './uniform-curve.ts';

/** The dew pressure itself, met through rounding, still counts as vapour. */
const DEW_SLACK = 1e-9;

/**
 * Density of the vapour at or below its dew pressure, as a real gas:
 *
 *   p = rho R T (1 + B rho + C rho^2)
 *
 * B is the second virial coefficient; C is taken so that the dew density is met exactly at the dew pressure.
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature of the vapour [K]
 * @param pressure_Pa pressure [Pa abs]
 * @returns density [kg/m3]
 * @throws OutOfDomainError outside the table's temperatures, or above the dew pressure
 * @validity tableMinimum_K to tableMaximum_K, above 0 and up to the dew pressure
 * @source virial equation cut after the third term; B and the dew states from the refrigerant's equation of state
 * @example vapourDensity(refrigerant('R-134a'), 297.15, 67460) // => 2.8248
 */
export function vapourDensity(r: Refrigerant, temperature_K: number, pressure_Pa: number): number {
  requireTabulated(r, temperature_K);
  requirePositive('pressure [Pa abs]', pressure_Pa);
  const { tables } = r;
  const dewPressure_Pa = Math.exp(curveValue(tables.lnDewPressure, temperature_K));
  if (pressure_Pa > dewPressure_Pa * (1 + DEW_SLACK)) {
    throw new OutOfDomainError(
      `${r.name} vapour pressure [Pa abs] at ${temperature_K} K`,
      pressure_Pa,
      `up to the dew pressure, ${dewPressure_Pa.toPrecision(6)}`,
    );
  }
  const dewDensity = Math.exp(curveValue(tables.lnVapourDensity, temperature_K));
  const rt = r.gasConstant_J_kgK * temperature_K;
  const b = curveValue(tables.secondVirial, temperature_K);
  const dewFactor = dewPressure_Pa / (dewDensity * rt);
  const c = (dewFactor - 1 - b * dewDensity) / (dewDensity * dewDensity);
  const start = pressure_Pa / (rt * (1 + ((dewFactor - 1) * pressure_Pa) / dewPressure_Pa));
  return virialDensity(pressure_Pa / rt, b, c, start);
}

/** Solves rho (1 + B rho + C rho^2) = idealDensity by Newton. */
function virialDensity(idealDensity: number, b: number, c: number, start: number): number {
  let density = start;
  for (let turn = 0; turn < 12; turn += 1) {
    const excess = density * (1 + density * (b + density * c)) - idealDensity;
    const change = excess / (1 + density * (2 * b + 3 * density * c));
    density -= change;
    if (Math.abs(change) < 1e-13 * density) break;
  }
  return density;
}
