import type { PlannedJob } from '@brimline/planning';
import { describe, expect, it } from 'vitest';
import { brimOf, curveAt, curveColumns, layerAt } from './curve-columns.ts';
import { measureText } from './measures.ts';
import { withoutSharedEnd } from './offer-sheet.ts';

const HOUR_S = 3600;
const point = (hours: number, chiller_kg: number, cylinder_kg: readonly number[], transit_kg = 0) => ({
  time_s: hours * HOUR_S,
  chiller_kg,
  transit_kg,
  cylinder_kg,
  pressure_Pa: 101_325 + 1000 * hours,
});
const step = (title: string, from: number, to: number) => ({
  phaseId: title,
  title,
  manner: 'attended' as const,
  from_s: from * HOUR_S,
  to_s: to * HOUR_S,
});
const curve: PlannedJob['estimate']['curve'] = {
  nameplate_kg: 100,
  cylinders: [
    { id: 'A', limit_kg: 60 },
    { id: 'B', limit_kg: 60 },
  ],
  points: [point(0, 100, [0, 0]), point(1, 100, [0, 0]), point(3, 0, [60, 40]), point(13, 0, [60, 40])],
  steps: [step('rig up', 0, 1), step('recovery', 1, 3), step('open work', 3, 13)],
  marks: [],
  freezing: null,
};

// Arithmetic by hand in this file.
describe('columns of the drawn curve', () => {
  it('are even between folds, and fold what is long and still', () => {
    const { columns, column_s } = curveColumns(curve);
    // Three hours in at most 96 columns: two minutes each; ten still hours in three columns with a gap.
    expect(column_s).toBe(120);
    expect(columns).toHaveLength(93);
    expect(columns.filter(({ isGap }) => isGap)).toHaveLength(1);
    expect(columns[0]).toMatchObject({ time_s: 60, step: 0 });
    expect(columns[30]).toMatchObject({ step: 1 });
  });

  it('never fold a span in which mass moves, however long', () => {
    const slow = {
      ...curve,
      points: [point(0, 100, [0, 0]), point(3, 100, [0, 0]), point(8, 50, [50, 0]), point(13, 0, [60, 40])],
    };
    expect(curveColumns(slow).columns.some(({ isGap }) => isGap)).toBe(false);
  });

  it('read the curve straight between its points', () => {
    expect(curveAt(curve, 2 * HOUR_S)).toMatchObject({ chiller_kg: 50, cylinder_kg: [30, 20] });
    expect(curveAt(curve, 2 * HOUR_S).pressure_Pa).toBeCloseTo(103_325, 6);
    expect(curveAt(curve, 99 * HOUR_S)).toMatchObject({ chiller_kg: 0, cylinder_kg: [60, 40] });
    expect(curveAt(curve, 0)).toMatchObject({ chiller_kg: 100 });
  });

  it('stack chiller, transit, last cylinder, first cylinder, up to the brim', () => {
    const mixed = point(0, 30, [40, 20], 10);
    expect([10, 35, 50, 80, 100].map((height) => layerAt(mixed, height))).toEqual([
      { kind: 'chiller' },
      { kind: 'transit' },
      { kind: 'cylinder', index: 1 },
      { kind: 'cylinder', index: 0 },
      null,
    ]);
    expect(brimOf(mixed)).toBe(100);
  });
});

describe('words of the offer', () => {
  it.each([
    [295.3722, 'K', '72 °F (22 °C)'],
    [816.466266, 'kg', '1,800 lb (816 kg)'],
    [0, '-', '0'],
    [0.3, '-', '0.30'],
    [4, 'h', '4 h'],
    ['deep', '-', 'deep'],
  ])('%s %s', (value, unit, text) => {
    expect(measureText(value, unit)).toBe(text);
  });

  it('say once what every text ends with', () => {
    expect(withoutSharedEnd(['Mind the step. Ask first.', 'Wear gloves. Ask first.'])).toEqual({
      texts: ['Mind the step.', 'Wear gloves.'],
      shared: 'Ask first.',
    });
    expect(withoutSharedEnd(['Mind the step. Ask first.', 'Wear gloves.']).shared).toBe('');
    expect(withoutSharedEnd([])).toEqual({ texts: [], shared: '' });
  });
});
