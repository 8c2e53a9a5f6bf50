import { requirePositive } from '@brimline/quantities';

export interface RateQuantityVariance {
  readonly rateVariance: number;
  readonly quantityVariance: number;
}

/**
 * Splits a difference of cost into price and amount; above zero is unfavourable:
 *
 *   rate: (actual rate - standard rate) x actual quantity;  quantity: (actual - standard quantity) x standard rate
 *
 * The joint part goes to the rate; the two add up to the whole difference.
 *
 * @source standard costing, e.g. Managerial Accounting 8.3 (open textbook)
 */
export function rateQuantityVariance(input: {
  readonly standardRate: number;
  readonly actualRate: number;
  readonly standardQuantity: number;
  readonly actualQuantity: number;
}): RateQuantityVariance {
  return {
    rateVariance: (input.actualRate - input.standardRate) * input.actualQuantity,
    quantityVariance: (input.actualQuantity - input.standardQuantity) * input.standardRate,
  };
}

/** The same for the time of a process: by quantity at the planned rate, and by rate at the actual quantity. */
export function processTimeVariance(input: {
  readonly plannedQuantity: number;
  readonly actualQuantity: number;
  readonly plannedRate: number;
  readonly actualRate: number;
}): { readonly byQuantity: number; readonly byRate: number } {
  requirePositive('planned rate', input.plannedRate);
  requirePositive('actual rate', input.actualRate);
  return {
    byQuantity: (input.actualQuantity - input.plannedQuantity) / input.plannedRate,
    byRate: input.actualQuantity * (1 / input.actualRate - 1 / input.plannedRate),
  };
}
