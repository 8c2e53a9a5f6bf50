import type { RuleFacts } from '../rule-facts.ts';

export const STANDING_VACUUM_CRITERIA = ['piping', 'chiller tightness'] as const;
export type StandingVacuumCriterion = (typeof STANDING_VACUUM_CRITERIA)[number];

/** A closed-off vacuum holds when it stays within the limit for the whole span. */
export interface StandingVacuumRule extends RuleFacts {
  readonly span_h: number;
  /** Start no higher than this [micron]; null where the start is free. */
  readonly start_micron: number | null;
  /** End no higher than this [micron]; null where the rise counts. */
  readonly end_micron: number | null;
  /** Rise no more than this [inHg]; null where the end counts. */
  readonly rise_inHg: number | null;
}

export const STANDING_VACUUM: Readonly<Record<StandingVacuumCriterion, StandingVacuumRule>> = {
  piping: {
    citation: 'UFGS refrigerant piping section, evacuation test',
    trueOn: '2024-12-31',
    basis: 'read',
    notes: ['Ambient above 35 degF; one pump for each system.'],
    span_h: 1,
    start_micron: 300,
    end_micron: 500,
    rise_inHg: null,
  },
  'chiller tightness': {
    citation: 'operation manual of a centrifugal chiller: rise from 18 in Hg vacuum within 24 h',
    trueOn: '2024-12-31',
    basis: 'read second hand',
    notes: ["The maker's own figure goes first."],
    span_h: 24,
    start_micron: null,
    end_micron: null,
    rise_inHg: 0.05,
  },
};

/** Nitrogen in a low-pressure chiller, whose rupture disc opens at about 15 psig. */
export const LOW_PRESSURE_NITROGEN: RuleFacts & { readonly limit_psig: number; readonly usualDisc_psig: number } = {
  citation: 'EPA section 608 type III training material',
  trueOn: '2024-12-31',
  basis: 'read second hand',
  notes: ['Hot water or a controlled heater first; nitrogen only through a regulator with a relief valve.'],
  limit_psig: 10,
  usualDisc_psig: 15,
};

/** What a nitrogen hold is expected to gain when it warms. */
export const NITROGEN_HOLD: RuleFacts & {
  readonly rise_psi_degF: number;
  readonly ruleOfThumbFrom_psig: number;
  readonly hold_h: number;
  readonly mostAboveTestPressure: number;
} = {
  citation: 'UFGS refrigerant piping section, pneumatic test: 0.3 psi per degF',
  trueOn: '2024-12-31',
  basis: 'read',
  notes: [
    'The fixed figure fits near 150 psig; by the gas law it is 0.05 psi per degF at 10 psig and 0.59 at 300.',
    'Dry nitrogen; up to 5 % refrigerant by mass to find leaks; never oxygen or air.',
  ],
  rise_psi_degF: 0.3,
  ruleOfThumbFrom_psig: 100,
  hold_h: 24,
  mostAboveTestPressure: 1.25,
};
