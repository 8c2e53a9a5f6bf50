import { OutOfDomainError, requirePositive } from '@brimline/quantities';
import { isDay, lastDayOf, monthYearsAfter, requireDay } from './calendar-day.ts';
import { type CylinderSpecification, REQUALIFICATION } from './data/requalification.ts';
import { type Cited, cited } from './rule-facts.ts';

export interface Requalification extends Cited {
  /** Month in which the next test falls due, "yyyy-MM". */
  readonly due: string;
  /** Last day on which the cylinder may be filled, "yyyy-MM-dd". */
  readonly lastFillDay: string;
  readonly period_years: number;
}

function periodOf(service: 'recovered' | 'new', asked: number | undefined): number {
  if (service === 'recovered') return REQUALIFICATION.recoveryPeriod_years;
  const period = asked ?? REQUALIFICATION.defaultPeriod_years;
  const allowed = [REQUALIFICATION.defaultPeriod_years, ...REQUALIFICATION.longerPeriods_years];
  if (!allowed.includes(period)) throw new OutOfDomainError('period [years]', period, allowed.join(', '));
  return period;
}

/**
 * When a cylinder's next test is due.
 *
 * @param input month of the last test "yyyy-MM"; recovered or new gas; for new gas a longer period that its conditions allow [years]
 * @returns month due, last day to fill, period [years], citation
 * @throws OutOfDomainError for a month that is none, or a period not in the rule
 * @source 49 CFR 180.209 Table 1
 * @example requalification({ lastRequalified: '2021-06', service: 'recovered' }).due // => "2026-06"
 */
export function requalification(input: {
  readonly lastRequalified: string;
  readonly service: 'recovered' | 'new';
  readonly period_years?: number;
}): Requalification {
  const day = input.lastRequalified.length === 7 ? `${input.lastRequalified}-01` : input.lastRequalified;
  if (!isDay(day)) {
    throw new OutOfDomainError('month of the last test', input.lastRequalified, 'a month, yyyy-MM');
  }
  const period_years = periodOf(input.service, input.period_years);
  const due = monthYearsAfter(day, period_years);
  return { due, lastFillDay: lastDayOf(due), period_years, ...cited(REQUALIFICATION) };
}

/**
 * Least hydrostatic test pressure of a specification.
 *
 * @param specification mark on the collar [-]
 * @param servicePressure_Pa_gauge service pressure [Pa gauge]
 * @returns test pressure [Pa gauge]
 * @throws OutOfDomainError for a single-trip cylinder, or a service pressure not above 0
 * @source 49 CFR 180.209 Table 1
 */
export function testPressure(specification: CylinderSpecification, servicePressure_Pa_gauge: number): number {
  requirePositive('service pressure [Pa gauge]', servicePressure_Pa_gauge);
  if (specification === 'DOT-39') {
    throw new OutOfDomainError(
      'specification',
      specification,
      'a refillable cylinder; single-trip ones are never tested again',
    );
  }
  return REQUALIFICATION.testPressureRatio[specification] * servicePressure_Pa_gauge;
}

/** Why a cylinder may not be filled; null when it may. */
export function whyNotFill(input: {
  readonly refillable: boolean;
  readonly requalificationDue: string;
  readonly on: string;
}): string | null {
  if (!input.refillable) return 'single trip: never refilled';
  const due = requireDay('day the test is due', input.requalificationDue);
  return requireDay('day of filling', input.on) > due ? 'test overdue: may not be filled' : null;
}
