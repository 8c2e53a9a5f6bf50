import type { RuleFacts } from '../rule-facts.ts';

export const CYLINDER_SPECIFICATIONS = ['DOT-3A', 'DOT-3AA', 'DOT-4B', 'DOT-4BA', 'DOT-4BW', 'DOT-39'] as const;
export type CylinderSpecification = (typeof CYLINDER_SPECIFICATIONS)[number];

/** Test of used cylinders: pressure as a multiple of service pressure, and periods in years. */
export const REQUALIFICATION: RuleFacts & {
  readonly testPressureRatio: Readonly<Record<Exclude<CylinderSpecification, 'DOT-39'>, number>>;
  readonly defaultPeriod_years: number;
  readonly recoveryPeriod_years: number;
  readonly longerPeriods_years: readonly number[];
} = {
  citation: '49 CFR 180.209 Table 1',
  trueOn: '2024-12-31',
  basis: 'read',
  notes: [
    'Longer periods need gas commercially free of corrosive parts (moisture below 55 ppm) and further conditions.',
    'Recovered refrigerant cannot be taken as dry: 5 years for recovery cylinders.',
    'Overdue: may not be filled; one filled before the date may stay in service until emptied (49 CFR 180.205(c), from memory).',
    'DOT-39 is single trip: never refilled, never requalified (49 CFR 178.65, from memory).',
  ],
  testPressureRatio: { 'DOT-3A': 5 / 3, 'DOT-3AA': 5 / 3, 'DOT-4B': 2, 'DOT-4BA': 2, 'DOT-4BW': 2 },
  defaultPeriod_years: 5,
  recoveryPeriod_years: 5,
  longerPeriods_years: [10, 12],
};
