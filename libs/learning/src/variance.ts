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

/** Labour of a job as hours x persons x rate. */
export interface LabourFactors {
  readonly hours: number;
  readonly crew: number;
  readonly rate: number;
}

const FACTORS = ['hours', 'crew', 'rate'] as const;

/** Parts of a difference of labour cost; above zero is unfavourable, and the three add up to the whole. */
export type LabourVariance = Readonly<Record<(typeof FACTORS)[number], number>>;

const labourCost = ({ hours, crew, rate }: LabourFactors): number => hours * crew * rate;

function inOrder(
  planned: LabourFactors,
  actual: LabourFactors,
  order: readonly (keyof LabourVariance)[],
): LabourVariance {
  const parts = { hours: 0, crew: 0, rate: 0 };
  let reached = planned;
  for (const factor of order) {
    const next = { ...reached, [factor]: actual[factor] };
    parts[factor] = labourCost(next) - labourCost(reached);
    reached = next;
  }
  return parts;
}

/** Splits a difference of labour cost by changing hours, then crew, then rate: the order decides who bears the joint part. */
export function labourVarianceInOrder(planned: LabourFactors, actual: LabourFactors): LabourVariance {
  return inOrder(planned, actual, FACTORS);
}

const ORDERS = FACTORS.flatMap((first) =>
  FACTORS.filter((second) => second !== first).map((second) => [
    first,
    second,
    ...FACTORS.filter((third) => third !== first && third !== second),
  ]),
);

/** The same averaged over all six orders, so that none matters. @source L. Shapley 1953, from memory */
export function labourVariance(planned: LabourFactors, actual: LabourFactors): LabourVariance {
  const parts = ORDERS.map((order) => inOrder(planned, actual, order));
  const mean = (factor: keyof LabourVariance): number =>
    parts.reduce((sum, part) => sum + part[factor], 0) / parts.length;
  return { hours: mean('hours'), crew: mean('crew'), rate: mean('rate') };
}
