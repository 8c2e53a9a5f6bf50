import type { RuleFacts } from '../rule-facts.ts';

export const APPLIANCE_USES = [
  'comfort cooling',
  'commercial refrigeration',
  'industrial process',
  'refrigerated transport',
  'other',
] as const;
export type ApplianceUse = (typeof APPLIANCE_USES)[number];

/** Yearly leak rate above which repair falls due. "Above" is strict: exactly the rate does not count. */
export const LEAK_RATES: RuleFacts & {
  readonly percentPerYear: Readonly<Record<ApplianceUse, number>>;
  readonly longestInterval_days: number;
} = {
  citation: '40 CFR 82.157(c)(2) and 84.106(c); method: 82.152 and 84.102, "leak rate"',
  trueOn: '2024-12-31',
  basis: 'read in part',
  notes: [
    'One method for all appliances of a site.',
    'Worked out at every addition, except right after retrofit or new installation, or a seasonal variance.',
    'Half or more of the capacity for a process makes it an industrial process appliance.',
    'Chillers that cool occupied space are comfort cooling.',
  ],
  percentPerYear: {
    'comfort cooling': 10,
    'commercial refrigeration': 20,
    'industrial process': 30,
    'refrigerated transport': 10,
    other: 10,
  },
  longestInterval_days: 365,
};

/** Loss in a calendar year at which the owner reports, and when. */
export const CHRONIC_LEAK: RuleFacts & { readonly percentOfCharge: number; readonly reportMonthDay: string } = {
  citation: '40 CFR 82.157(j) and 84.106(j)',
  trueOn: '2024-12-31',
  basis: 'read second hand',
  notes: ['125 % or more of the full charge lost in a calendar year: report by 1 March of the next.'],
  percentOfCharge: 125,
  reportMonthDay: '03-01',
};

/** Clocks that an exceedance starts. */
export const LEAK_REPAIR_CLOCKS: RuleFacts & {
  readonly repair_days: number;
  readonly repairWithShutdown_days: number;
  readonly followUp_days: number;
  readonly plan_days: number;
  readonly planCarriedOut_days: number;
  readonly largeCharge_lb: number;
} = {
  citation: '40 CFR 82.157(d) to (h) and 84.106(d) to (h)',
  trueOn: '2024-12-31',
  basis: 'from memory',
  notes: [
    '30 days from the addition that showed the rate was over; 120 where an industrial process must be shut down.',
    'The first verification test falls inside the same span, before refrigerant goes back in.',
    'A failed test: repair again inside the span, else a plan to retrofit or retire within 30 days, done within a year.',
  ],
  repair_days: 30,
  repairWithShutdown_days: 120,
  followUp_days: 10,
  plan_days: 30,
  planCarriedOut_days: 365,
  largeCharge_lb: 500,
};
