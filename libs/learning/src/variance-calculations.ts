import { type Calculation, type CalculationField, numberField } from '@brimline/quantities';
import { earnedValue } from './earned-value.ts';
import {
  labourVariance,
  labourVarianceInOrder,
  processTimeVariance,
  rateQuantityVariance,
} from './variance.ts';

const number = (name: string, meaning: string, unit = '-'): CalculationField => ({
  name,
  type: 'number',
  unit,
  meaning,
});

const LABOUR_FIELDS = [
  number('plannedHours', 'planned hours', 'h'),
  number('plannedCrew', 'planned persons'),
  number('plannedRate', 'planned rate an hour'),
  number('actualHours', 'actual hours', 'h'),
  number('actualCrew', 'actual persons'),
  number('actualRate', 'actual rate an hour'),
];

export const varianceCalculations: readonly Calculation[] = [
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
    name: 'process-time-variance',
    title: 'Why a process took another time: quantity and rate',
    formula: 'quantity: (Qa - Qp)/Rp; rate: Qa (1/Ra - 1/Rp)',
    source: 'common practice, no source',
    fields: [
      number('plannedQuantity', 'planned quantity'),
      number('actualQuantity', 'actual quantity'),
      number('plannedRate', 'planned quantity in one unit of time'),
      number('actualRate', 'actual quantity in one unit of time'),
    ],
    results: [number('byQuantity', 'time, above 0 is longer'), number('byRate', 'time, above 0 is longer')],
    example: { plannedQuantity: 1000, actualQuantity: 1100, plannedRate: 2, actualRate: 1.6 },
    run: (input) => ({
      ...processTimeVariance({
        plannedQuantity: numberField(input, 'plannedQuantity'),
        actualQuantity: numberField(input, 'actualQuantity'),
        plannedRate: numberField(input, 'plannedRate'),
        actualRate: numberField(input, 'actualRate'),
      }),
    }),
  },
  {
    name: 'labour-variance',
    title: 'Why a labour cost differs: hours, crew and rate',
    formula: 'cost = hours x crew x rate; one factor after another, and averaged over all six orders',
    source: 'L. Shapley 1953, from memory',
    fields: LABOUR_FIELDS,
    results: ['hours', 'crew', 'rate'].flatMap((factor) => [
      number(factor, 'averaged over all orders; above 0 is unfavourable'),
      number(`${factor}InOrder`, 'hours first, then crew, then rate'),
    ]),
    example: {
      plannedHours: 10,
      plannedCrew: 2,
      plannedRate: 60,
      actualHours: 12,
      actualCrew: 3,
      actualRate: 66,
    },
    run: (input) => {
      const factors = (when: 'planned' | 'actual') => ({
        hours: numberField(input, `${when}Hours`),
        crew: numberField(input, `${when}Crew`),
        rate: numberField(input, `${when}Rate`),
      });
      const mean = labourVariance(factors('planned'), factors('actual'));
      const ordered = labourVarianceInOrder(factors('planned'), factors('actual'));
      return {
        hours: mean.hours,
        hoursInOrder: ordered.hours,
        crew: mean.crew,
        crewInOrder: ordered.crew,
        rate: mean.rate,
        rateInOrder: ordered.rate,
      };
    },
  },
  {
    name: 'earned-value',
    title: 'Where a job stands against its plan',
    formula: 'CV = EV - AC; SV = EV - PV; CPI = EV/AC; SPI = EV/PV; EAC = BAC/CPI or AC + BAC - EV',
    source: 'earned value management; formulas as in public worked examples',
    fields: [
      number('planned', 'planned value of the work due by now, PV'),
      number('earned', 'planned value of the work done by now, EV'),
      number('actual', 'actual cost, AC'),
      number('budget', 'planned cost of the whole, BAC'),
    ],
    results: [
      number('costVariance', 'CV, below 0 is unfavourable'),
      number('scheduleVariance', 'SV, below 0 is unfavourable'),
      number('costIndex', 'CPI'),
      number('scheduleIndex', 'SPI'),
      number('forecastAtTrend', 'EAC if it goes on so'),
      number('forecastOneOff', 'EAC if the difference comes once'),
      number('indexToBudget', 'TCPI; null when the budget is spent'),
    ],
    example: { planned: 3000, earned: 2000, actual: 2500, budget: 4000 },
    run: (input) => ({
      ...earnedValue({
        planned: numberField(input, 'planned'),
        earned: numberField(input, 'earned'),
        actual: numberField(input, 'actual'),
        budget: numberField(input, 'budget'),
      }),
    }),
  },
];
