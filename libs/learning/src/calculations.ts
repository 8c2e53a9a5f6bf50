import { type Calculation, CalculationInputError, numberField } from '@brimline/quantities';
import { shrunkMean } from './shrinkage.ts';
import { rateQuantityVariance } from './variance.ts';

type Input = Readonly<Record<string, unknown>>;
const number = (name: string, meaning: string) => ({ name, type: 'number', unit: '-', meaning }) as const;

function numbersField(input: Input, field: string): number[] {
  const value = input[field];
  if (!Array.isArray(value) || !value.every((one) => typeof one === 'number' && Number.isFinite(one))) {
    throw new CalculationInputError(field, value, 'a list of finite numbers');
  }
  return value as number[];
}

export const calculations: readonly Calculation[] = [
  {
    name: 'rate-quantity-variance',
    title: 'Why a cost differs: rate and quantity',
    formula: 'rate: (AR - SR) AQ; quantity: (AQ - SQ) SR',
    source: 'standard costing, e.g. Managerial Accounting 8.3 (open textbook)',
    fields: [
      number('standardRate', 'planned rate or price'),
      number('actualRate', 'actual rate or price'),
      number('standardQuantity', 'planned quantity for the actual output'),
      number('actualQuantity', 'actual quantity'),
    ],
    results: [
      number('rateVariance', 'above 0 is unfavourable'),
      number('quantityVariance', 'above 0 is unfavourable'),
    ],
    example: { standardRate: 10, actualRate: 10.3, standardQuantity: 18000, actualQuantity: 18400 },
    run: (input) => ({
      ...rateQuantityVariance({
        standardRate: numberField(input, 'standardRate'),
        actualRate: numberField(input, 'actualRate'),
        standardQuantity: numberField(input, 'standardQuantity'),
        actualQuantity: numberField(input, 'actualQuantity'),
      }),
    }),
  },
  {
    name: 'shrinkage',
    title: 'A rate from few jobs, pulled towards what was known',
    formula: 'mean = (k m0 + sum x)/(k + n); weight = n/(n + k)',
    source: 'credibility (H. Buehlmann 1967, from memory)',
    fields: [
      number('priorMean', 'mean known before'),
      number('priorWeight', 'observations that it counts for'),
      { name: 'observations', type: 'list', unit: '-', meaning: 'values seen' },
    ],
    results: [number('mean', 'shrunk mean'), number('weight', 'share of the observations')],
    example: { priorMean: 1.9, priorWeight: 1, observations: [1.64, 1.7, 1.72] },
    run: (input) => ({
      ...shrunkMean(
        numberField(input, 'priorMean'),
        numberField(input, 'priorWeight'),
        numbersField(input, 'observations'),
      ),
    }),
  },
];
