import { instantOfLocal, localTextOf } from '@brimline/calendar';
import {
  type Calculation,
  type CalculationField,
  numberField,
  objectListField,
  optionalNumberField,
  textField,
} from '@brimline/quantities';
import { rulesField, RULES_ALLOWED, shiftsField } from './overtime-input.ts';
import { callOutHours, startAfterRest, tripAllowance, weightedWeekPay } from './pay-clauses.ts';
import { splitHours } from './split-hours.ts';

const number = (name: string, unit: string, meaning: string): CalculationField => ({
  name,
  type: 'number',
  unit,
  meaning,
});
const optional = (field: CalculationField): CalculationField => ({ ...field, optional: true });
const TIME_ZONE: CalculationField = {
  name: 'timeZone',
  type: 'string',
  unit: '-',
  meaning: 'IANA zone of the clock; UTC unless given',
  optional: true,
};
const zoneOf = (input: Readonly<Record<string, unknown>>): string =>
  input['timeZone'] === undefined ? 'UTC' : textField(input, 'timeZone');

export const payCalculations: readonly Calculation[] = [
  {
    name: 'overtime-split',
    title: 'Straight, overtime and double hours',
    formula: 'by day first, then straight hours beyond the week (Monday to Sunday); no hour twice',
    source: '29 U.S.C. 207; California Labor Code 510(a); Irish building-trade table of 1 October 2019',
    fields: [
      {
        name: 'shifts',
        type: 'list',
        unit: 'h',
        meaning: 'hours of days in a row from a Monday; or {date, hours}; or {start, end} on a wall clock',
      },
      {
        name: 'rules',
        type: 'object',
        unit: 'h',
        meaning: 'when an hour earns more',
        allowed: RULES_ALLOWED,
      },
      TIME_ZONE,
    ],
    results: [
      number('regular_h', 'h', 'straight hours'),
      number('overtime_h', 'h', 'hours above 1 and below 2 times'),
      number('doubleTime_h', 'h', 'hours at 2 times and above'),
      number('paid_h', 'h', 'hours weighted with their multiples'),
    ],
    example: { shifts: [9, 8, 8, 13, 8], rules: 'California' },
    run: (input) => ({ ...splitHours(shiftsField(input), rulesField(input), zoneOf(input)) }),
  },
  {
    name: 'call-out',
    title: 'Hours to pay for a call-out with a minimum',
    formula: 'max(worked, least) x multiple',
    source: 'call-out clauses of published building-trade agreements',
    fields: [
      number('worked_h', 'h', 'hours worked'),
      number('least_h', 'h', 'least hours paid, often 2 or 4'),
      number('multiplier', '-', 'multiple that applies'),
    ],
    results: [number('paid_h', 'h', 'hours at the straight rate')],
    example: { worked_h: 1.5, least_h: 4, multiplier: 2 },
    run: (input) => ({
      paid_h: callOutHours(
        numberField(input, 'worked_h'),
        numberField(input, 'least_h'),
        numberField(input, 'multiplier'),
      ),
    }),
  },
  {
    name: 'weighted-week-pay',
    title: 'Pay of a week worked at several rates',
    formula: 'sum(h r) + sum(h r)/sum(h) x (multiple - 1) x hours beyond the limit',
    source: '29 CFR 778.115, from memory',
    fields: [
      { name: 'parts', type: 'list', unit: '-', meaning: 'list of {hours, rate}' },
      number('weeklyAfter_h', 'h', 'hours after which the premium is due'),
      optional(number('multiplier', '-', 'multiple, 1.5 unless given')),
    ],
    results: [number('regularRate', '-', 'mean rate'), number('pay', '-', 'pay of the week')],
    example: {
      parts: [
        { hours: 30, rate: 40 },
        { hours: 20, rate: 30 },
      ],
      weeklyAfter_h: 40,
    },
    run: (input) => ({
      ...weightedWeekPay(
        objectListField(input, 'parts').map((part) => ({
          hours: numberField(part, 'hours'),
          rate: numberField(part, 'rate'),
        })),
        numberField(input, 'weeklyAfter_h'),
        optionalNumberField(input, 'multiplier', 1.5),
      ),
    }),
  },
  {
    name: 'daily-rest',
    title: 'Earliest start after a daily rest',
    formula: 'end + rest',
    source: 'Directive 2003/88/EC, article 3: 11 h',
    fields: [
      { name: 'end', type: 'string', unit: '-', meaning: 'end of work on a wall clock, yyyy-MM-ddTHH:mm' },
      optional(number('rest_h', 'h', 'rest, 11 unless given')),
      TIME_ZONE,
    ],
    results: [{ name: 'earliestStart', type: 'string', unit: '-', meaning: 'on the same clock' }],
    example: { end: '2026-11-02T22:30', rest_h: 11 },
    run: (input) => {
      const end = instantOfLocal(textField(input, 'end'), zoneOf(input));
      const start = startAfterRest(end, optionalNumberField(input, 'rest_h', 11));
      return { earliestStart: localTextOf(start, zoneOf(input)) };
    },
  },
  {
    name: 'trip-allowance',
    title: 'Lodging and meals of a trip',
    formula: 'lodging (days - 1) + meals (days between + share x first and last day)',
    source: '41 CFR 301-11.101 for the share of 75 %, from memory',
    fields: [
      number('days', 'd', 'travel days, 1 to 366'),
      number('lodging', '-', 'rate a night'),
      number('meals', '-', 'rate a day'),
      optional(number('edgeShare', '-', 'share on the first and last day, 0.75 unless given')),
    ],
    results: [number('allowance', '-', 'in the currency of the rates')],
    example: { days: 3, lodging: 110, meals: 68 },
    run: (input) => ({
      allowance: tripAllowance(
        numberField(input, 'days'),
        numberField(input, 'lodging'),
        numberField(input, 'meals'),
        optionalNumberField(input, 'edgeShare', 0.75),
      ),
    }),
  },
];
