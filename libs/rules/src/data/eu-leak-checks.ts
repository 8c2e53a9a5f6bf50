import type { RuleFacts } from '../rule-facts.ts';

/** How often equipment in the Union is checked for leaks. */
export const EU_LEAK_CHECKS: RuleFacts & {
  readonly bands: readonly {
    readonly from_tCO2e: number;
    readonly from_kg: number;
    readonly interval_months: number;
    readonly withDetection_months: number;
  }[];
  readonly detectionObligatoryFrom_tCO2e: number;
  readonly detectionObligatoryFrom_kg: number;
  readonly hermeticBelow_tCO2e: number;
  readonly hermeticBelow_kg: number;
  /** Annex II section 1 refrigerants: counted by mass. */
  readonly byMass: readonly string[];
  /** Under the ozone regulation, or no fluorinated gas at all. */
  readonly notCovered: Readonly<Record<string, string>>;
} = {
  citation: 'Regulation (EU) 2024/573, Articles 5 to 7',
  trueOn: '2024-03-11',
  basis: 'from memory',
  notes: [
    'Thresholds by tCO2e agree with Regulation (EU) 517/2014 as read; GWP of the fourth assessment report.',
    'After a repair: checked again within a month. Records: 5 years. A detection system is itself checked every 12 months.',
  ],
  bands: [
    { from_tCO2e: 5, from_kg: 1, interval_months: 12, withDetection_months: 24 },
    { from_tCO2e: 50, from_kg: 10, interval_months: 6, withDetection_months: 12 },
    { from_tCO2e: 500, from_kg: 100, interval_months: 3, withDetection_months: 6 },
  ],
  detectionObligatoryFrom_tCO2e: 500,
  detectionObligatoryFrom_kg: 100,
  hermeticBelow_tCO2e: 10,
  hermeticBelow_kg: 2,
  byMass: ['R-1234yf', 'R-1234ze(E)', 'R-1233zd(E)', 'R-1336mzz(Z)', 'R-514A'],
  notCovered: {
    'R-11': 'ozone regulation (EU) 2024/590',
    'R-12': 'ozone regulation (EU) 2024/590',
    'R-22': 'ozone regulation (EU) 2024/590',
    'R-123': 'ozone regulation (EU) 2024/590',
    'R-124': 'ozone regulation (EU) 2024/590',
    'R-290': 'not a fluorinated gas',
  },
};
