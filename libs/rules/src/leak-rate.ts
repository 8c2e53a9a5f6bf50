import { OutOfDomainError, requireNotNegative, requirePositive } from '@brimline/quantities';
import { daysBetween } from './calendar-day.ts';
import { type ApplianceUse, CHRONIC_LEAK, LEAK_RATES } from './data/leak-rates.ts';
import { type Cited, cited } from './rule-facts.ts';

/** Additions in the time before; how long ago each was, or on which day. */
export type LeakHistory =
  | { readonly method: 'annualizing'; readonly added_kg: number; readonly daysSinceLastAddition: number }
  | {
      readonly method: 'rolling';
      readonly additions: readonly { readonly daysAgo: number; readonly added_kg: number }[];
    };

export interface LeakRate extends Cited {
  readonly percentPerYear: number;
  /** The rate above which repair falls due, per cent a year. */
  readonly threshold: number;
  readonly exceeded: boolean;
}

/** Binary fractions may put exactly ten per cent a hair above it. */
const SLACK = 1e-9;

function annualized(added_kg: number, charge_kg: number, days: number): number {
  requirePositive('days since the last addition', days);
  const year = LEAK_RATES.longestInterval_days;
  return (added_kg / charge_kg / (Math.min(days, year) / year)) * 100;
}

function addedInLastYear(
  additions: readonly { readonly daysAgo: number; readonly added_kg: number }[],
): number {
  let sum_kg = 0;
  for (const { daysAgo, added_kg } of additions) {
    requireNotNegative('days ago', daysAgo);
    requireNotNegative('added [kg]', added_kg);
    if (daysAgo <= LEAK_RATES.longestInterval_days) sum_kg += added_kg;
  }
  return sum_kg;
}

/**
 * Leak rate of an appliance and whether it is over the rule's rate for its use.
 *
 *   annualizing: rate = added / charge / (min(days, 365) / 365) * 100
 *   rolling:     rate = sum of additions in the last 365 days / charge * 100
 *
 * An addition exactly 365 days ago still counts (own reading, the stricter one). The rolling window restarts at a passed follow-up test: leave out what was added before it.
 *
 * @param input full charge [kg], use, method and additions [kg]
 * @returns rate and threshold [% per year], whether exceeded (strictly above)
 * @throws OutOfDomainError unless charge and days are above 0 and additions 0 or above
 * @source 40 CFR 82.152 and 84.102 "leak rate"; 82.157(c)(2), 84.106(c)
 * @example leakRate({ charge_kg: 1200, use: 'comfort cooling',
 *   history: { method: 'annualizing', added_kg: 45, daysSinceLastAddition: 90 } }).percentPerYear // => 15.208
 */
export function leakRate(input: {
  readonly charge_kg: number;
  readonly use?: ApplianceUse;
  readonly history: LeakHistory;
}): LeakRate {
  const { charge_kg, history } = input;
  requirePositive('full charge [kg]', charge_kg);
  if (history.method === 'annualizing') requireNotNegative('added [kg]', history.added_kg);
  const percentPerYear =
    history.method === 'annualizing'
      ? annualized(history.added_kg, charge_kg, history.daysSinceLastAddition)
      : (addedInLastYear(history.additions) / charge_kg) * 100;
  const threshold = LEAK_RATES.percentPerYear[input.use ?? 'comfort cooling'];
  return {
    percentPerYear,
    threshold,
    exceeded: isLeakRateExceeded(percentPerYear, input.use ?? 'comfort cooling'),
    ...cited(LEAK_RATES),
  };
}

/** Is a yearly rate strictly above the one allowed for the use? */
export function isLeakRateExceeded(percentPerYear: number, use: ApplianceUse): boolean {
  return percentPerYear > LEAK_RATES.percentPerYear[use] * (1 + SLACK);
}

/** Additions by calendar day as additions so many days before a day. @throws OutOfDomainError for one after that day */
export function additionsBefore(
  on: string,
  additions: readonly { readonly date: string; readonly added_kg: number }[],
): readonly { readonly daysAgo: number; readonly added_kg: number }[] {
  return additions.map(({ date, added_kg }) => {
    const daysAgo = daysBetween(date, on);
    if (daysAgo < 0) throw new OutOfDomainError('day of an addition', date, `up to ${on}`);
    return { daysAgo, added_kg };
  });
}

export interface ChronicLeak extends Cited {
  readonly percentOfCharge: number;
  readonly report: boolean;
  /** Day by which to report; null when nothing is due. */
  readonly reportBy: string | null;
}

/**
 * Must the owner report the appliance as a chronic leaker?
 *
 * @param input lost in the calendar year and full charge [kg], the year [-]
 * @returns share lost [%], whether and by when to report
 * @throws OutOfDomainError unless the charge is above 0, the loss 0 or above and the year whole
 * @source 40 CFR 82.157(j), 84.106(j)
 */
export function chronicLeak(input: {
  readonly lost_kg: number;
  readonly charge_kg: number;
  readonly year: number;
}): ChronicLeak {
  requireNotNegative('lost [kg]', input.lost_kg);
  requirePositive('full charge [kg]', input.charge_kg);
  if (!Number.isInteger(input.year)) throw new OutOfDomainError('year', input.year, 'a whole number');
  const percentOfCharge = (input.lost_kg / input.charge_kg) * 100;
  const report = percentOfCharge >= CHRONIC_LEAK.percentOfCharge * (1 - SLACK);
  return {
    percentOfCharge,
    report,
    reportBy: report ? `${input.year + 1}-${CHRONIC_LEAK.reportMonthDay}` : null,
    ...cited(CHRONIC_LEAK),
  };
}
