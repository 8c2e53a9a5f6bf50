import { describe, expect, it } from 'vitest';
import { REFERENCE_TABLES } from './data/reference-tables.ts';
import { type SaturationTables, saturationTables } from './saturation-tables.ts';
import { curveValue, type UniformCurve } from './uniform-curve.ts';

/** Largest relative error of the curve through every second point, at the points left out. */
function leftOutError(full: UniformCurve, half: UniformCurve, isLogarithm: boolean): number {
  let worst = 0;
  for (let index = 1; index <= 2 * half.lastInterval + 1; index += 2) {
    const held = full.knots[2 * index] ?? NaN;
    const between = curveValue(half, full.first + index * full.step);
    worst = Math.max(worst, Math.abs(isLogarithm ? Math.expm1(between - held) : between / held - 1));
  }
  return worst;
}

// The error of a cubic falls sixteenfold when the step halves, so at 1 K it is at most a sixteenth of what is left out
// at 2 K, plus the tables' rounding to six digits (5e-6). Measured at 2 K: 1e-5 for all four, i.e. rounding alone.
const ALLOWED: readonly (readonly [keyof SaturationTables, number, boolean])[] = [
  ['lnBubblePressure', 2e-5, true],
  ['lnDewPressure', 2e-5, true],
  ['liquidDensity', 2e-5, false],
  ['lnVapourDensity', 2e-5, true],
  ['latentHeat', 2e-5, false],
  ['liquidHeatCapacity', 1e-4, false],
  ['vapourHeatCapacity', 1.5e-4, false],
  ['secondVirial', 2e-5, false],
];

describe('error of interpolation, measured on points left out', () => {
  it.each(REFERENCE_TABLES.map((table) => [table.name, table] as const))('%s', (_, table) => {
    const full = saturationTables(table);
    const half = saturationTables(table, 2);
    for (const [property, allowed, isLogarithm] of ALLOWED) {
      const error = leftOutError(full[property] as UniformCurve, half[property] as UniformCurve, isLogarithm);
      expect(error, property).toBeLessThan(allowed);
      expect(error, property).toBeGreaterThan(0);
    }
  });
});
