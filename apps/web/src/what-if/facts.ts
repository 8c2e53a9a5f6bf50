import type { Dimension } from '@brimline/quantities';
import type { UnitSystem } from '../format/measures.ts';

/** Facts of a job that are typed as a number with its unit. */
export const FACT_NAMES = [
  'nameplateCharge',
  'internalVolume',
  'liquidPort',
  'vapourPort',
  'outdoorAir',
  'openWork',
  'missing',
  'moisture',
] as const;
export type FactName = (typeof FACT_NAMES)[number];

interface FactKind {
  readonly dimension: Dimension;
  readonly unit: Readonly<Record<UnitSystem, string>>;
  readonly digits: Readonly<Record<UnitSystem, number>>;
  /** May it be left empty, so that the engine assumes a value and says so? */
  readonly optional: boolean;
  /** Least SI value allowed; `above` leaves out the value itself. */
  readonly least: { readonly value_SI: number; readonly above: boolean };
}

const kind = (
  dimension: Dimension,
  us: readonly [string, number],
  si: readonly [string, number],
  optional = false,
  least = { value_SI: 0, above: true },
): FactKind => ({
  dimension,
  unit: { us: us[0], si: si[0] },
  digits: { us: us[1], si: si[1] },
  optional,
  least,
});

/** Units as people write them; the reader of typed text knows both. */
const WRITTEN: Readonly<Record<string, string>> = { degF: '°F', degC: '°C', ft3: 'ft³', m3: 'm³' };

/** A unit as it stands in a field. */
export const writtenUnit = (unit: string): string => WRITTEN[unit] ?? unit;

const FROM_ZERO = { value_SI: 0, above: false };

export const FACTS: Readonly<Record<FactName, FactKind>> = {
  nameplateCharge: kind('mass', ['lb', 0], ['kg', 1]),
  internalVolume: kind('volume', ['ft3', 1], ['m3', 3], true),
  liquidPort: kind('length', ['in', 3], ['mm', 1]),
  vapourPort: kind('length', ['in', 3], ['mm', 1]),
  outdoorAir: kind('temperature', ['degF', 0], ['degC', 1]),
  openWork: kind('time', ['h', 1], ['h', 1], false, FROM_ZERO),
  missing: kind('mass', ['lb', 0], ['kg', 1]),
  moisture: kind('mass', ['lb', 2], ['kg', 2], true, FROM_ZERO),
};
