import { type Dimension, formatNumber, formatQuantity } from '@brimline/quantities';

const SHOWN: Readonly<
  Record<string, { readonly dimension: Dimension; readonly unit: string; readonly digits: number }>
> = {
  K: { dimension: 'temperature', unit: 'degF', digits: 0 },
  kg: { dimension: 'mass', unit: 'lb', digits: 2 },
  m3: { dimension: 'volume', unit: 'ft3', digits: 1 },
};

/** A value of an estimate in US customary units, as customers read it. */
export function usQuantity(value: number | string, unit: string): string {
  if (typeof value === 'string') return value;
  const shown = SHOWN[unit];
  if (shown)
    return formatQuantity(value, shown.dimension, shown.unit, shown.digits)
      .replace('degF', '°F')
      .replace('ft3', 'ft³');
  return `${formatNumber(value, Number.isInteger(value) ? 0 : 2)}${unit === '-' ? '' : ` ${unit}`}`;
}
