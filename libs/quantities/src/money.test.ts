import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatMoney, roundMinorUnits } from './money.ts';

describe('money in whole minor units', () => {
  it('rounds halves away from zero, and repairs products that floats put below the half', () => {
    // Computed independently by hand: 1.005 * 100 is 100.49999999999999 in binary floating point.
    expect(roundMinorUnits(1.005 * 100)).toBe(101);
    expect(roundMinorUnits(-2.5)).toBe(-3);
    expect(Object.is(roundMinorUnits(-0.2), 0)).toBe(true);
  });

  it('never moves an amount by more than half a minor unit', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e9, max: 1e9, noNaN: true }), (amount) => {
        expect(Math.abs(roundMinorUnits(amount) - amount)).toBeLessThanOrEqual(0.5 + 1e-2);
        expect(Number.isInteger(roundMinorUnits(amount))).toBe(true);
      }),
    );
  });

  it('refuses what is not a number', () => {
    expect(() => roundMinorUnits(Number.NaN)).toThrow(/finite/);
  });

  it('shows the currency and its decimals', () => {
    expect(formatMoney({ currency: 'USD', minorUnits: 718000 })).toBe('$7,180.00');
    expect(formatMoney({ currency: 'JPY', minorUnits: 718000 })).toBe('¥718,000');
  });
});
