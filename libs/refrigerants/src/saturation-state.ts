import type { Refrigerant } from './refrigerant.ts';
import {
  bubblePressure,
  dewPressure,
  latentHeat,
  liquidDensity,
  liquidHeatCapacity,
  saturatedVapourDensity,
  secondVirial,
  vapourHeatCapacity,
  vapourHeatCapacityRatio,
  vapourSpeedOfSound,
} from './saturation.ts';
import { liquidViscosity, vapourViscosity } from './viscosity.ts';

/** Everything held about saturation at one temperature: liquid at the bubble point, vapour at the dew point. */
export interface SaturationState {
  readonly temperature_K: number;
  readonly bubblePressure_Pa: number;
  readonly dewPressure_Pa: number;
  readonly liquidDensity_kg_m3: number;
  readonly vapourDensity_kg_m3: number;
  readonly latentHeat_J_kg: number;
  readonly liquidHeatCapacity_J_kgK: number;
  readonly vapourHeatCapacity_J_kgK: number;
  readonly vapourHeatCapacityRatio: number;
  readonly vapourSpeedOfSound_m_s: number;
  readonly secondVirial_m3_kg: number;
  readonly liquidViscosity_Pa_s: number | null;
  readonly vapourViscosity_Pa_s: number | null;
}

/**
 * All saturation properties at one temperature.
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature [K]
 * @returns state in SI units, each named in its field [SI]
 * @throws OutOfDomainError outside the table
 * @validity tableMinimum_K to tableMaximum_K
 * @source the refrigerant's equation of state, see its `sources` and data/README.md
 */
export function saturationAt(r: Refrigerant, temperature_K: number): SaturationState {
  return {
    temperature_K,
    bubblePressure_Pa: bubblePressure(r, temperature_K),
    dewPressure_Pa: dewPressure(r, temperature_K),
    liquidDensity_kg_m3: liquidDensity(r, temperature_K),
    vapourDensity_kg_m3: saturatedVapourDensity(r, temperature_K),
    latentHeat_J_kg: latentHeat(r, temperature_K),
    liquidHeatCapacity_J_kgK: liquidHeatCapacity(r, temperature_K),
    vapourHeatCapacity_J_kgK: vapourHeatCapacity(r, temperature_K),
    vapourHeatCapacityRatio: vapourHeatCapacityRatio(r, temperature_K),
    vapourSpeedOfSound_m_s: vapourSpeedOfSound(r, temperature_K),
    secondVirial_m3_kg: secondVirial(r, temperature_K),
    liquidViscosity_Pa_s: liquidViscosity(r, temperature_K),
    vapourViscosity_Pa_s: vapourViscosity(r, temperature_K),
  };
}
