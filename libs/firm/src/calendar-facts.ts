export type Weekday = 'Mon' | 'Tue' | 'Wed' | 'Thu' | 'Fri' | 'Sat' | 'Sun';

/** A span that repeats each week on a local wall clock. `to` at or before `from` runs past midnight. */
export interface WeeklyWindow {
  readonly days: readonly Weekday[];
  /** "HH:mm" */
  readonly from: string;
  /** "HH:mm", or "24:00" */
  readonly to: string;
}

/** A single span on a local wall clock, "yyyy-MM-ddTHH:mm", half-open. */
export interface LocalSpan {
  readonly from: string;
  readonly to: string;
}
