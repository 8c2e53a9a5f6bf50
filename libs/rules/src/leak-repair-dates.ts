import { KILOGRAMS_PER_POUND, requirePositive } from '@brimline/quantities';
import { daysAfter } from './calendar-day.ts';
import { type ApplianceUse, LEAK_REPAIR_CLOCKS } from './data/leak-rates.ts';
import { type Cited, cited } from './rule-facts.ts';

export interface LeakRepairDates extends Cited {
  /** Repaired, and the first verification test passed, by this day. */
  readonly repairBy: string;
  /** Follow-up test by this day; null until the first test is passed. */
  readonly followUpBy: string | null;
  /** If the repair fails: plan to retrofit or retire by this day ... */
  readonly planBy: string;
  /** ... and done by this day. */
  readonly planCarriedOutBy: string;
  readonly inspections: string;
}

function inspectionsFor(use: ApplianceUse, charge_kg: number): string {
  const isLarge = charge_kg >= LEAK_REPAIR_CLOCKS.largeCharge_lb * KILOGRAMS_PER_POUND * (1 - 1e-9);
  const isProcess = use === 'commercial refrigeration' || use === 'industrial process';
  return isLarge && isProcess
    ? 'every 3 months until 4 quarters in a row are within the rate'
    : 'once a year until 1 year is within the rate';
}

/**
 * What falls due, and when, after an addition that showed the leak rate to be over.
 *
 * @param input day of the addition; use; full charge [kg]; process shutdown needed; day from which the follow-up test
 *   counts: the first test passed or, where the system was evacuated, the return to normal operation
 * @returns days "yyyy-MM-dd" and inspections, with citation
 * @throws OutOfDomainError for a day that is none or a charge not above 0
 * @source 40 CFR 82.157(d) to (h), 84.106(d) to (h)
 * @example leakRepairDates({ exceededOn: '2026-03-10', use: 'comfort cooling', charge_kg: 500 }).repairBy
 *   // => "2026-04-09"
 */
export function leakRepairDates(input: {
  readonly exceededOn: string;
  readonly use: ApplianceUse;
  readonly charge_kg: number;
  readonly shutdownNeeded?: boolean;
  readonly followUpFrom?: string;
}): LeakRepairDates {
  requirePositive('full charge [kg]', input.charge_kg);
  const clocks = LEAK_REPAIR_CLOCKS;
  const withShutdown = input.use === 'industrial process' && input.shutdownNeeded === true;
  const repairBy = daysAfter(
    input.exceededOn,
    withShutdown ? clocks.repairWithShutdown_days : clocks.repair_days,
  );
  const planBy = daysAfter(repairBy, clocks.plan_days);
  return {
    repairBy,
    followUpBy: input.followUpFrom === undefined ? null : daysAfter(input.followUpFrom, clocks.followUp_days),
    planBy,
    planCarriedOutBy: daysAfter(planBy, clocks.planCarriedOut_days),
    inspections: inspectionsFor(input.use, input.charge_kg),
    ...cited(clocks),
  };
}
