import type { PressureClass } from '@brimline/refrigerants';
import type { RuleFacts } from '../rule-facts.ts';

/** A level as the rule writes it: inches of mercury below 29.9 inHg, or millimetres of mercury absolute. */
export type WrittenLevel =
  | { readonly vacuum_inHg: number }
  | { readonly absolute_mmHg: number };

interface LevelRow {
  readonly pressureClass: PressureClass;
  /** The row holds from this full charge [lb] up to the next row of the class. */
  readonly fromCharge_lb: number;
  readonly madeBefore: WrittenLevel;
  readonly madeOnOrAfter: WrittenLevel;
}

/** Levels to which an appliance is evacuated before it is opened or disposed of. */
export const RECOVERY_LEVELS: RuleFacts & {
  readonly referenceAtmosphere_inHg: number;
  readonly machineDate: string;
  readonly rows: readonly LevelRow[];
} = {
  citation: '40 CFR 82.156(a) Table 1',
  trueOn: '2024-12-31',
  basis: 'read',
  notes: [
    'The date is that on which the recovery machine was made or imported, not the chiller.',
    'The technician verifies the level before opening.',
    'These are recovery levels, not the dehydration vacuum before charging.',
  ],
  referenceAtmosphere_inHg: 29.9,
  machineDate: '1993-11-15',
  rows: [
    { pressureClass: 'very high', fromCharge_lb: 0, madeBefore: { vacuum_inHg: 0 }, madeOnOrAfter: { vacuum_inHg: 0 } },
    { pressureClass: 'high', fromCharge_lb: 0, madeBefore: { vacuum_inHg: 0 }, madeOnOrAfter: { vacuum_inHg: 0 } },
    { pressureClass: 'high', fromCharge_lb: 200, madeBefore: { vacuum_inHg: 4 }, madeOnOrAfter: { vacuum_inHg: 10 } },
    { pressureClass: 'medium', fromCharge_lb: 0, madeBefore: { vacuum_inHg: 4 }, madeOnOrAfter: { vacuum_inHg: 10 } },
    { pressureClass: 'medium', fromCharge_lb: 200, madeBefore: { vacuum_inHg: 4 }, madeOnOrAfter: { vacuum_inHg: 15 } },
    { pressureClass: 'low', fromCharge_lb: 0, madeBefore: { absolute_mmHg: 25 }, madeOnOrAfter: { absolute_mmHg: 25 } },
  ],
};

/** Where less than the table is asked for. Gauge pressures in psi. */
export const RECOVERY_EXCEPTIONS = {
  oilChange: {
    citation: '40 CFR 82.156(a)(1)(iii)',
    trueOn: '2024-12-31',
    basis: 'from memory',
    notes: ['Or drain the oil into a receiver that is then brought to the same pressure.'],
    limit_psig: 5,
  },
  leakingPart: {
    citation: '40 CFR 82.156(a)(2)',
    trueOn: '2024-12-31',
    basis: 'read second hand',
    notes: [
      'Isolate leaking from sound parts; the sound parts go to the table level.',
      'Evacuate the leaking part to the lowest level that can be reached without contaminating the refrigerant.',
    ],
    limit_psig: 0,
  },
  nonMajorRepair: {
    citation: '40 CFR 82.156(a)(1)(i)',
    trueOn: '2024-12-31',
    basis: 'read in part',
    notes: ['Holds only where no vacuum pump discharges to the air after the repair.'],
    limit_psig: 0,
  },
  nonMajorRepairLowPressure: {
    citation: '40 CFR 82.156(a)(1)(ii)',
    trueOn: '2024-12-31',
    basis: 'read in part',
    notes: [
      'Raise to no more than this pressure and cover openings that cannot be isolated.',
      'Refrigerant boiling at or below 85 degF: raise it by controlled heat or hot water, not by a gas that must be purged.',
    ],
    limit_psig: 0,
  },
} as const satisfies Record<string, RuleFacts & { readonly limit_psig: number }>;

/** Levels that a recovery machine itself must be able to reach; not what the appliance must reach. */
export const MACHINE_CAPABILITIES: RuleFacts & {
  readonly rows: readonly {
    readonly appliance: string;
    readonly madeBefore: WrittenLevel;
    readonly madeOnOrAfter: WrittenLevel;
  }[];
} = {
  citation: '40 CFR 82.158 Table 2',
  trueOn: '2024-12-31',
  basis: 'read',
  notes: ['Plan with Table 1 of 82.156: this table splits R-22 from other high-pressure refrigerants, that one does not.'],
  rows: [
    { appliance: 'R-22, below 200 lb', madeBefore: { vacuum_inHg: 0 }, madeOnOrAfter: { vacuum_inHg: 0 } },
    { appliance: 'R-22, 200 lb or more', madeBefore: { vacuum_inHg: 4 }, madeOnOrAfter: { vacuum_inHg: 10 } },
    { appliance: 'very high pressure', madeBefore: { vacuum_inHg: 0 }, madeOnOrAfter: { vacuum_inHg: 0 } },
    { appliance: 'other high pressure, below 200 lb', madeBefore: { vacuum_inHg: 4 }, madeOnOrAfter: { vacuum_inHg: 10 } },
    { appliance: 'other high pressure, 200 lb or more', madeBefore: { vacuum_inHg: 4 }, madeOnOrAfter: { vacuum_inHg: 15 } },
    { appliance: 'medium pressure, below 200 lb', madeBefore: { vacuum_inHg: 4 }, madeOnOrAfter: { vacuum_inHg: 10 } },
    { appliance: 'medium pressure, 200 lb or more', madeBefore: { vacuum_inHg: 4 }, madeOnOrAfter: { vacuum_inHg: 15 } },
    { appliance: 'low pressure', madeBefore: { absolute_mmHg: 25 }, madeOnOrAfter: { absolute_mmHg: 25 } },
  ],
};
