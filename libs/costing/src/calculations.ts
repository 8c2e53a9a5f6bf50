import { type Calculation, CalculationInputError, numberField, objectListField } from '@brimline/quantities';
import { markupFromMargin, priceFromMargin } from './margin.ts';
import { OVERTIME_RULES, type OvertimeRules, splitWeek } from './overtime-split.ts';

type Input = Readonly<Record<string, unknown>>;
const number = (name: string, unit: string, meaning: string) =>
  ({ name, type: 'number', unit, meaning }) as const;

function rulesField(input: Input): OvertimeRules {
  const rules = input['rules'];
  const named =
    typeof rules === 'string'
      ? (OVERTIME_RULES as Readonly<Record<string, OvertimeRules>>)[rules]
      : undefined;
  if (named) return named;
  if (typeof rules !== 'object' || rules === null || Array.isArray(rules)) {
    throw new CalculationInputError(
      'rules',
      rules,
      `an object or one of: ${Object.keys(OVERTIME_RULES).join(', ')}`,
    );
  }
  const limit = (field: keyof OvertimeRules): number | null => {
    const value = (rules as Input)[field];
    return value === undefined || value === null ? null : numberField(rules as Input, field);
  };
  return {
    dailyOvertimeAfter_h: limit('dailyOvertimeAfter_h'),
    dailyDoubleAfter_h: limit('dailyDoubleAfter_h'),
    weeklyOvertimeAfter_h: limit('weeklyOvertimeAfter_h'),
    seventhDayDoubleAfter_h: limit('seventhDayDoubleAfter_h'),
  };
}

/** A list of hours by day, or of objects with `hours`. */
function shiftsField(input: Input): { day: string; hours: number }[] {
  const shifts = input['shifts'];
  if (Array.isArray(shifts) && shifts.every((hours) => typeof hours === 'number' && Number.isFinite(hours))) {
    return (shifts as number[]).map((hours, index) => ({ day: String(index + 1), hours }));
  }
  return objectListField(input, 'shifts').map((shift, index) => ({
    day: String(index + 1),
    hours: numberField(shift, 'hours'),
  }));
}

export const calculations: readonly Calculation[] = [
  {
    name: 'overtime-split',
    title: 'Straight, overtime and double hours of a work week',
    formula: 'by day first, then straight hours beyond the week; no hour twice',
    source: '29 U.S.C. 207; California Labor Code 510(a)',
    fields: [
      { name: 'shifts', type: 'list', unit: 'h', meaning: 'hours of each day of one work week, in order' },
      {
        name: 'rules',
        type: 'object',
        unit: 'h',
        meaning:
          'dailyOvertimeAfter_h, dailyDoubleAfter_h, weeklyOvertimeAfter_h, seventhDayDoubleAfter_h; or a name',
        allowed: `an object, ${Object.keys(OVERTIME_RULES).join(', ')}`,
      },
    ],
    results: [
      number('regular_h', 'h', 'straight hours'),
      number('overtime_h', 'h', 'overtime hours'),
      number('doubleTime_h', 'h', 'double hours'),
    ],
    example: { shifts: [9, 8, 8, 13, 8], rules: 'California' },
    run: (input) => ({ ...splitWeek(shiftsField(input), rulesField(input)) }),
  },
  {
    name: 'margin-price',
    title: 'Price that keeps a margin',
    formula: 'price = cost/(1 - margin); markup = margin/(1 - margin)',
    source: 'definition of margin and markup',
    fields: [
      number('cost', '-', 'cost, any currency'),
      number('margin', '-', 'share of the price kept, 0 to 0.95'),
    ],
    results: [number('price', '-', 'price'), number('markup', '-', 'the markup that gives the same price')],
    example: { cost: 100, margin: 0.2 },
    run: (input) => ({
      price: priceFromMargin(numberField(input, 'cost'), numberField(input, 'margin')),
      markup: markupFromMargin(numberField(input, 'margin')),
    }),
  },
];
