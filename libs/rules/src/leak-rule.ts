import { KILOGRAMS_PER_POUND, OutOfDomainError, requirePositive } from '@brimline/quantities';
import type { Refrigerant } from '@brimline/refrigerants';
import { daysAfter, requireDay } from './calendar-day.ts';
import type { ApplianceUse } from './data/leak-rates.ts';
import { LEAK_DETECTION_84_108, LEAK_RULE_82_157, LEAK_RULE_84_106 } from './data/leak-rules.ts';
import { type Cited, cited, type RuleFacts } from './rule-facts.ts';

export interface LeakRule extends Cited {
  readonly rule: '82.157' | '84.106' | 'none';
}

/** Charges given in pounds and stored in kilograms keep to the rule's side of its limit. */
const SLACK = 1e-9;

function holdsAtLeast(charge_kg: number, least_lb: number): boolean {
  return charge_kg >= least_lb * KILOGRAMS_PER_POUND * (1 - SLACK);
}

function partsOf(r: Refrigerant): readonly string[] {
  return r.composition.length === 0 ? [r.name] : [r.name, ...r.composition.map(({ name }) => name)];
}

/** Does the refrigerant hold a class I or II ozone-depleting substance? */
export function isOzoneDepleting(r: Refrigerant): boolean {
  return partsOf(r).some((part) => LEAK_RULE_82_157.refrigerants.includes(part));
}

/** Does 84.106 name it: a listed hydrofluorocarbon in it, or a warming potential above the limit? */
function isHydrofluorocarbonOrWarm(r: Refrigerant): boolean {
  if (partsOf(r).some((part) => LEAK_RULE_84_106.hydrofluorocarbons.includes(part))) return true;
  return (r.gwp.ar4 ?? 0) > LEAK_RULE_84_106.substituteGwpAbove;
}

function answer(rule: LeakRule['rule'], facts: RuleFacts, ...notes: string[]): LeakRule {
  return { rule, ...cited(facts, ...notes) };
}

/**
 * Which leak-repair rule covers an appliance on a day.
 *
 * @param input refrigerant, full charge [kg], day "yyyy-MM-dd", whether it belongs to the excluded subsector
 * @returns rule, or none, with the citation that decides
 * @throws OutOfDomainError unless the charge is above 0 and the day is from 2020-04-10 on, when this reading of 82.157 began
 * @source 40 CFR 82.157(a); 84.106(a)
 * @example leakRule({ refrigerant: refrigerant('R-134a'), charge_kg: 400, on: '2026-05-01' }).rule // => "84.106"
 */
export function leakRule(input: {
  readonly refrigerant: Refrigerant;
  readonly charge_kg: number;
  readonly on: string;
  readonly residentialOrLightCommercial?: boolean;
}): LeakRule {
  const { refrigerant: r, charge_kg } = input;
  requirePositive('full charge [kg]', charge_kg);
  const on = requireDay('day', input.on);
  if (on < requireDay('first day', LEAK_RULE_82_157.from)) {
    throw new OutOfDomainError('day', input.on, `${LEAK_RULE_82_157.from} or later`);
  }
  if (isOzoneDepleting(r)) {
    return holdsAtLeast(charge_kg, LEAK_RULE_82_157.leastCharge_lb)
      ? answer('82.157', LEAK_RULE_82_157)
      : answer('none', LEAK_RULE_82_157, `Below ${LEAK_RULE_82_157.leastCharge_lb} lb.`);
  }
  const rule = LEAK_RULE_84_106;
  if (!isHydrofluorocarbonOrWarm(r)) {
    return answer('none', rule, `No listed hydrofluorocarbon, and GWP at most ${rule.substituteGwpAbove}.`);
  }
  if (on < requireDay('first day', rule.from)) return answer('none', rule, `Holds from ${rule.from}.`);
  if (input.residentialOrLightCommercial === true) return answer('none', rule, 'Excluded subsector.');
  return holdsAtLeast(charge_kg, rule.leastCharge_lb)
    ? answer('84.106', rule)
    : answer('none', rule, `Below ${rule.leastCharge_lb} lb.`);
}

export interface LeakDetectionDuty extends Cited {
  readonly required: boolean;
  /** Day by which it must run; null when not required. */
  readonly by: string | null;
}

/**
 * Must the appliance have automatic leak detection?
 *
 * @param input refrigerant, full charge [kg], use, day installed "yyyy-MM-dd"
 * @returns whether and by when
 * @throws OutOfDomainError unless the charge is above 0 and the day is a day
 * @source 40 CFR 84.108
 */
export function leakDetectionDuty(input: {
  readonly refrigerant: Refrigerant;
  readonly charge_kg: number;
  readonly use: ApplianceUse;
  readonly installedOn: string;
}): LeakDetectionDuty {
  const rule = LEAK_DETECTION_84_108;
  requirePositive('full charge [kg]', input.charge_kg);
  const installed = requireDay('day installed', input.installedOn);
  const isCovered =
    rule.uses.includes(input.use) &&
    holdsAtLeast(input.charge_kg, rule.leastCharge_lb) &&
    !isOzoneDepleting(input.refrigerant) &&
    isHydrofluorocarbonOrWarm(input.refrigerant) &&
    installed >= requireDay('first day', rule.existingFrom);
  if (!isCovered) return { required: false, by: null, ...cited(rule) };
  const isNew = installed >= requireDay('first day', rule.newFrom);
  return {
    required: true,
    by: isNew ? daysAfter(input.installedOn, rule.newWithin_days) : rule.existingBy,
    ...cited(rule),
  };
}
