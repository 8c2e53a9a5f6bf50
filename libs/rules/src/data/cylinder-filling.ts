import type { RuleFacts } from '../rule-facts.ts';

/** Mass that 80 % of the volume holds as liquid at 77 degF. */
export const FILL_GUIDELINE: RuleFacts & { readonly share: number; readonly temperature_C: number } = {
  citation: 'AHRI Guideline K: 0.80 x water capacity x specific gravity at 77 degF',
  trueOn: '2024-12-31',
  basis: 'read second hand',
  notes: [
    'Covers cylinders to 400 psig service and ton tanks to 500 psig, non-flammable refrigerants only; voluntary.',
    'The stamp or label of the cylinder goes first. Fill by weight, weigh again after disconnecting.',
  ],
  share: 0.8,
  temperature_C: 25,
};

/** The rule on older labels: no density in it. */
export const OLDER_FILL_GUIDELINE: RuleFacts & { readonly share: number } = {
  citation: 'older Guideline K practice: 0.80 x water capacity',
  trueOn: '2004-01-01',
  basis: 'read second hand',
  notes: ['Below the present guideline where the specific gravity is above 1, above it where it is below 1.'],
  share: 0.8,
};

/** Gases with a filling density of their own, per cent of the water capacity by mass. */
export const FILLING_DENSITIES: RuleFacts & {
  readonly percentOfWaterCapacity: Readonly<Record<string, number>>;
} = {
  citation: '49 CFR 173.304a(a)(2) Table 1',
  trueOn: '2024-12-31',
  basis: 'read in part',
  notes: ['Water capacity is the mass of water held at 60 degF.'],
  percentOfWaterCapacity: {
    'R-12': 119,
    'R-13': 100,
    'R-13B1': 124,
    'R-22': 105,
    'R-115': 110,
    'R-142b': 100,
    'R-152a': 79,
    'R-1132a': 73,
    'R-717': 54,
    'R-744': 68,
    'R-764': 125,
  },
};

/** Every other refrigerant gas: liquid must not fill the cylinder at any temperature up to 131 degF. */
export const NOT_LIQUID_FULL: RuleFacts & {
  readonly temperature_C: number;
  readonly waterVolume_in3_lb: number;
} = {
  citation: '49 CFR 173.304(b): not liquid full up to 131 degF',
  trueOn: '2024-12-31',
  basis: 'read second hand',
  notes: ['The figure is the point at which liquid fills the cylinder: stay below it.'],
  temperature_C: 55,
  waterVolume_in3_lb: 27.737,
};

/** Pressure of the gas in the cylinder against its marking. */
export const CYLINDER_PRESSURES: RuleFacts & {
  readonly temperature_C: number;
  readonly shareOfService: number;
  /** Named gases: the least marking that the table admits, psig. */
  readonly leastMarking_psig: Readonly<Record<string, number>>;
} = {
  citation: '49 CFR 173.301a and 173.304a: pressure at 131 degF no more than 5/4 of the service pressure',
  trueOn: '2024-12-31',
  basis: 'read in part',
  notes: ['Gases with a row of their own in 173.304a Table 1 go by the marking named there.'],
  temperature_C: 55,
  shareOfService: 5 / 4,
  leastMarking_psig: { 'R-12': 225, 'R-22': 240 },
};
