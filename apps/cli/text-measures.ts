import { formatNumber, fromSi } from '@brimline/quantities';

/** Hours of a span. */
export const h = (span_s: number, digits = 1): string => formatNumber(span_s / 3600, digits);
/** Pounds of a mass. */
export const lb = (mass_kg: number, digits = 0): string =>
  formatNumber(fromSi(mass_kg, 'mass', 'lb'), digits);
/** A share in per cent. */
export const percent = (share: number): string => `${formatNumber(share * 100, 0)} %`;
/** More or less than before. */
export const signed = (text: string, value: number): string => `${text} ${value < 0 ? 'less' : 'more'}`;
