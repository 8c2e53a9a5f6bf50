import { OutOfDomainError } from './errors.ts';

/** An amount in whole minor units (cents). Never a fraction. */
export interface Money {
  readonly currency: string;
  readonly minorUnits: number;
}

/**
 * The one rounding rule for money: to the nearest whole minor unit, halves away from zero.
 * A relative nudge of 1e-12 repairs products such as 1.005 * 100 that binary floats put just below the half.
 */
export function roundMinorUnits(exact: number): number {
  if (!Number.isFinite(exact)) throw new OutOfDomainError('amount in minor units', exact, 'a finite number');
  const magnitude = Math.floor(Math.abs(exact) * (1 + 1e-12) + 0.5);
  return exact < 0 && magnitude > 0 ? -magnitude : magnitude;
}

/** How many decimals a currency's major unit has (ISO 4217, as the runtime's locale data gives it). */
export function decimalsOf(currency: string): number {
  return (
    new Intl.NumberFormat('en-US', { style: 'currency', currency }).resolvedOptions().maximumFractionDigits ??
    2
  );
}

/** @example formatMoney({ currency: 'USD', minorUnits: 718000 }) // => "$7,180.00" */
export function formatMoney({ currency, minorUnits }: Money): string {
  return new Intl.NumberFormat('en-US', { style: 'currency', currency }).format(
    minorUnits / 10 ** decimalsOf(currency),
  );
}
