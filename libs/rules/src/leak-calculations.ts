import { booleanField, type Calculation, choiceField, numberField } from '@brimline/quantities';
import { refrigerantField } from '@brimline/refrigerants';
import {
  choice,
  CITED_RESULTS,
  day,
  dayField,
  notNegativeField,
  optional,
  positiveField,
  quantity,
  REFRIGERANT,
  text,
  yesOrNo,
} from './calculation-fields.ts';
import { APPLIANCE_USES } from './data/leak-rates.ts';
import { euLeakCheck } from './eu-leak-check.ts';
import { LEAK_METHODS, leakHistoryField } from './leak-history.ts';
import { chronicLeak, leakRate } from './leak-rate.ts';
import { leakRepairDates } from './leak-repair-dates.ts';
import { leakDetectionDuty, leakRule } from './leak-rule.ts';

const USE = choice('use', APPLIANCE_USES, 'what the appliance is for');
const CHARGE = quantity('charge_kg', 'kg', 'full charge');

const rate: Calculation = {
  name: 'leak-rate',
  title: 'Leak rate of an appliance against the rate allowed',
  formula:
    'annualizing: added / charge / (min(days, 365) / 365) x 100; rolling: added in the last 365 days / charge x 100',
  source: '40 CFR 82.152, 82.157(c)(2), 84.102, 84.106(c)',
  fields: [
    choice('method', LEAK_METHODS, 'one method for all appliances of a site'),
    CHARGE,
    optional(quantity('added_kg', 'kg', 'last addition; rolling: all of the last 365 days')),
    optional(quantity('days', 'd', 'annualizing: days since the addition before')),
    optional({
      name: 'history',
      type: 'list',
      unit: '-',
      meaning: 'additions, instead of added_kg and days',
      allowed: '[{"daysAgo": 30, "added_kg": 10}, ...], or "date" in place of "daysAgo" with the field on',
    }),
    optional(day('on', 'day of the reckoning, for a history with dates')),
    optional({ ...USE, meaning: 'comfort cooling when absent' }),
  ],
  results: [
    quantity('percentPerYear', '% per year', 'leak rate'),
    quantity('threshold', '% per year', 'rate above which repair falls due'),
    yesOrNo('exceeded', 'strictly above the threshold'),
    ...CITED_RESULTS,
  ],
  example: { method: 'annualizing', charge_kg: 544.3, added_kg: 20.41, days: 90 },
  run: (input) => ({
    ...leakRate({
      charge_kg: positiveField(input, 'charge_kg'),
      use: input['use'] === undefined ? 'comfort cooling' : choiceField(input, 'use', APPLIANCE_USES),
      history: leakHistoryField(input),
    }),
  }),
};

const rule: Calculation = {
  name: 'leak-rule',
  title: 'Which leak-repair rule covers an appliance',
  formula:
    'ozone-depleting, 50 lb or more: 82.157; HFC or GWP above 53, 15 lb or more, from 2026: 84.106; else none',
  source: '40 CFR 82.157(a), 84.106(a), 84.108',
  fields: [
    REFRIGERANT,
    CHARGE,
    day('on', 'day asked about'),
    optional(yesOrNo('residentialOrLightCommercial', 'in the subsector that 84.106 leaves out')),
  ],
  results: [text('rule', '82.157, 84.106 or none'), ...CITED_RESULTS],
  example: { refrigerant: 'R-134a', charge_kg: 400, on: '2026-05-01' },
  run: (input) => ({
    ...leakRule({
      refrigerant: refrigerantField(input),
      charge_kg: positiveField(input, 'charge_kg'),
      on: dayField(input, 'on'),
      residentialOrLightCommercial: booleanField(input, 'residentialOrLightCommercial', false),
    }),
  }),
};

const detection: Calculation = {
  name: 'leak-detection',
  title: 'Must the appliance have automatic leak detection?',
  formula: 'commercial refrigeration or industrial process, 1500 lb or more, HFC or GWP above 53',
  source: '40 CFR 84.108',
  fields: [REFRIGERANT, CHARGE, USE, day('installedOn', 'day installed')],
  results: [
    yesOrNo('required', 'has to have it'),
    optional(day('by', 'day by which it runs; null when not required')),
    ...CITED_RESULTS,
  ],
  example: { refrigerant: 'R-134a', charge_kg: 1360, use: 'comfort cooling', installedOn: '2020-04-01' },
  run: (input) => ({
    ...leakDetectionDuty({
      refrigerant: refrigerantField(input),
      charge_kg: positiveField(input, 'charge_kg'),
      use: choiceField(input, 'use', APPLIANCE_USES),
      installedOn: dayField(input, 'installedOn'),
    }),
  }),
};

const repairDates: Calculation = {
  name: 'leak-repair-dates',
  title: 'What falls due after the leak rate was over',
  formula:
    'repair and first test 30 days (120 with process shutdown), follow-up 10 days, plan 30 days, done in a year',
  source: '40 CFR 82.157(d) to (h), 84.106(d) to (h)',
  fields: [
    day('exceededOn', 'day of the addition that showed it'),
    USE,
    CHARGE,
    optional(yesOrNo('shutdownNeeded', 'an industrial process must be shut down')),
    optional(day('followUpFrom', 'first test passed, or back in normal operation after an evacuation')),
  ],
  results: [
    day('repairBy', 'repaired and first test passed'),
    optional(day('followUpBy', 'follow-up test; null until the first is passed')),
    day('planBy', 'if the repair fails: plan to retrofit or retire'),
    day('planCarriedOutBy', 'that plan done'),
    text('inspections', 'leak inspections from then on'),
    ...CITED_RESULTS,
  ],
  example: { exceededOn: '2026-03-10', use: 'comfort cooling', charge_kg: 544.3 },
  run: (input) => ({
    ...leakRepairDates({
      exceededOn: dayField(input, 'exceededOn'),
      use: choiceField(input, 'use', APPLIANCE_USES),
      charge_kg: positiveField(input, 'charge_kg'),
      shutdownNeeded: booleanField(input, 'shutdownNeeded', false),
      ...(input['followUpFrom'] === undefined ? {} : { followUpFrom: dayField(input, 'followUpFrom') }),
    }),
  }),
};

const chronic: Calculation = {
  name: 'chronic-leak',
  title: 'Must the appliance be reported as a chronic leaker?',
  formula: 'lost in the calendar year / full charge >= 125 %',
  source: '40 CFR 82.157(j), 84.106(j)',
  fields: [
    quantity('lost_kg', 'kg', 'lost in the calendar year'),
    CHARGE,
    quantity('year', 'a', 'that year'),
  ],
  results: [
    quantity('percentOfCharge', '%', 'share lost'),
    yesOrNo('report', 'has to be reported'),
    optional(day('reportBy', 'by this day; null when nothing is due')),
    ...CITED_RESULTS,
  ],
  example: { lost_kg: 454, charge_kg: 363, year: 2026 },
  run: (input) => ({
    ...chronicLeak({
      lost_kg: notNegativeField(input, 'lost_kg'),
      charge_kg: positiveField(input, 'charge_kg'),
      year: numberField(input, 'year'),
    }),
  }),
};

const euCheck: Calculation = {
  name: 'eu-leak-check',
  title: 'Interval of leak checks in the European Union',
  formula: 'tCO2e = kg GWP / 1000 against 5, 50, 500; unsaturated gases by mass against 1, 10, 100 kg',
  source: 'Regulation (EU) 2024/573, Articles 5 to 7',
  fields: [
    REFRIGERANT,
    CHARGE,
    yesOrNo('leakDetection', 'detection system fitted; false when absent'),
    optional(yesOrNo('hermetic', 'hermetically sealed and labelled so')),
  ],
  results: [
    optional(quantity('interval_months', 'months', 'null where no check is asked for')),
    optional(quantity('tonnesCO2e', 't', 'null where mass counts')),
    yesOrNo('detectionObligatory', 'a detection system has to be fitted'),
    ...CITED_RESULTS,
  ],
  example: { refrigerant: 'R-134a', charge_kg: 250, leakDetection: false },
  run: (input) => ({
    ...euLeakCheck({
      refrigerant: refrigerantField(input),
      charge_kg: positiveField(input, 'charge_kg'),
      leakDetection: booleanField(input, 'leakDetection', false),
      hermetic: booleanField(input, 'hermetic', false),
    }),
  }),
};

export const leakCalculations: readonly Calculation[] = [
  rate,
  rule,
  detection,
  repairDates,
  chronic,
  euCheck,
];
