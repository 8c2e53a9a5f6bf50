import { describe, expect, it } from 'vitest';
import { calmPlace } from './calm-place.ts';
import { labelsInRows, linesWithin, swapLabels, textWidth } from './labels.ts';
import { widestClear } from './layer-labels.ts';

// Expected values: worked by hand from the rules in each function's comment.
describe('labels', () => {
  it('go to the next row rather than over each other, and out where no row is free', () => {
    const labels = ['aaaa', 'bbbb', 'cccc'].map((text) => ({ x: 50, text }));
    expect(labelsInRows(labels, 2).map(({ text, row }) => [text, row])).toEqual([
      ['aaaa', 0],
      ['bbbb', 1],
    ]);
  });

  it('keep clear of labels that stand already', () => {
    const before = [{ x: 50, text: 'aaaa', row: 0 }];
    expect(labelsInRows([{ x: 55, text: 'bb' }], 1, 6, before)).toEqual(before);
    expect(labelsInRows([{ x: 150, text: 'bb' }], 1, 6, before)).toHaveLength(2);
  });

  it('break at words, and stay away from a bar that is too narrow', () => {
    expect(linesWithin('open work', 200, 2)).toEqual(['open work']);
    expect(linesWithin('open work', textWidth('open') + 1, 2)).toEqual(['open', 'work']);
    expect(linesWithin('open work', textWidth('op'), 2)).toBeNull();
    expect(linesWithin('a b c', textWidth('a'), 2)).toBeNull();
  });

  it('share one number where swaps stand closer than 13 px', () => {
    const swaps = [
      { x: 10, number: 2 },
      { x: 20, number: 3 },
      { x: 32, number: 4 },
      { x: 60, number: 5 },
    ];
    expect(swapLabels(swaps)).toEqual([
      { x: 21, text: '2–4', at: [10, 20, 32] },
      { x: 60, text: '5', at: [60] },
    ]);
  });

  it('keep to the widest part between tears', () => {
    expect(widestClear(0, 100, [30])).toEqual({ x0: 37, x1: 100 });
    expect(widestClear(0, 100, [])).toEqual({ x0: 0, x1: 100 });
    expect(widestClear(0, 10, [5])).toEqual({ x0: 0, x1: 0 });
  });

  it('stand where the line is farthest, or nowhere when tears leave no room', () => {
    const line = [
      [0, 50],
      [100, 50],
      [200, 10],
    ] as const;
    const place = calmPlace(line, 50, 40, { left: 0, right: 200, tears: [] });
    expect(place!.x).toBeGreaterThan(150);
    expect(place!.distance).toBeGreaterThan(15);
    expect(calmPlace(line, 50, 60, { left: 0, right: 200, tears: [50, 100, 150] })).toBeNull();
  });
});
