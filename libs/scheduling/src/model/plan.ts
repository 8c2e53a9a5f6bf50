export interface Booking {
  readonly activityId: string;
  readonly jobId: string;
  readonly mode: number;
  readonly start_min: number;
  readonly end_min: number;
  /** The worked pieces; one piece unless the activity paused. */
  readonly pieces: readonly (readonly [from_min: number, to_min: number])[];
  readonly units: readonly { readonly need: string; readonly unitIds: readonly string[] }[];
}

export interface HeldUnits {
  readonly holdId: string;
  readonly jobId: string;
  readonly unitIds: readonly string[];
  readonly start_min: number;
  readonly end_min: number;
}

/** Time a unit spends between bookings: on the road or being cleaned. */
export interface Passage {
  readonly unitId: string;
  readonly kind: 'travel' | 'clean-out';
  readonly start_min: number;
  readonly end_min: number;
  readonly fromPlace: string | null;
  readonly toPlace: string | null;
}

/** What the plan costs, term by term; a single number hides why. */
export interface ObjectiveVector {
  readonly lateness_min: number;
  readonly unplacedJobs: number;
  readonly travel_min: number;
  readonly cleanOut_min: number;
  readonly held_min: number;
  readonly makespan_min: number;
}

export interface Plan {
  readonly bookings: readonly Booking[];
  readonly held: readonly HeldUnits[];
  readonly passages: readonly Passage[];
  readonly objective: ObjectiveVector;
  /** No plan of the placed jobs can end before this. */
  readonly lowerBound_min: number;
  readonly bound: string;
  /** (makespan - lower bound) / lower bound. */
  readonly gap: number;
  readonly schedules: number;
  readonly seed: number;
}

export interface PlacementReason {
  readonly code: string;
  readonly path: string;
  readonly message: string;
}

export interface UnplacedJob {
  readonly jobId: string;
  readonly reasons: readonly PlacementReason[];
}

export interface SolveResult {
  readonly plan: Plan;
  readonly unplaced: readonly UnplacedJob[];
}

export interface Progress {
  readonly schedules: number;
  readonly best: ObjectiveVector;
  readonly lowerBound_min: number;
}

export interface SolveOptions {
  readonly seed: number;
  /** Passes of the generation scheme, forward or backward: the budget that makes runs repeatable. */
  readonly schedules: number;
  readonly onProgress?: (progress: Progress) => void;
  /** Asked between schedules; true stops the search with the best plan so far. */
  readonly shouldStop?: () => boolean;
}
