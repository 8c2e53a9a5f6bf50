import { type Calculation, type CalculationField, numberField } from '@brimline/quantities';
import { loadedHour, marginOf, markupFromMargin, priceFromMargin } from './margin.ts';
import { quantityAdjustment } from './quantity-clause.ts';

const number = (name: string, meaning: string, unit = '-'): CalculationField => ({
  name,
  type: 'number',
  unit,
  meaning,
});

export const priceCalculations: readonly Calculation[] = [
  {
    name: 'margin-price',
    title: 'Price that keeps a margin',
    formula: 'price = cost/(1 - margin); markup = margin/(1 - margin)',
    source: 'definition of margin and markup',
    fields: [number('cost', 'cost, any currency'), number('margin', 'share of the price kept, 0 to 0.95')],
    results: [number('price', 'price'), number('markup', 'the markup that gives the same price')],
    example: { cost: 100, margin: 0.2 },
    run: (input) => ({
      price: priceFromMargin(numberField(input, 'cost'), numberField(input, 'margin')),
      markup: markupFromMargin(numberField(input, 'margin')),
    }),
  },
  {
    name: 'margin-left',
    title: 'Margin left after a discount',
    formula: 'margin = 1 - cost/(price (1 - discount))',
    source: 'definition of margin',
    fields: [
      number('cost', 'cost, any currency'),
      number('price', 'price before the discount'),
      number('discount', 'share of the price given away, below 1'),
    ],
    results: [number('margin', 'share of the reduced price that is kept')],
    example: { cost: 10000, price: 12500, discount: 0.05 },
    run: (input) => ({
      margin: marginOf(
        numberField(input, 'cost'),
        numberField(input, 'price') * (1 - numberField(input, 'discount')),
      ),
    }),
  },
  {
    name: 'loaded-hour',
    title: 'Cost of an hour that can be billed',
    formula: 'wage (1 + burden)/utilisation',
    source: 'common practice, no source',
    fields: [
      number('wage', 'wage an hour'),
      number('burden', 'share added for taxes, insurance and benefits'),
      number('utilisation', 'share of paid hours that is billed, 0.05 to 1'),
    ],
    results: [number('cost', 'cost of a billed hour')],
    example: { wage: 35, burden: 0.35, utilisation: 0.75 },
    run: (input) => ({
      cost: loadedHour(
        numberField(input, 'wage'),
        numberField(input, 'burden'),
        numberField(input, 'utilisation'),
      ),
    }),
  },
  {
    name: 'quantity-adjustment',
    title: 'Price change when the scale shows another mass than was quoted',
    formula: 'rate x (|actual - quoted| - deadband x quoted), where above 0, with the sign of the difference',
    source: 'common practice, no source',
    fields: [
      number('quoted', 'mass quoted, any unit'),
      number('actual', 'mass weighed, the same unit'),
      number('rate', 'price of one unit'),
      number('deadband', 'share of the quoted mass that changes nothing'),
    ],
    results: [number('adjustment', 'to add; below 0 to give back')],
    example: { quoted: 2000, actual: 2130, rate: 18, deadband: 0.02 },
    run: (input) => ({
      adjustment: quantityAdjustment({
        quoted: numberField(input, 'quoted'),
        actual: numberField(input, 'actual'),
        rate: numberField(input, 'rate'),
        deadband: numberField(input, 'deadband'),
      }),
    }),
  },
];
