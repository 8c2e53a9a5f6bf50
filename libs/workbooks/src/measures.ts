import { formatNumber, fromSi, KELVIN_AT_ZERO_CELSIUS, STANDARD_ATMOSPHERE_PA } from '@brimline/quantities';

/** As few decimals as show three figures, and none for whole numbers. */
function figures(value: number): string {
  const size = Math.abs(value);
  const digits = Number.isInteger(value) || size >= 100 ? 0 : size >= 10 ? 1 : 2;
  return formatNumber(value, digits);
}

const TWICE: Readonly<Record<string, (value: number) => string>> = {
  K: (value) =>
    `${formatNumber(fromSi(value, 'temperature', 'degF'), 0)} °F (${formatNumber(value - KELVIN_AT_ZERO_CELSIUS, 0)} °C)`,
  kg: (value) => `${figures(fromSi(value, 'mass', 'lb'))} lb (${figures(value)} kg)`,
  m3: (value) => `${figures(fromSi(value, 'volume', 'ft3'))} ft³ (${figures(value)} m³)`,
};

/** An assumed value in the customer's units, with SI beside it. */
export function measureText(value: number | string, unit: string): string {
  if (typeof value === 'string') return unit === '-' ? value : `${value} ${unit}`;
  return TWICE[unit]?.(value) ?? `${figures(value)}${unit === '-' ? '' : ` ${unit}`}`;
}

/** Pounds to two decimals, as the tables hold them. */
export const pounds = (mass_kg: number): number => Math.round(fromSi(mass_kg, 'mass', 'lb') * 100) / 100;

/** Gauge pressure against a standard atmosphere. */
export const psig = (pressure_Pa: number): number =>
  fromSi(pressure_Pa - STANDARD_ATMOSPHERE_PA, 'gauge pressure', 'psig');
