import type { Quote } from '@brimline/costing';
import type { Assumption, Caution, Estimate, Manner, PhaseKind } from '@brimline/estimating';
import type { Scope } from '@brimline/firm';
import type { ObjectiveVector, Passage } from '@brimline/scheduling';

/**
 * The whole answer for a week: what `plan.json` holds, what the workbooks, the API and the pages show.
 * Instants are ISO 8601 in UTC.
 */
export interface WeekPlan {
  readonly firm: { readonly name: string; readonly notice: string };
  readonly planFrom: string;
  readonly planDays: number;
  /** Instant from which the scheduler's minutes count. */
  readonly epoch: string;
  readonly engineVersion: string;
  readonly seed: number;
  readonly people: readonly {
    readonly id: string;
    readonly name: string;
    readonly grade: string;
    readonly timeZone: string;
  }[];
  readonly gear: readonly { readonly id: string; readonly kind: string; readonly description: string }[];
  readonly cylinders: readonly {
    readonly id: string;
    readonly waterCapacity_kg: number;
    readonly ports: 1 | 2;
  }[];
  readonly jobs: readonly PlannedJob[];
  readonly refused: readonly Refusal[];
  readonly schedule: ScheduleFacts;
  readonly passages: readonly PlannedPassage[];
}

export interface PlannedJob {
  readonly id: string;
  readonly title: string;
  readonly scope: Scope;
  readonly refrigerant: string;
  readonly charge_kg: number;
  readonly site: { readonly id: string; readonly name: string; readonly timeZone: string };
  readonly chiller: { readonly id: string; readonly description: string };
  readonly due: string;
  readonly hours: JobHours;
  readonly price: { readonly currency: string; readonly minorUnits: number };
  readonly setup: Estimate['setup'];
  /** Cylinders booked for the job. */
  readonly cylinders: readonly string[];
  readonly cylindersHeld: { readonly start: string; readonly end: string } | null;
  readonly phases: readonly BookedPhase[];
  readonly cautions: readonly Caution[];
  readonly assumptions: readonly Assumption[];
  readonly estimate: Estimate;
  readonly quote: Quote;
}

export interface JobHours {
  readonly elapsed: number;
  readonly attended: number;
  readonly gear: number;
  readonly p50: number;
  readonly p80: number;
  readonly p90: number;
}

export interface BookedPhase {
  readonly id: string;
  readonly kind: PhaseKind;
  readonly title: string;
  readonly manner: Manner;
  readonly start: string;
  readonly end: string;
  /** Worked pieces when the phase pauses overnight. */
  readonly pieces: readonly { readonly start: string; readonly end: string }[];
  readonly attended_h: number;
  readonly people: readonly string[];
  readonly gear: readonly string[];
  readonly cylinders: readonly string[];
}

export interface Refusal {
  readonly id: string;
  readonly title: string;
  readonly reasons: readonly { readonly code: string; readonly path: string; readonly message: string }[];
}

export interface ScheduleFacts {
  readonly objective: ObjectiveVector;
  /** Instant before which no plan of these jobs can end. */
  readonly lowerBound: string;
  readonly end: string;
  readonly bound: string;
  readonly gap: number;
  readonly schedules: number;
}

export type PlannedPassage = Omit<Passage, 'start_min' | 'end_min'> & {
  readonly start: string;
  readonly end: string;
};
