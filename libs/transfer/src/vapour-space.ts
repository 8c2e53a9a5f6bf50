import {
  bubblePressure,
  dewPressure,
  type Refrigerant,
  saturatedVapourDensity,
  secondVirial,
} from '@brimline/refrigerants';

/**
 * Density of the vapour that stands over a liquid at a temperature. Over a blend the pressure is the liquid's bubble
 * pressure, so the dew density is scaled up to it; for a pure fluid the factor is 1.
 */
export function vapourDensityOverLiquid(r: Refrigerant, temperature_K: number): number {
  const dew = saturatedVapourDensity(r, temperature_K);
  return r.isBlend ? (dew * bubblePressure(r, temperature_K)) / dewPressure(r, temperature_K) : dew;
}

/** Vapour held at one temperature: pressure from density, the exact inverse of the refrigerant library's `vapourDensity`. */
export interface Isotherm {
  readonly dewDensity_kg_m3: number;
  readonly dewPressure_Pa: number;
  pressure(density_kg_m3: number): number;
}

/** p = rho R T (1 + B rho + C rho^2), with C such that the dew state is met. */
export function vapourIsotherm(r: Refrigerant, temperature_K: number): Isotherm {
  const dewDensity_kg_m3 = saturatedVapourDensity(r, temperature_K);
  const dewPressure_Pa = dewPressure(r, temperature_K);
  const rt = r.gasConstant_J_kgK * temperature_K;
  const b = secondVirial(r, temperature_K);
  const c = (dewPressure_Pa / (dewDensity_kg_m3 * rt) - 1 - b * dewDensity_kg_m3) / dewDensity_kg_m3 ** 2;
  return {
    dewDensity_kg_m3,
    dewPressure_Pa,
    pressure: (density) => density * rt * (1 + density * (b + density * c)),
  };
}
