import type { LeakRecord, PressureReading } from './leak-record.ts';

export const SCOPES = [
  'recover and recharge',
  'top-up',
  'recover only',
  'recharge',
  'evacuate and recharge',
  'evacuate only',
] as const;
export type Scope = (typeof SCOPES)[number];

export type TransferMethod = 'direct' | 'push-pull';

/** Circuits of one machine are joined by a manifold, or hoses move from one to the next. */
export const CIRCUIT_ORDERS = ['together', 'one after the other'] as const;
export type CircuitOrder = (typeof CIRCUIT_ORDERS)[number];

/** What the office fixes about how the job is done; whatever is absent the estimator chooses. */
export interface SetupWishes {
  readonly method?: TransferMethod;
  readonly coresRemoved?: boolean;
  readonly coolerBypassed?: boolean;
  readonly machineIds?: readonly string[];
  readonly hoseSetId?: string;
  readonly pumpIds?: readonly string[];
  readonly vacuumHoseSetId?: string;
  /** Water capacity of the cylinders to use. */
  readonly cylinderCapacity_kg?: number;
  readonly circuitOrder?: CircuitOrder;
  /** Where liquid goes in. */
  readonly entry?: 'liquid line' | 'evaporator';
  /** Warm water through the barrels of a low-pressure machine while it is emptied. */
  readonly warmWater?: boolean;
}

/** What somebody has seen or measured on site; whatever is absent is assumed, and the estimate says so. */
export interface KnownFacts {
  readonly internalVolume_m3?: number;
  /** Refrigerant that is in the machine; the nameplate charge unless given. */
  readonly presentCharge_kg?: number;
  /** Share of the charge that stays as liquid in low spots, 0 to 0.3. */
  readonly trappedShare?: number;
  /** Way of the hose from the machine to the cylinders. */
  readonly hoseRun_m?: number;
  /** How far the cylinders stand above the machine's liquid; below is negative. */
  readonly lift_m?: number;
  /** Temperature round the machine on the day. */
  readonly ambient_K?: number;
}

export interface Job {
  readonly id: string;
  readonly title: string;
  readonly chillerId: string;
  readonly scope: Scope;
  /** Earliest start, site wall clock "yyyy-MM-ddTHH:mm". */
  readonly notBefore: string;
  /** Wanted end, site wall clock. */
  readonly due: string;
  /** Work by others while the machine is open. */
  readonly openWork_s: number;
  /** Refrigerant to add in a top-up; null otherwise, and where a reading or the records tell it. */
  readonly missing_kg: number | null;
  readonly evacuation: 'deep' | 'triple';
  readonly evacuationTarget_Pa: number;
  /** Water left in the system before evacuation; null where nobody knows. */
  readonly moisture_kg: number | null;
  readonly setup: SetupWishes;
  readonly notes: string;
  /** Absent: nothing but what the registers hold. */
  readonly known?: KnownFacts;
  /** Circuits that are worked on; absent: all of the machine. */
  readonly circuits?: number;
  /** Pressure and temperature of the machine at rest. */
  readonly idleReading?: PressureReading;
  readonly leakRecord?: LeakRecord;
  /** Oil heater on before start-up; absent: it stays on throughout. */
  readonly oilHeatUp_s?: number;
  /** Job on the same site whose crew is let in and unloaded already. */
  readonly sameVisitAs?: string;
}
