import { requireNotNegative, requireWithin } from '@brimline/quantities';

/**
 * Hours to pay for a call-out with a least count of hours at the rate that applies: max(worked, least) x multiple.
 *
 * @returns hours at the straight rate [h]
 * @source call-out clauses of published building-trade agreements, read: 2 h or 4 h
 */
export function callOutHours(worked_h: number, least_h: number, multiplier: number): number {
  requireNotNegative('worked hours', worked_h);
  requireNotNegative('least hours', least_h);
  requireNotNegative('multiplier', multiplier);
  return Math.max(worked_h, least_h) * multiplier;
}

/** Hours at one of several rates within a week. */
export interface RatedHours {
  readonly hours: number;
  readonly rate: number;
}

/**
 * Pay of a week worked at several rates: all hours at their own rate, and beyond the limit half the mean rate more.
 *
 *   regular rate = sum(h r) / sum(h);  pay = sum(h r) + regular rate x (multiple - 1) x hours beyond the limit
 *
 * @source 29 CFR 778.115, from memory
 */
export function weightedWeekPay(
  parts: readonly RatedHours[],
  weeklyAfter_h: number,
  multiplier = 1.5,
): { readonly regularRate: number; readonly pay: number } {
  for (const { hours, rate } of parts) {
    requireNotNegative('hours', hours);
    requireNotNegative('rate', rate);
  }
  const hours = parts.reduce((sum, part) => sum + part.hours, 0);
  const straight = parts.reduce((sum, part) => sum + part.hours * part.rate, 0);
  requireWithin('hours of a week', hours, 0, 168);
  const regularRate = hours > 0 ? straight / hours : 0;
  return { regularRate, pay: straight + regularRate * (multiplier - 1) * Math.max(0, hours - weeklyAfter_h) };
}

/**
 * Earliest start after a daily rest.
 *
 * @source Directive 2003/88/EC, article 3, read in a public summary: 11 h
 */
export function startAfterRest(end: Date, rest_h = 11): Date {
  requireNotNegative('rest', rest_h);
  return new Date(end.getTime() + rest_h * 3_600_000);
}

/**
 * Lodging and meals of one trip: a night fewer than days; the first and the last day have a share of the meals.
 *
 * @param edgeShare share on the first and the last day, 0 to 1
 * @source 41 CFR 301-11.101 for the share of 75 %, from memory
 */
export function tripAllowance(days: number, lodging: number, meals: number, edgeShare = 0.75): number {
  requireWithin('days', days, 1, 366);
  requireNotNegative('lodging', lodging);
  requireNotNegative('meals', meals);
  requireWithin('share of the first and the last day', edgeShare, 0, 1);
  const wholeDays = Math.max(0, days - 2);
  const edgeDays = Math.min(2, days);
  return lodging * (days - 1) + meals * (wholeDays + edgeDays * edgeShare);
}
