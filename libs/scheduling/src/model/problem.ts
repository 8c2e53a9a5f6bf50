/**
 * What is to be scheduled. Times are whole minutes after the problem's epoch; spans are half-open, [start, end).
 * The engine knows activities and resources, not refrigerant or people: names and states are plain text.
 */
export interface SchedulingProblem {
  readonly horizon_min: number;
  readonly calendars: readonly Calendar[];
  readonly places: readonly string[];
  /** Travel time between places, by index in `places` [min]. */
  readonly travel_min: readonly (readonly number[])[];
  readonly units: readonly Unit[];
  readonly capacities: readonly Capacity[];
  readonly budgets: readonly Budget[];
  readonly activities: readonly Activity[];
  readonly lags: readonly Lag[];
  readonly holds: readonly Hold[];
}

/** Working time as sorted, disjoint spans. Daylight saving, holidays and windows are already resolved in it. */
export interface Calendar {
  readonly id: string;
  readonly open: readonly (readonly [from_min: number, to_min: number])[];
}

/** A named person, gear unit or cylinder: one user at a time. */
export interface Unit {
  readonly id: string;
  readonly kind: string;
  /** Null: available at all times. */
  readonly calendarId: string | null;
  /** Where it starts and, when it returns daily, sleeps. */
  readonly basePlace: string | null;
  /** A person goes back to base each working span: the first and last leg must fit inside the calendar span. */
  readonly returnsToBase: boolean;
  /** Skills with the last minute at which each is still valid; null when it does not expire. */
  readonly skills: readonly { readonly name: string; readonly validUntil_min: number | null }[];
  /** Clean-out when the state of two consecutive users differs; null when the unit needs none. */
  readonly cleanOut: { readonly minutes: number; readonly initialState: string | null } | null;
}

/** Identical units counted. */
export interface Capacity {
  readonly id: string;
  readonly amount: number;
}

/** An amount used up once for all by the modes that are chosen: refrigerant on hand, overtime hours. */
export interface Budget {
  readonly id: string;
  readonly amount: number;
}

export interface Activity {
  readonly id: string;
  readonly jobId: string;
  readonly place: string | null;
  /** Every calendar that binds the activity itself: site access, outage. All must be open. */
  readonly calendarIds: readonly string[];
  /** Work may stop when a calendar closes and go on when it opens again. */
  readonly breakable: boolean;
  readonly minimumPiece_min: number;
  readonly release_min: number;
  readonly deadline_min: number | null;
  readonly due_min: number | null;
  /** State that it leaves in units with a clean-out, e.g. a refrigerant. */
  readonly state: string | null;
  readonly modes: readonly Mode[];
  readonly pinned: Pin | null;
}

export interface Mode {
  readonly duration_min: number;
  readonly needs: readonly Need[];
  readonly amounts: readonly { readonly capacityId: string; readonly amount: number }[];
  readonly consumes: readonly { readonly budgetId: string; readonly amount: number }[];
}

/** `count` different units out of those eligible, each with every skill asked, valid at the activity's end. */
export interface Need {
  readonly name: string;
  readonly eligible: readonly string[];
  readonly count: number;
  readonly skills: readonly string[];
  /** Kept when a breakable activity pauses: gear stays on site, people go home. */
  readonly keptInBreaks: boolean;
}

export interface Pin {
  readonly start_min: number | null;
  readonly mode: number | null;
  readonly units: readonly string[];
}

/** Between an end of one activity and an end of another: minimum_min <= later - earlier <= maximum_min. */
export interface Lag {
  readonly from: string;
  readonly fromEnd: 'start' | 'end';
  readonly to: string;
  readonly toEnd: 'start' | 'end';
  readonly minimum_min: number | null;
  readonly maximum_min: number | null;
}

/** Units taken at the start of one activity and given back at the end of another: cylinders between phases. */
export interface Hold {
  readonly id: string;
  readonly jobId: string;
  readonly fromActivity: string;
  readonly toActivity: string;
  readonly eligible: readonly string[];
  readonly count: number;
  readonly state: string | null;
}
