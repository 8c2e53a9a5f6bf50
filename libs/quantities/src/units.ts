/**
 * Units accepted at the edge, each with its exact or defined factor to SI.
 * value_SI = value * factor + offset.
 *
 * Factors: NIST SP 811 (2008), appendix B, from memory; inch, pound and foot are exact by definition;
 * 1 psi = 1 lbf/in2; inHg and mmHg are the conventional 0 degC values; micron = 0.001 mmHg by the torr (101325/760 Pa).
 */
export type Dimension =
  | 'mass'
  | 'length'
  | 'area'
  | 'volume'
  | 'temperature'
  | 'temperature difference'
  | 'absolute pressure'
  | 'gauge pressure'
  | 'time'
  | 'mass flow'
  | 'volume flow'
  | 'power'
  | 'heat conductance'
  | 'angle'
  | 'speed';

interface Unit {
  readonly factor: number;
  readonly offset?: number;
}

export const KILOGRAMS_PER_POUND = 0.45359237;
export const METRES_PER_INCH = 0.0254;
export const METRES_PER_FOOT = 0.3048;
export const CUBIC_METRES_PER_CUBIC_FOOT = METRES_PER_FOOT ** 3;
export const PASCALS_PER_PSI = 6894.757293168;
export const PASCALS_PER_INCH_OF_MERCURY = 3386.389;
export const PASCALS_PER_TORR = 101325 / 760;
export const PASCALS_PER_MICRON = PASCALS_PER_TORR / 1000;
export const STANDARD_ATMOSPHERE_PA = 101325;
export const CUBIC_METRES_PER_SECOND_PER_CFM = CUBIC_METRES_PER_CUBIC_FOOT / 60;
export const KELVIN_AT_ZERO_CELSIUS = 273.15;
export const STANDARD_GRAVITY_M_S2 = 9.80665;
export const MOLAR_GAS_CONSTANT_J_MOL_K = 8.314462618;
export const SECONDS_PER_HOUR = 3600;
export const SECONDS_PER_DAY = 86400;

const mass: Record<string, Unit> = {
  kg: { factor: 1 },
  g: { factor: 0.001 },
  t: { factor: 1000 },
  lb: { factor: KILOGRAMS_PER_POUND },
  oz: { factor: KILOGRAMS_PER_POUND / 16 },
};
const length: Record<string, Unit> = {
  m: { factor: 1 },
  mm: { factor: 0.001 },
  cm: { factor: 0.01 },
  km: { factor: 1000 },
  in: { factor: METRES_PER_INCH },
  ft: { factor: METRES_PER_FOOT },
  mi: { factor: 1609.344 },
};
const absolutePressure: Record<string, Unit> = {
  Pa: { factor: 1 },
  kPa: { factor: 1000 },
  MPa: { factor: 1e6 },
  bar: { factor: 1e5 },
  mbar: { factor: 100 },
  psia: { factor: PASCALS_PER_PSI },
  micron: { factor: PASCALS_PER_MICRON },
  'mm Hg': { factor: PASCALS_PER_TORR },
};
const gaugePressure: Record<string, Unit> = {
  psig: { factor: PASCALS_PER_PSI },
  'kPa gauge': { factor: 1000 },
  'bar gauge': { factor: 1e5 },
  'in Hg vacuum': { factor: -PASCALS_PER_INCH_OF_MERCURY },
};

const UNITS: Record<Dimension, Record<string, Unit>> = {
  mass,
  length,
  area: { m2: { factor: 1 }, ft2: { factor: METRES_PER_FOOT ** 2 }, mm2: { factor: 1e-6 } },
  volume: {
    m3: { factor: 1 },
    L: { factor: 0.001 },
    ft3: { factor: CUBIC_METRES_PER_CUBIC_FOOT },
    gal: { factor: 231 * METRES_PER_INCH ** 3 },
  },
  temperature: {
    K: { factor: 1 },
    degC: { factor: 1, offset: KELVIN_AT_ZERO_CELSIUS },
    degF: { factor: 5 / 9, offset: KELVIN_AT_ZERO_CELSIUS - 32 * (5 / 9) },
  },
  'temperature difference': { K: { factor: 1 }, 'degF difference': { factor: 5 / 9 } },
  'absolute pressure': absolutePressure,
  'gauge pressure': gaugePressure,
  time: {
    s: { factor: 1 },
    min: { factor: 60 },
    h: { factor: SECONDS_PER_HOUR },
    d: { factor: SECONDS_PER_DAY },
  },
  'mass flow': {
    'kg/s': { factor: 1 },
    'kg/min': { factor: 1 / 60 },
    'kg/h': { factor: 1 / SECONDS_PER_HOUR },
    'lb/min': { factor: KILOGRAMS_PER_POUND / 60 },
    'lb/h': { factor: KILOGRAMS_PER_POUND / SECONDS_PER_HOUR },
  },
  'volume flow': {
    'm3/s': { factor: 1 },
    'm3/h': { factor: 1 / SECONDS_PER_HOUR },
    'L/s': { factor: 0.001 },
    'L/min': { factor: 0.001 / 60 },
    cfm: { factor: CUBIC_METRES_PER_SECOND_PER_CFM },
    gpm: { factor: (231 * METRES_PER_INCH ** 3) / 60 },
  },
  power: { W: { factor: 1 }, kW: { factor: 1000 } },
  'heat conductance': { 'W/K': { factor: 1 } },
  angle: { deg: { factor: 1 } },
  speed: { 'm/s': { factor: 1 }, 'km/h': { factor: 1 / 3.6 }, 'mi/h': { factor: 1609.344 / 3600 } },
};

const SPELLINGS: Record<string, string> = {
  '°C': 'degC',
  C: 'degC',
  '°F': 'degF',
  F: 'degF',
  lbs: 'lb',
  inch: 'in',
  hours: 'h',
  hour: 'h',
  minutes: 'min',
  days: 'd',
  day: 'd',
  'm³': 'm3',
  'ft³': 'ft3',
  'inHg vacuum': 'in Hg vacuum',
  'inHg vac': 'in Hg vacuum',
  mmHg: 'mm Hg',
  microns: 'micron',
  'µm Hg': 'micron',
};

/** The unit names that text of a dimension may carry. */
export function unitsOf(dimension: Dimension): readonly string[] {
  return Object.keys(UNITS[dimension]);
}

function unit(dimension: Dimension, name: string): Unit | undefined {
  return UNITS[dimension][SPELLINGS[name] ?? name];
}

/** @throws QuantityUnitError when the dimension has no such unit */
function requireUnit(dimension: Dimension, name: string): Unit {
  const found = unit(dimension, name);
  if (!found) throw new QuantityUnitError(dimension, name);
  return found;
}

export class QuantityUnitError extends Error {
  constructor(dimension: Dimension, name: string) {
    super(`"${name}" is not a unit of ${dimension}; allowed: ${unitsOf(dimension).join(', ')}`);
    this.name = 'QuantityUnitError';
  }
}

/** Converts a number given in a named unit to SI. */
export function toSi(value: number, dimension: Dimension, name: string): number {
  const { factor, offset = 0 } = requireUnit(dimension, name);
  return value * factor + offset;
}

/** Converts an SI number to a named unit. */
export function fromSi(value_SI: number, dimension: Dimension, name: string): number {
  const { factor, offset = 0 } = requireUnit(dimension, name);
  return (value_SI - offset) / factor;
}

export type ParsedQuantity =
  { readonly ok: true; readonly value_SI: number } | { readonly ok: false; readonly allowed: string };

const NUMBER_THEN_UNIT =
  /^\s*(?<number>\d+\s+\d+\s*\/\s*\d+|\d+\s*\/\s*\d+|[-+]?(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?(?:[eE][-+]?\d+)?|[-+]?\.\d+)\s*(?<unit>[^\d\s/.,+-].*?)\s*$/u;

function numberOf(text: string): number {
  const fraction = /^(?:(\d+)\s+)?(\d+)\s*\/\s*(\d+)$/.exec(text);
  if (fraction) return Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3]);
  return Number(text.replaceAll(',', ''));
}

/**
 * Reads text such as "240 lb", "3/8 in", "1,800 lb" or "15 in Hg vacuum" into SI.
 * A number without a unit is refused: the unit is never guessed.
 */
export function parseQuantity(text: string, dimension: Dimension): ParsedQuantity {
  const allowed = `a number and one of: ${unitsOf(dimension).join(', ')}`;
  const parts = NUMBER_THEN_UNIT.exec(text)?.groups;
  const found = parts && unit(dimension, parts.unit ?? '');
  if (!parts || !found) return { ok: false, allowed };
  const value = numberOf(parts.number ?? '');
  const value_SI = value * found.factor + (found.offset ?? 0);
  return Number.isFinite(value_SI) ? { ok: true, value_SI } : { ok: false, allowed };
}

/** Writes an SI number in a named unit, e.g. formatQuantity(108.86, 'mass', 'lb', 0) => "240 lb". */
export function formatQuantity(value_SI: number, dimension: Dimension, name: string, digits: number): string {
  return `${formatNumber(fromSi(value_SI, dimension, name), digits)} ${name}`;
}

/** One writer for each count of decimals: making one takes far longer than using it. */
const NUMBER_FORMATS = Array.from(
  { length: 21 },
  (_, digits) =>
    new Intl.NumberFormat('en-US', { minimumFractionDigits: digits, maximumFractionDigits: digits }),
);

/** A number with thousands separators and a fixed count of decimals, 0 to 20; minus zero is zero. */
export function formatNumber(value: number, digits: number): string {
  const text = NUMBER_FORMATS[digits]!.format(value);
  return /^-0(?:\.0+)?$/.test(text) ? text.slice(1) : text;
}
