import {
  PASCALS_PER_PSI,
  requireNotNegative,
  requirePositive,
  STANDARD_ATMOSPHERE_PA,
} from '@brimline/quantities';
import { pressureClass, type Refrigerant } from '@brimline/refrigerants';
import { LOW_PRESSURE_NITROGEN, NITROGEN_HOLD } from './data/pressure-and-vacuum-tests.ts';
import { type Cited, cited } from './rule-facts.ts';

export interface NitrogenLimit extends Cited {
  readonly limit_Pa_gauge: number;
}

/**
 * Most nitrogen pressure for a low-pressure machine; null for the other classes, whose nameplate test pressure decides.
 * A disc that opens below the usual 15 psig lowers the limit in proportion (own choice, to the safe side).
 *
 * @param input refrigerant, pressure at which the rupture disc opens [Pa gauge]
 * @returns limit [Pa gauge]
 * @throws OutOfDomainError unless the disc's pressure is above 0
 * @source EPA section 608 type III training material
 */
export function lowPressureNitrogenLimit(input: {
  readonly refrigerant: Refrigerant;
  readonly ruptureDisc_Pa_gauge?: number;
}): NitrogenLimit | null {
  if (pressureClass(input.refrigerant) !== 'low') return null;
  const rule = LOW_PRESSURE_NITROGEN;
  const usual_Pa = rule.usualDisc_psig * PASCALS_PER_PSI;
  const disc_Pa = input.ruptureDisc_Pa_gauge ?? usual_Pa;
  requirePositive('rupture disc [Pa gauge]', disc_Pa);
  const limit_Pa_gauge = rule.limit_psig * PASCALS_PER_PSI * Math.min(1, disc_Pa / usual_Pa);
  return { limit_Pa_gauge, ...cited(rule) };
}

export interface NitrogenHoldRise extends Cited {
  /** By the gas law, what the gauge should gain. */
  readonly rise_Pa: number;
  /** By the specification's fixed figure; null below 100 psig, where it is far off. */
  readonly ruleOfThumb_Pa: number | null;
}

/**
 * Pressure that a tight nitrogen hold gains from warming: dP = P_abs dT / T.
 *
 * @param input pressure at the start [Pa gauge], metal temperature at start and end [K], barometric pressure [Pa abs]
 * @returns rise by the gas law and by the fixed figure [Pa]
 * @throws OutOfDomainError unless the pressure is 0 or above and the temperatures above 0
 * @source ideal gas law; UFGS refrigerant piping section, 0.3 psi per degF
 */
export function nitrogenHoldRise(input: {
  readonly start_Pa_gauge: number;
  readonly startTemperature_K: number;
  readonly endTemperature_K: number;
  readonly atmosphere_Pa?: number;
}): NitrogenHoldRise {
  requireNotNegative('pressure at the start [Pa gauge]', input.start_Pa_gauge);
  requirePositive('temperature at the start [K]', input.startTemperature_K);
  requirePositive('temperature at the end [K]', input.endTemperature_K);
  const warming_K = input.endTemperature_K - input.startTemperature_K;
  const start_Pa = input.start_Pa_gauge + (input.atmosphere_Pa ?? STANDARD_ATMOSPHERE_PA);
  const fixed_Pa = NITROGEN_HOLD.rise_psi_degF * PASCALS_PER_PSI * warming_K * 1.8;
  const isNear = input.start_Pa_gauge >= NITROGEN_HOLD.ruleOfThumbFrom_psig * PASCALS_PER_PSI;
  return {
    rise_Pa: (start_Pa * warming_K) / input.startTemperature_K,
    ruleOfThumb_Pa: isNear ? fixed_Pa : null,
    ...cited(NITROGEN_HOLD),
  };
}
