import {
  type Calculation,
  type CalculationField,
  CalculationInputError,
  numberField,
} from '@brimline/quantities';
import { groupEstimates } from './groups.ts';
import { learnedRate, rateQuantile, timeQuantile } from './learned-rate.ts';
import { shrunkMean } from './shrinkage.ts';

type Input = Readonly<Record<string, unknown>>;
const number = (name: string, meaning: string): CalculationField => ({
  name,
  type: 'number',
  unit: '-',
  meaning,
});
const list = (name: string, meaning: string): CalculationField => ({
  name,
  type: 'list',
  unit: '-',
  meaning,
});

const isNumbers = (value: unknown): value is number[] =>
  Array.isArray(value) && value.every((one) => typeof one === 'number' && Number.isFinite(one));

function numbersField(input: Input, field: string): number[] {
  const value = input[field];
  if (!isNumbers(value)) throw new CalculationInputError(field, value, 'a list of finite numbers');
  return value;
}

function groupsField(input: Input, field: string): number[][] {
  const value = input[field];
  if (!Array.isArray(value) || !value.every(isNumbers))
    throw new CalculationInputError(field, value, 'a list of lists of finite numbers');
  return value;
}

export const rateCalculations: readonly Calculation[] = [
  {
    name: 'shrinkage',
    title: 'A rate from few jobs, pulled towards what was known',
    formula: 'mean = (k m0 + sum x)/(k + n); weight = n/(n + k)',
    source: 'credibility (H. Buehlmann 1967, from memory)',
    fields: [
      number('priorMean', 'mean known before'),
      number('priorWeight', 'observations that it counts for'),
      list('observations', 'values seen'),
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
  {
    name: 'group-shrinkage',
    title: 'Means of groups, pulled towards the mean of all',
    formula: 'v = mean variance within; a = variance of means - v/n; Z = n/(n + v/a)',
    source: 'non-parametric Buehlmann estimator, steps read on a public page',
    fields: [list('groups', 'lists of one length, two values or more each')],
    results: [
      number('varianceWithin', 'v'),
      number('varianceBetween', 'a, 0 where chance explains the difference'),
      number('weight', 'Z, share of own evidence'),
      list('means', 'shrunk mean of each group'),
    ],
    example: {
      groups: [
        [2.1, 1.9, 2.3],
        [1.4, 1.6, 1.5],
      ],
    },
    run: (input) => ({ ...groupEstimates(groupsField(input, 'groups')) }),
  },
  {
    name: 'learned-rate',
    title: 'A rate and the time it gives, learned from few jobs',
    formula: 'normal-gamma update of ln(rate); next job by Student t with 2a degrees of freedom',
    source: 'K. Murphy 2007, from memory',
    fields: [
      number('priorMedian', 'rate known before, any unit'),
      number('priorWeight', 'jobs that it counts for'),
      number('alpha', 'shape of the prior of 1/variance'),
      number('beta', 'rate of the prior of 1/variance'),
      list('observations', 'rates of jobs done, the same unit'),
      number('quantity', 'what the next job moves'),
    ],
    results: [
      number('median', 'learned rate'),
      number('weight', 'share of the observations'),
      number('slowRate', 'rate that one job in five stays below'),
      number('timeP50', 'quantity over the median'),
      number('timeP80', 'quantity over the slow rate'),
    ],
    example: {
      priorMedian: 1.8,
      priorWeight: 4,
      alpha: 3,
      beta: 0.18,
      observations: [1.3, 1.5, 1.2],
      quantity: 900,
    },
    run: (input) => {
      const rate = learnedRate(
        {
          median: numberField(input, 'priorMedian'),
          weight: numberField(input, 'priorWeight'),
          alpha: numberField(input, 'alpha'),
          beta: numberField(input, 'beta'),
        },
        numbersField(input, 'observations'),
      );
      const quantity = numberField(input, 'quantity');
      return {
        median: rate.median,
        weight: rate.weight,
        slowRate: rateQuantile(rate, 0.2),
        timeP50: timeQuantile(rate, quantity, 0.5),
        timeP80: timeQuantile(rate, quantity, 0.8),
      };
    },
  },
];
