import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Dimension, formatQuantity, fromSi, parseQuantity, toSi, unitsOf } from './units.ts';

const DIMENSIONS: readonly Dimension[] = [
  'mass',
  'length',
  'temperature',
  'absolute pressure',
  'gauge pressure',
  'time',
  'mass flow',
  'volume flow',
];

describe('units at the edge', () => {
  it.each([
    // Pound, inch and foot are exact by definition (international yard and pound agreement, 1959; from memory).
    ['240 lb', 'mass', 108.8621688],
    ['1,800 lb', 'mass', 816.466266],
    ['3/8 in', 'length', 0.009525],
    ['1 1/2 in', 'length', 0.0381],
    ['26 L/s', 'volume flow', 0.026],
    // 500 micron = 66.66 Pa: handbook check CV-05, arithmetic.
    ['500 micron', 'absolute pressure', 66.6612],
    // 32 degF and -40 degF: fixed points of the scales.
    ['32 degF', 'temperature', 273.15],
    ['-40 degC', 'temperature', 233.15],
    ['-40 °F', 'temperature', 233.15],
    // 0.25 kg/min is 33.07 lb/h: handbook check CV-07, arithmetic.
    ['33.07 lb/h', 'mass flow', 0.25 / 60],
  ] as const)('reads %s', (text, dimension, expected) => {
    const parsed = parseQuantity(text, dimension);
    expect(parsed.ok).toBe(true);
    if (parsed.ok) expect(Math.abs(parsed.value_SI / expected - 1)).toBeLessThan(1e-4);
  });

  it.each(['240', 'lb', '240 stone', '12 psia', '', '1..2 lb', '1,80 lb', 'NaN lb', 'Infinity lb'])(
    'refuses %j as a mass and lists what is allowed',
    (text) => {
      const parsed = parseQuantity(text, 'mass');
      expect(parsed).toMatchObject({ ok: false });
      if (!parsed.ok) expect(parsed.allowed).toContain('lb');
    },
  );

  it('comes back to the same number through every unit of every dimension', () => {
    for (const dimension of DIMENSIONS) {
      for (const unit of unitsOf(dimension)) {
        fc.assert(
          fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (value) => {
            expect(fromSi(toSi(value, dimension, unit), dimension, unit)).toBeCloseTo(value, 5);
          }),
        );
      }
    }
  });

  it('writes a number with its unit', () => {
    expect(formatQuantity(108.8621688, 'mass', 'lb', 0)).toBe('240 lb');
    expect(formatQuantity(-0.0001, 'mass', 'lb', 1)).toBe('0.0 lb');
  });
});
