import { requireNotNegative, requirePositive, requireWithin } from '@brimline/quantities';

/**
 * Price that keeps a share of itself: price = cost / (1 - margin). Not the same as a markup on cost.
 *
 * @throws OutOfDomainError unless cost is not negative and the margin lies from 0 to 0.95
 * @example priceFromMargin(100, 0.2) // => 125
 */
export function priceFromMargin(cost: number, margin: number): number {
  requireNotNegative('cost', cost);
  requireWithin('margin', margin, 0, 0.95);
  return cost / (1 - margin);
}

/** Price from a share added to cost: price = cost (1 + markup). */
export function priceFromMarkup(cost: number, markup: number): number {
  requireNotNegative('cost', cost);
  requireNotNegative('markup', markup);
  return cost * (1 + markup);
}

/** Share of a price that is kept; below 0 when the price does not cover the cost. */
export function marginOf(cost: number, price: number): number {
  requireNotNegative('cost', cost);
  requirePositive('price', price);
  return (price - cost) / price;
}

/** The markup that gives the same price as a margin: m / (1 - m). */
export function markupFromMargin(margin: number): number {
  requireWithin('margin', margin, 0, 0.95);
  return margin / (1 - margin);
}

/** Cost of an hour that can be billed: wage (1 + burden) / utilisation. */
export function loadedHour(wage: number, burden: number, utilisation: number): number {
  requireWithin('utilisation', utilisation, 0.05, 1);
  return (wage * (1 + burden)) / utilisation;
}
