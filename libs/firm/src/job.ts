export const SCOPES = [
  'recover and recharge',
  'top-up',
  'recover only',
  'recharge',
  'evacuate and recharge',
] as const;
export type Scope = (typeof SCOPES)[number];

export type TransferMethod = 'direct' | 'push-pull';

/** What the office fixes about how the job is done; whatever is absent the estimator chooses. */
export interface SetupWishes {
  readonly method?: TransferMethod;
  readonly coresRemoved?: boolean;
  readonly coolerBypassed?: boolean;
  readonly machineIds?: readonly string[];
  readonly hoseSetId?: string;
  readonly pumpIds?: readonly string[];
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
  /** Refrigerant to add in a top-up; null otherwise. */
  readonly missing_kg: number | null;
  readonly evacuation: 'deep' | 'triple';
  readonly evacuationTarget_Pa: number;
  /** Water left in the system before evacuation; null where nobody knows. */
  readonly moisture_kg: number | null;
  readonly setup: SetupWishes;
  readonly notes: string;
}
