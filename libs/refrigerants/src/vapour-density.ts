import { OutOfDomainError, requirePositive } from '@brimline/quantities';
import type { Refrigerant } from './refrigerant.ts';
import { requireTabulated } from './saturation.ts';
import { VAPOUR_STRIDE } from './vapour-curves.ts';

/** The dew pressure itself, met through rounding, still counts as vapour. */
const DEW_SLACK = 1e-9;

function refuseLiquid(r: Refrigerant, temperature_K: number, pressure_Pa: number, dew_Pa: number): never {
  throw new OutOfDomainError(
    `${r.name} vapour pressure [Pa abs] at ${temperature_K} K`,
    pressure_Pa,
    `up to the dew pressure, ${dew_Pa.toPrecision(6)}`,
  );
}

/**
 * Density of the vapour at or below its dew pressure, as a real gas. With x = rho / rho_dew:
 *
 *   p = rho R T (1 + b x + c x^2 + d x^3)
 *
 * b is the second virial coefficient times the dew density; c and d are such that both the dew density and the slope
 * dp/drho there, w^2 cv/cp, are met.
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature of the vapour [K]
 * @param pressure_Pa pressure [Pa abs]
 * @returns density [kg/m3]
 * @throws OutOfDomainError outside the table's temperatures, or above the dew pressure
 * @validity tableMinimum_K to tableMaximum_K, above 0 and up to the dew pressure
 * @source virial equation cut after the fourth term; second virial, dew density, speed of sound w and cp/cv from the
 *   refrigerant's equation of state
 * @example vapourDensity(refrigerant('R-134a'), 297.15, 67460) // => 2.8248
 */
export function vapourDensity(r: Refrigerant, temperature_K: number, pressure_Pa: number): number {
  requireTabulated(r, temperature_K);
  requirePositive('pressure [Pa abs]', pressure_Pa);
  const { knots, lastInterval, first, step } = r.tables.vapour;
  const position = (temperature_K - first) / step;
  const interval = Math.min(Math.max(Math.floor(position), 0), lastInterval);
  const t = position - interval;
  const rest = 1 - t;
  // Hermite weights of the two values and two slopes.
  const v1 = t * t * (3 - 2 * t);
  const v0 = 1 - v1;
  const s0 = t * rest * rest;
  const s1 = -t * t * rest;
  const k = VAPOUR_STRIDE * interval;
  const at = (place: number): number =>
    v0 * (knots[k + place] as number) +
    s0 * (knots[k + place + 1] as number) +
    v1 * (knots[k + VAPOUR_STRIDE + place] as number) +
    s1 * (knots[k + VAPOUR_STRIDE + place + 1] as number);
  const dewPressure_Pa = Math.exp(at(0));
  if (pressure_Pa > dewPressure_Pa * (1 + DEW_SLACK))
    refuseLiquid(r, temperature_K, pressure_Pa, dewPressure_Pa);
  const dewDensity = Math.exp(at(2));
  const z = dewPressure_Pa / (dewDensity * r.gasConstant_J_kgK * temperature_K);
  return dewDensity * densityRatio(pressure_Pa / dewPressure_Pa, z, at(4), at(6));
}

/** Solves x (1 + b x + c x^2 + d x^3) = z p / p_dew for x = rho / rho_dew by Newton; c follows from z at x = 1. */
function densityRatio(pressureRatio: number, z: number, b: number, d: number): number {
  const c = z - 1 - b - d;
  const wanted = z * pressureRatio;
  let x = wanted / (1 + (z - 1) * pressureRatio);
  for (let turn = 0; turn < 12; turn += 1) {
    const excess = x * (1 + x * (b + x * (c + x * d))) - wanted;
    const change = excess / (1 + x * (2 * b + x * (3 * c + 4 * x * d)));
    x -= change;
    // Newton doubles the digits: after a change this small the next one is a part in 1e12.
    if (Math.abs(change) < 1e-6 * x) break;
  }
  return x;
}
