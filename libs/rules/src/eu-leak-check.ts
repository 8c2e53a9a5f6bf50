import { requirePositive } from '@brimline/quantities';
import type { Refrigerant } from '@brimline/refrigerants';
import { EU_LEAK_CHECKS } from './data/eu-leak-checks.ts';
import { type Cited, cited } from './rule-facts.ts';

export interface EuLeakCheck extends Cited {
  /** Null where no check is asked for. */
  readonly interval_months: number | null;
  /** kg x GWP / 1000; null where mass counts or the regulation does not cover the gas. */
  readonly tonnesCO2e: number | null;
  readonly detectionObligatory: boolean;
}

const SLACK = 1e-9;

/**
 * Interval of leak checks in the European Union: tCO2e = kg GWP / 1000, or kilograms for Annex II section 1 gases.
 *
 * @param input refrigerant, charge [kg], leak detection system fitted, hermetic and labelled so
 * @returns interval [months], tCO2e [t], whether detection is obligatory
 * @throws OutOfDomainError unless the charge is above 0
 * @source Regulation (EU) 2024/573, Articles 5 to 7
 * @example euLeakCheck({ refrigerant: refrigerant('R-134a'), charge_kg: 250, leakDetection: false }).interval_months // => 6
 */
export function euLeakCheck(input: {
  readonly refrigerant: Refrigerant;
  readonly charge_kg: number;
  readonly leakDetection: boolean;
  readonly hermetic?: boolean;
}): EuLeakCheck {
  const { refrigerant: r, charge_kg } = input;
  requirePositive('charge [kg]', charge_kg);
  const rule = EU_LEAK_CHECKS;
  const elsewhere = rule.notCovered[r.name];
  if (elsewhere !== undefined || r.gwp.ar4 === null) {
    const note = elsewhere ?? 'no GWP held';
    return { interval_months: null, tonnesCO2e: null, detectionObligatory: false, ...cited(rule, note) };
  }
  const byMass = rule.byMass.includes(r.name);
  const amount = (byMass ? charge_kg : (charge_kg * r.gwp.ar4) / 1000) * (1 + SLACK);
  const band = rule.bands.findLast((one) => amount >= (byMass ? one.from_kg : one.from_tCO2e));
  const isExempt =
    input.hermetic === true && amount < (byMass ? rule.hermeticBelow_kg : rule.hermeticBelow_tCO2e);
  const months = input.leakDetection ? band?.withDetection_months : band?.interval_months;
  return {
    interval_months: isExempt ? null : (months ?? null),
    tonnesCO2e: byMass ? null : (charge_kg * r.gwp.ar4) / 1000,
    detectionObligatory:
      amount >= (byMass ? rule.detectionObligatoryFrom_kg : rule.detectionObligatoryFrom_tCO2e),
    ...cited(rule),
  };
}
