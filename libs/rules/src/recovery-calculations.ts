import { booleanField, type Calculation, choiceField, objectListField } from '@brimline/quantities';
import { refrigerantField } from '@brimline/refrigerants';
import {
  choice,
  CITED_RESULTS,
  day,
  dayField,
  numberIfGiven,
  optional,
  positiveField,
  quantity,
  REFRIGERANT,
  text,
  yesOrNo,
} from './calculation-fields.ts';
import { certificateNeeded } from './certificate-needed.ts';
import { LEAKING_CHOICES, requiredRecoveryLevel } from './required-recovery-level.ts';

const JOBS = ['opening', 'oil change'] as const;
const REPAIRS = ['major', 'non-major'] as const;

const recoveryLevel: Calculation = {
  name: 'recovery-level',
  title: 'Pressure to recover to before opening',
  formula:
    'table by pressure class, charge and day the recovery machine was made; less for oil change, leaking part, minor repair',
  source: '40 CFR 82.156(a)',
  fields: [
    REFRIGERANT,
    quantity('charge_kg', 'kg', 'full charge of the appliance, or of the part isolated'),
    day('recoveryMachineMade', 'day the recovery machine (not the chiller) was made or imported'),
    optional(choice('job', JOBS, 'opening when absent')),
    optional(choice('repair', REPAIRS, 'major when absent')),
    optional(yesOrNo('evacuatedAfter', 'vacuum pump discharging to the air afterwards; true when absent')),
    optional(
      choice('leaking', LEAKING_CHOICES, 'which part is meant where a leak makes the level unattainable'),
    ),
    optional(quantity('atmosphere_Pa', 'Pa', 'barometric pressure, for limits written as gauge pressure')),
  ],
  results: [
    quantity('pressure_Pa', 'Pa', 'absolute'),
    text('text', 'as the rule writes it'),
    ...CITED_RESULTS,
  ],
  example: { refrigerant: 'R-134a', charge_kg: 400, recoveryMachineMade: '2015-01-01' },
  run: (input) => ({
    ...requiredRecoveryLevel({
      refrigerant: refrigerantField(input),
      charge_kg: positiveField(input, 'charge_kg'),
      recoveryMachineMade: dayField(input, 'recoveryMachineMade'),
      ...(input['job'] === undefined ? {} : { job: choiceField(input, 'job', JOBS) }),
      ...(input['repair'] === undefined ? {} : { repair: choiceField(input, 'repair', REPAIRS) }),
      ...(input['leaking'] === undefined ? {} : { leaking: choiceField(input, 'leaking', LEAKING_CHOICES) }),
      evacuatedAfter: booleanField(input, 'evacuatedAfter', true),
      ...numberIfGiven(input, 'atmosphere_Pa'),
    }),
  }),
};

const certificate: Calculation = {
  name: 'certificate',
  title: 'Technician certificate needed',
  formula: 'low pressure: type III; medium to very high: type II; universal covers all',
  source: '40 CFR 82.161',
  fields: [
    {
      name: 'appliances',
      type: 'list',
      unit: '-',
      meaning: 'appliances on the job, each an object with its refrigerant',
      allowed: '[{"refrigerant": "R-123"}, ...]',
    },
  ],
  results: [
    { name: 'anyOf', type: 'list', unit: '-', meaning: 'sets, any one of which is enough' },
    text('text', 'the same in words'),
    ...CITED_RESULTS,
  ],
  example: { appliances: [{ refrigerant: 'R-123' }, { refrigerant: 'R-134a' }] },
  run: (input) => ({
    ...certificateNeeded(objectListField(input, 'appliances').map((one) => refrigerantField(one))),
  }),
};

export const recoveryCalculations: readonly Calculation[] = [recoveryLevel, certificate];
