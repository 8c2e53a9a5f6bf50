import type { Percentiles, PhaseEstimate, Spread } from './estimate.ts';

/** What several phases share: a hose that is slower than thought slows every phase that uses it. */
export const SHARED_CAUSES = [
  'gear rate',
  'ambient',
  'internal volume',
  'water in the system',
  'crew and site',
] as const;
export type SharedCause = (typeof SHARED_CAUSES)[number];

/** A test that may fail; each failure repeats phases. */
export interface TestLoop {
  readonly test: 'pressure test' | 'rise test';
  /** Of one failure; after each the test may fail again, three times at most. */
  readonly probability: number;
  readonly each: Spread;
  /** Person-time and gear-time for each second that it lasts. */
  readonly crew: number;
  readonly gearUnits: number;
  readonly gear: PhaseEstimate['gear'];
  readonly repeats: readonly string[];
  readonly source: string;
}

/** What makes the hours spread, as its share of the variance; shares of phases and tests add up to 1. */
export interface Driver {
  readonly label: string;
  readonly kind: 'phase' | 'repeated test';
  readonly elapsedShare: number;
  readonly attendedShare: number;
}

export interface CauseShare {
  readonly cause: SharedCause;
  /** Squared correlation with the elapsed hours. */
  readonly elapsedShare: number;
}

export interface CostPercentiles {
  readonly currency: string;
  readonly p50_minor: number;
  readonly p80_minor: number;
  readonly p90_minor: number;
  readonly mean_minor: number;
}

/** Percentiles of the whole job; they are drawn, never added up. */
export interface Risk {
  readonly distribution: string;
  readonly percentileRule: string;
  readonly seed: number;
  readonly samples: number;
  readonly elapsed: Percentiles;
  readonly attended: Percentiles;
  readonly gear: Percentiles;
  /** Of labour, gear, cylinders and refrigerant on the working clock; null without a rate card. */
  readonly cost: CostPercentiles | null;
  readonly mean_s: number;
  readonly drivers: readonly Driver[];
  readonly causes: readonly CauseShare[];
  readonly loops: readonly TestLoop[];
}
