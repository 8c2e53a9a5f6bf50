import {
  type Dimension,
  formatNumber,
  fromSi,
  type Money,
  formatMoney,
  STANDARD_ATMOSPHERE_PA,
} from '@brimline/quantities';

export type UnitSystem = 'us' | 'si';

interface Shown {
  readonly dimension: Dimension;
  readonly unit: string;
  readonly as: string;
}

const show = (dimension: Dimension, unit: string, as = unit): Shown => ({ dimension, unit, as });

/** How an SI unit of a number is shown to people, in each system. */
const SHOWN: Readonly<Record<string, Readonly<Record<UnitSystem, Shown>>>> = {
  kg: { us: show('mass', 'lb'), si: show('mass', 'kg') },
  'kg/s': { us: show('mass flow', 'lb/min'), si: show('mass flow', 'kg/min') },
  Pa: { us: show('absolute pressure', 'psia'), si: show('absolute pressure', 'kPa', 'kPa absolute') },
  'Pa gauge': { us: show('gauge pressure', 'psig'), si: show('gauge pressure', 'kPa gauge') },
  K: { us: show('temperature', 'degF', '°F'), si: show('temperature', 'degC', '°C') },
  m3: { us: show('volume', 'ft3', 'ft³'), si: show('volume', 'm3', 'm³') },
  'm3/s': { us: show('volume flow', 'cfm'), si: show('volume flow', 'm3/h', 'm³/h') },
  m: { us: show('length', 'ft'), si: show('length', 'm') },
  's ': { us: show('time', 'min'), si: show('time', 'min') },
  s: { us: show('time', 'h'), si: show('time', 'h') },
};

/** Below this a pressure is spoken of as a vacuum: 1,500 µm of mercury. */
const VACUUM_BELOW_PA = 200;
/** Below this a length is a bore. */
const BORE_BELOW_M = 0.3;

function shownUnit(value_SI: number, unit: string, system: UnitSystem): Shown | undefined {
  if (unit === 'Pa' && Math.abs(value_SI) < VACUUM_BELOW_PA) {
    return system === 'us' ? show('absolute pressure', 'micron', 'µm') : show('absolute pressure', 'Pa');
  }
  if (unit === 'm' && Math.abs(value_SI) < BORE_BELOW_M) {
    return system === 'us' ? show('length', 'in') : show('length', 'mm');
  }
  if (unit === 's' && Math.abs(value_SI) < 3600) return SHOWN['s ']?.[system];
  return SHOWN[unit]?.[system];
}

/** A number and its unit; numbers given in an SI unit are turned into the system's, all others are left as they are. */
export function quantityText(value: number | string, unit: string, system: UnitSystem): string {
  const plainUnit = unit === '-' ? '' : unit;
  if (typeof value === 'string') return plainUnit === '' ? value : `${value} ${plainUnit}`;
  const shown = shownUnit(value, unit, system);
  if (!shown) return plainUnit === '' ? significant(value) : `${significant(value)} ${plainUnit}`;
  return `${significant(fromSi(value, shown.dimension, shown.unit))} ${shown.as}`;
}

/** Does the system show this unit otherwise than it is written? */
export function isConverted(unit: string, system: UnitSystem): boolean {
  return system === 'us' && unit !== 's' && SHOWN[unit] !== undefined;
}

/** About three significant figures for reading, with thousands separated; very small and very large ones as powers. */
export function significant(value: number, figures = 3): string {
  if (value === 0) return '0';
  const magnitude = Math.floor(Math.log10(Math.abs(value)));
  if (magnitude < -4 || magnitude > 8) return value.toExponential(figures - 1).replace('e', ' × 10^');
  const digits = Math.max(0, figures - 1 - magnitude);
  return formatNumber(value, digits)
    .replace(/(\.\d*?)0+$/, '$1')
    .replace(/\.$/, '');
}

export function massUnit(system: UnitSystem): 'lb' | 'kg' {
  return system === 'us' ? 'lb' : 'kg';
}

export function massIn(mass_kg: number, system: UnitSystem): number {
  return fromSi(mass_kg, 'mass', massUnit(system));
}

/** A mass with its unit: whole numbers from a hundred up, one decimal below, unless told. */
export function massText(mass_kg: number, system: UnitSystem, digits?: number): string {
  const value = massIn(mass_kg, system);
  return `${formatNumber(value, digits ?? (Math.abs(value) >= 99.5 ? 0 : 1))} ${massUnit(system)}`;
}

export function gaugeUnit(system: UnitSystem): 'psig' | 'kPa gauge' {
  return system === 'us' ? 'psig' : 'kPa gauge';
}

/** Gauge pressure above a standard atmosphere. */
export function gaugeIn(pressure_Pa: number, system: UnitSystem): number {
  return fromSi(pressure_Pa - STANDARD_ATMOSPHERE_PA, 'gauge pressure', gaugeUnit(system));
}

export function gaugeText(pressure_Pa: number, system: UnitSystem): string {
  return `${formatNumber(gaugeIn(pressure_Pa, system), 0)} ${gaugeUnit(system)}`;
}

/** Hours with one decimal; under one hour in minutes. */
export function spanText(time_s: number): string {
  const minutes = fromSi(time_s, 'time', 'min');
  return minutes < 59.5 ? `${formatNumber(minutes, 0)} min` : hoursText(fromSi(time_s, 'time', 'h'));
}

export function hoursText(hours: number, digits = 1): string {
  return `${formatNumber(hours, digits)} h`;
}

/** Whole major units for headlines. */
export function moneyHeadline(money: Money): string {
  return formatMoney(money).replace(/\.\d+$/, '');
}

export function percentText(share: number, digits = 0): string {
  return `${formatNumber(share * 100, digits)} %`;
}
