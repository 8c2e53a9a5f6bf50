import { type Calculation, CalculationInputError, choiceField, textField } from '@brimline/quantities';
import { refrigerantField } from '@brimline/refrigerants';
import {
  choice,
  CITED_RESULTS,
  notNegativeField,
  numberIfGiven,
  optional,
  positiveField,
  quantity,
  REFRIGERANT,
  text,
  yesOrNo,
} from './calculation-fields.ts';
import { isDay } from './calendar-day.ts';
import { cylinderFillLimit, FILL_RULES } from './cylinder-fill-limit.ts';
import { cylinderPressureAllowed } from './cylinder-pressure-allowed.ts';
import { requalification } from './requalification.ts';

const SERVICES = ['recovered', 'new'] as const;

const cylinderFill: Calculation = {
  name: 'cylinder-fill',
  title: 'Most refrigerant that a cylinder may hold',
  formula:
    'guideline: 0.80 WC SG(77 degF); law: filling density x WC, or liquid density at 131 degF x volume; the tighter decides',
  source: 'AHRI Guideline K; 49 CFR 173.304a(a)(2) Table 1; 49 CFR 173.304(b)',
  fields: [
    REFRIGERANT,
    quantity('waterCapacity_kg', 'kg', 'mass of water the cylinder holds, from its collar'),
    quantity('tare_kg', 'kg', 'empty mass, from its collar'),
    optional(choice('rule', FILL_RULES, 'rule to go by; tighter when absent')),
    optional(quantity('stampedNet_kg', 'kg', 'limit on the stamp or label, if any')),
  ],
  results: [
    quantity('net_kg', 'kg', 'refrigerant'),
    quantity('gross_kg', 'kg', 'reading of the scale'),
    text('rule', 'which rule decided'),
    ...CITED_RESULTS,
  ],
  example: { refrigerant: 'R-134a', waterCapacity_kg: 21.64, tare_kg: 12.7, rule: 'tighter' },
  run: (input) => ({
    ...cylinderFillLimit({
      refrigerant: refrigerantField(input),
      waterCapacity_kg: positiveField(input, 'waterCapacity_kg'),
      tare_kg: notNegativeField(input, 'tare_kg'),
      ...(input['rule'] === undefined ? {} : { rule: choiceField(input, 'rule', FILL_RULES) }),
      ...numberIfGiven(input, 'stampedNet_kg'),
    }),
  }),
};

const cylinderPressure: Calculation = {
  name: 'cylinder-pressure',
  title: 'May the cylinder hold this refrigerant?',
  formula: 'gauge pressure at 131 degF <= 5/4 x service pressure; R-12 and R-22 by their table marking',
  source: '49 CFR 173.301a, 173.304a',
  fields: [REFRIGERANT, quantity('servicePressure_Pa_gauge', 'Pa gauge', 'service pressure on the collar')],
  results: [
    yesOrNo('allowed', 'may be used'),
    quantity('pressureAt131F_Pa_gauge', 'Pa gauge', 'pressure of the refrigerant at 131 degF'),
    quantity('minimumService_Pa_gauge', 'Pa gauge', 'least service pressure'),
    ...CITED_RESULTS,
  ],
  example: { refrigerant: 'R-410A', servicePressure_Pa_gauge: 2757903 },
  run: (input) => ({
    ...cylinderPressureAllowed({
      refrigerant: refrigerantField(input),
      servicePressure_Pa_gauge: positiveField(input, 'servicePressure_Pa_gauge'),
    }),
  }),
};

function monthField(input: Readonly<Record<string, unknown>>, field: string): string {
  const value = textField(input, field);
  if (!isDay(value) && !isDay(`${value}-01`)) {
    throw new CalculationInputError(field, value, 'a month, yyyy-MM');
  }
  return value;
}

const requalificationDue: Calculation = {
  name: 'requalification',
  title: "When a cylinder's next test is due",
  formula: 'month of the last test + 5 years; 10 or 12 for new gas where the conditions allow',
  source: '49 CFR 180.209 Table 1',
  fields: [
    {
      name: 'lastRequalified',
      type: 'date',
      unit: '-',
      meaning: 'month of the last test',
      allowed: 'yyyy-MM',
    },
    choice('service', SERVICES, 'recovered refrigerant or new gas'),
    optional({ ...quantity('period_years', 'a', 'period for new gas'), allowed: '5, 10, 12' }),
  ],
  results: [
    { name: 'due', type: 'date', unit: '-', meaning: 'month in which the test is due' },
    { name: 'lastFillDay', type: 'date', unit: '-', meaning: 'last day on which it may be filled' },
    quantity('period_years', 'a', 'period used'),
    ...CITED_RESULTS,
  ],
  example: { lastRequalified: '2021-06', service: 'recovered' },
  run: (input) => ({
    ...requalification({
      lastRequalified: monthField(input, 'lastRequalified'),
      service: choiceField(input, 'service', SERVICES),
      ...numberIfGiven(input, 'period_years'),
    }),
  }),
};

export const cylinderCalculations: readonly Calculation[] = [
  cylinderFill,
  cylinderPressure,
  requalificationDue,
];
