/** What an appliance serves: the yearly leak rate that is allowed depends on it. */
export const SERVED_USES = [
  'comfort cooling',
  'commercial refrigeration',
  'industrial process',
  'refrigerated transport',
  'other',
] as const;
export type ServedUse = (typeof SERVED_USES)[number];

/** Refrigerant added to a machine in the time before; after each addition it was full. */
export interface LeakRecord {
  readonly use: ServedUse;
  /** Local days, earliest first. */
  readonly additions: readonly { readonly on: string; readonly added_kg: number }[];
}

export interface PressureReading {
  readonly pressure_Pa_gauge: number;
  readonly temperature_K: number;
}
