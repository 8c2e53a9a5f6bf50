import { type Calculation, numberField, optionalNumberField } from '@brimline/quantities';
import {
  lognormalFromPercentiles,
  lognormalMean,
  lognormalQuantile,
  threePointMoments,
} from './distributions.ts';

const number = (name: string, meaning: string) => ({ name, type: 'number', unit: '-', meaning }) as const;

export const calculations: readonly Calculation[] = [
  {
    name: 'three-point',
    title: 'Mean and spread of a three-point estimate',
    formula: 'mean = (low + lambda likely + high)/(lambda + 2); standard deviation = (high - low)/6',
    source: 'D. G. Malcolm et al., Operations Research 7 (1959) 646, from memory',
    fields: [
      number('low', 'low value, any unit'),
      number('likely', 'likely value'),
      number('high', 'high value'),
      { ...number('lambda', 'weight of the likely value, 4 unless given'), optional: true },
    ],
    results: [number('mean', 'mean'), number('standardDeviation', 'standard deviation')],
    example: { low: 5, likely: 8, high: 17, lambda: 4 },
    run: (input) => ({
      ...threePointMoments(
        {
          low: numberField(input, 'low'),
          likely: numberField(input, 'likely'),
          high: numberField(input, 'high'),
        },
        optionalNumberField(input, 'lambda', 4),
      ),
    }),
  },
  {
    name: 'lognormal',
    title: 'Lognormal duration from two percentiles',
    formula: 'sigma = ln(P90/P50)/1.2816; mean = P50 exp(sigma^2/2)',
    source: 'definition of the lognormal distribution',
    fields: [number('p50', 'median, any unit'), number('p90', '90th percentile')],
    results: [
      number('sigma', 'spread of the logarithm'),
      number('mean', 'mean'),
      number('p80', '80th percentile'),
    ],
    example: { p50: 10, p90: 18 },
    run: (input) => {
      const law = lognormalFromPercentiles(numberField(input, 'p50'), numberField(input, 'p90'));
      return { sigma: law.sigma, mean: lognormalMean(law), p80: lognormalQuantile(law, 0.8) };
    },
  },
];
