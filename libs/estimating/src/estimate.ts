import type { CircuitOrder, GearKind, Scope, TransferMethod } from '@brimline/firm';
import type { Risk } from './risk-facts.ts';

/** Who must be there: hands on, within reach, or nobody. */
export type Manner = 'attended' | 'watched' | 'unattended';

export const PHASE_KINDS = [
  'arrive and lock out',
  'rig up',
  'warm up',
  'liquid recovery',
  'vapour recovery',
  'recovery hold',
  'nitrogen break',
  'open work',
  'nitrogen pressure test',
  'nitrogen hold',
  'nitrogen release',
  'evacuation set-up',
  'evacuation',
  'nitrogen sweep',
  'rise test',
  'prove water flow',
  'vapour pre-charge',
  'liquid recharge',
  'oil heat-up',
  'start-up check',
  'rig down and records',
] as const;
export type PhaseKind = (typeof PHASE_KINDS)[number];

/** Low, likely and high duration of one phase, about P5, mode and P95. Equal where the span is fixed. */
export interface Spread {
  readonly low_s: number;
  readonly likely_s: number;
  readonly high_s: number;
}

/** Why a number is what it is. */
export interface Reason {
  readonly label: string;
  readonly value: number;
  readonly unit: string;
  readonly formula: string;
  readonly inputs: readonly ReasonInput[];
  /** The piece that sets the pace, in words; null where nothing binds. */
  readonly limitedBy: string | null;
  readonly source: string;
}

export interface ReasonInput {
  readonly label: string;
  readonly value: number | string;
  readonly unit: string;
  readonly source: string;
}

/** A value nobody gave, with what it is good for. */
export interface Assumption {
  readonly id: string;
  readonly label: string;
  readonly value: number | string;
  readonly unit: string;
  readonly effect: string;
  readonly source: string;
  /** Where the value can be given, such as "known.internalVolume"; absent: nowhere. */
  readonly field?: string;
  /** How far off it may be and what that would do to the elapsed hours; absent: not worked out. */
  readonly range?: {
    readonly low: number | string;
    readonly high: number | string;
    readonly atLow_s: number;
    readonly atHigh_s: number;
  };
}

/** A phase may start so long after an end of an earlier one, and no later. */
export interface Dependency {
  readonly phaseId: string;
  readonly from: 'start' | 'end';
  readonly minimum_s: number;
  readonly maximum_s: number | null;
  readonly why: string;
}

export interface Caution {
  readonly code: string;
  readonly text: string;
  /** The phase in which it matters; null for the whole job. */
  readonly phaseId: string | null;
  readonly cause: string;
}

/** `count` units of a kind; any of those eligible is as good as the setup supposes, or better. */
export interface GearUse {
  readonly kind: GearKind;
  readonly count: number;
  readonly eligibleIds: readonly string[];
}

export interface PhaseEstimate {
  readonly id: string;
  readonly kind: PhaseKind;
  readonly title: string;
  readonly elapsed: Spread;
  /** The span that a plan books: the median of the phase's distribution. */
  readonly planned_s: number;
  readonly manner: Manner;
  /** Persons needed while it runs; 0 when it runs unattended. */
  readonly crew: number;
  /** How many of them must be certified for the refrigerant. */
  readonly certified: number;
  readonly needsLead: boolean;
  /** Certificates any one of which is enough, in words; null where nobody needs one. */
  readonly certificate: string | null;
  /** Person-time and gear-time of the planned span. */
  readonly attended_person_s: number;
  readonly gear_s: number;
  readonly gear: readonly GearUse[];
  /** May work stop at a shift's end and go on the next day? */
  readonly interruptible: boolean;
  /** Gap after the phase before it, in seconds; null: no upper limit. */
  readonly gapBefore: { readonly minimum_s: number; readonly maximum_s: number | null };
  /** What it waits for: the phase before it first, then others. */
  readonly after: readonly Dependency[];
  readonly reason: Reason;
}

/** Pounds moved through time, on the job's own working clock (no nights, no waiting). */
export interface ChargeCurve {
  readonly nameplate_kg: number;
  /** In the order in which they are filled. */
  readonly cylinders: readonly { readonly id: string; readonly limit_kg: number }[];
  readonly points: readonly ChargePoint[];
  readonly steps: readonly {
    readonly phaseId: string;
    readonly title: string;
    readonly manner: Manner;
    readonly from_s: number;
    readonly to_s: number;
  }[];
  readonly marks: readonly ChargeMark[];
  /** Saturation at the freezing point of the evaporator fluid; null where nothing can freeze. */
  readonly freezing: { readonly temperature_K: number; readonly pressure_Pa: number } | null;
}

export interface ChargePoint {
  readonly time_s: number;
  readonly chiller_kg: number;
  readonly transit_kg: number;
  /** One entry a cylinder, in the order of `cylinders`. */
  readonly cylinder_kg: readonly number[];
  /** Absolute pressure in the chiller. */
  readonly pressure_Pa: number;
  /** Saturation at that pressure; absent where no refrigerant is in the chiller. */
  readonly saturation_K?: number;
}

export interface ChargeMark {
  readonly time_s: number;
  readonly kind: 'cylinder swap' | 'not recovered' | 'from stock' | 'level reached';
  readonly text: string;
  readonly mass_kg: number | null;
}

export interface Setup {
  /** "none" where no refrigerant is moved. */
  readonly method: TransferMethod | 'none';
  readonly machineIds: readonly string[];
  readonly hoseSetId: string | null;
  readonly coresRemoved: boolean;
  readonly coolerBypassed: boolean;
  readonly waterFlowing: boolean;
  readonly entry: 'liquid line' | 'evaporator';
  readonly pumpIds: readonly string[];
  readonly vacuumHoseSetId: string | null;
  readonly circuitOrder: CircuitOrder;
  /** Water capacity of the cylinders that take what is recovered; null where nothing is. */
  readonly cylinderCapacity_kg: number | null;
  /** Temperature that warm water gives the machine while it is emptied; null: as it stands. */
  readonly warmedTo_K: number | null;
}

/** What one change of the chosen way would buy: less is negative. */
export interface WayChange {
  readonly what: string;
  readonly elapsed_s: number;
  readonly attended_person_s: number;
  /** At the wanted certainty; null without a rate card. */
  readonly cost_minor: number | null;
}

/** One way to do the job, beside the others. */
export interface SetupOutcome {
  readonly label: string;
  readonly setup: Setup;
  readonly liquidRecovery_s: number;
  readonly liquidRecharge_s: number;
  readonly elapsed_s: number;
  readonly attended_person_s: number;
  readonly gear_s: number;
  /** Of labour, gear, cylinders and refrigerant at the wanted certainty; null without a rate card. */
  readonly cost_minor: number | null;
  /** Against the chosen way, where it differs in one choice; null otherwise. */
  readonly change: WayChange | null;
  readonly limitedBy: string;
  readonly chosen: boolean;
  /** Empty when the way is allowed. */
  readonly forbidden: readonly string[];
}

export interface CylinderPlan {
  /** Least number by the fill limits, and the spare that policy adds. */
  readonly needed: number;
  readonly spare: number;
  readonly class_waterCapacity_kg: number;
  readonly fillLimit_kg: number;
  /** Cylinders that may serve, any `needed + spare` of them. */
  readonly eligibleIds: readonly string[];
  readonly chosenIds: readonly string[];
  /** What goes into each that is filled, in order. */
  readonly fills: readonly { readonly id: string; readonly limit_kg: number; readonly planned_kg: number }[];
  /** Change-overs while they are filled. */
  readonly swaps: number;
  /** Local day until which each is in test: they hold gas until it is charged back or sent off. */
  readonly neededUntil: string;
  readonly delivered: readonly { readonly id: string; readonly on: string }[];
  readonly passedOver: readonly { readonly why: string; readonly ids: readonly string[] }[];
  readonly reason: Reason;
}

/** New or reclaimed refrigerant that goes in beside what was recovered. */
export interface SupplyPlan {
  /** Stock cylinders to take along, fullest first. */
  readonly cylinderIds: readonly string[];
  /** What they give, less their heel. */
  readonly inStock_kg: number;
  readonly fromStock_kg: number;
  /** What the stock can't give and must be bought. */
  readonly toBuy_kg: number;
  /** True when any of them has one port: it is inverted for liquid and can't be pushed. */
  readonly onePort: boolean;
}

/** Where every kilogram goes; the left sides add up to the right. */
export interface RefrigerantAccount {
  readonly nameplate_kg: number;
  readonly before_kg: number;
  readonly recovered_kg: number;
  readonly leftAsVapour_kg: number;
  readonly heelInCylinders_kg: number;
  readonly fromStock_kg: number;
  readonly after_kg: number;
}

/** Why new refrigerant is needed; the parts add up to `fromStock_kg` of the account where nothing is left over. */
export interface Shortage {
  /** Short of the nameplate charge when the crew arrives. */
  readonly before_kg: number;
  readonly lostAsVapour_kg: number;
  readonly heelInCylinders_kg: number;
  readonly toBring_kg: number;
  /** Part of it that the stock can't give. */
  readonly toBuy_kg: number;
  /** Recovered beyond what the nameplate takes back: it stays in its cylinder, and is never charged. */
  readonly surplus_kg: number;
}

/** How much is missing, how that is known, and what adding it says of the leak. */
export interface TopUpFacts {
  readonly missing_kg: number;
  readonly basis: 'given' | 'pressure and temperature' | 'records';
  readonly percentPerYear: number;
  readonly threshold: number;
  readonly exceeded: boolean;
  /** Most that may be added before the rate is over; the rate counts from the last addition. */
  readonly withinRate_kg: number;
  readonly rule: string;
  readonly reason: Reason;
}

/** Work beside the site's clock: it is neither booked nor priced here. */
export interface OfficeTask {
  readonly label: string;
  readonly when: 'before' | 'after';
  readonly crew: number;
  readonly elapsed: Spread;
  readonly source: string;
}

export interface Percentiles {
  readonly p50_s: number;
  readonly p80_s: number;
  readonly p90_s: number;
}

export interface Estimate {
  readonly jobId: string;
  readonly engineVersion: string;
  readonly seed: number;
  readonly samples: number;
  readonly scope: Scope;
  readonly refrigerant: string;
  readonly setup: Setup;
  readonly ways: readonly SetupOutcome[];
  readonly phases: readonly PhaseEstimate[];
  readonly curve: ChargeCurve;
  readonly cylinders: CylinderPlan | null;
  readonly supply: SupplyPlan | null;
  readonly account: RefrigerantAccount;
  readonly shortage: Shortage;
  /** Likely spans added up along the work plan. */
  readonly elapsed_s: number;
  readonly attended_person_s: number;
  readonly gear_s: number;
  /** Percentiles of elapsed working time, sampled from the phases' distributions. */
  readonly elapsed: Percentiles;
  readonly attended: Percentiles;
  readonly risk: Risk;
  readonly topUp: TopUpFacts | null;
  readonly officeTasks: readonly OfficeTask[];
  readonly cautions: readonly Caution[];
  readonly assumptions: readonly Assumption[];
  readonly reasons: readonly Reason[];
  /** Consumables that the engines computed. */
  readonly nitrogenCylinders: number;
  readonly filterDriers: number;
  readonly oilChanges: number;
}

/** Why a job can't be estimated as asked. */
export interface EstimateProblem {
  readonly code: string;
  /** Where in the job or the registers the cause lies. */
  readonly path: string;
  readonly message: string;
}
