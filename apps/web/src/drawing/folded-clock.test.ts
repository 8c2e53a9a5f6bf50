import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ClockSpan, foldedClock, foldSpans, leastWidth } from './folded-clock.ts';

const H = 3_600_000;

// Expected values: the drawing's own rules (a fold over two still hours takes one fixed width), worked by hand.
describe('the folded clock', () => {
  it('folds only what is longer than two hours and moves nothing, and joins even neighbours', () => {
    const spans = [
      { from_ms: 0, to_ms: H, moves: false },
      { from_ms: H, to_ms: 2 * H, moves: true },
      { from_ms: 2 * H, to_ms: 8 * H, moves: false },
      { from_ms: 8 * H, to_ms: 12 * H, moves: true },
      { from_ms: 12 * H, to_ms: 14 * H, moves: false },
      { from_ms: 14 * H, to_ms: 14 * H + 2 * H + 1, moves: false },
    ];
    expect(foldSpans(spans)).toEqual([
      { from_ms: 0, to_ms: 2 * H, folded: false },
      { from_ms: 2 * H, to_ms: 8 * H, folded: true },
      { from_ms: 8 * H, to_ms: 14 * H, folded: false },
      { from_ms: 14 * H, to_ms: 16 * H + 1, folded: true },
    ]);
  });

  it('gives a fold its width and shares the rest by time', () => {
    const clock = foldedClock(
      [
        { from_ms: 0, to_ms: 2 * H, folded: false },
        { from_ms: 2 * H, to_ms: 14 * H, folded: true },
        { from_ms: 14 * H, to_ms: 18 * H, folded: false },
      ],
      340,
      40,
    );
    expect([0, H, 2 * H, 8 * H, 14 * H, 18 * H].map(clock.x)).toEqual([0, 50, 100, 120, 140, 340]);
    expect(clock.x(-H)).toBe(0);
    expect(clock.x(99 * H)).toBe(340);
  });

  it('shares the width among folds where nothing is even', () => {
    const clock = foldedClock(
      [
        { from_ms: 0, to_ms: 3 * H, folded: true },
        { from_ms: 3 * H, to_ms: 30 * H, folded: true },
      ],
      300,
      40,
    );
    expect(clock.spans.map(({ x0, x1 }) => x1 - x0)).toEqual([150, 150]);
  });

  it('says how wide it must be for its folds and hours', () => {
    const spans = [
      { from_ms: 0, to_ms: 2 * H, folded: false },
      { from_ms: 2 * H, to_ms: 9 * H, folded: true },
    ];
    expect(leastWidth(spans, 36, 24)).toBe(84);
  });

  it('never runs backwards, ends at its width, and keeps one rate between folds', () => {
    const pieces = fc.array(
      fc.record({ length: fc.integer({ min: 1, max: 40 * H }), folded: fc.boolean() }),
      {
        minLength: 1,
        maxLength: 12,
      },
    );
    fc.assert(
      fc.property(pieces, fc.integer({ min: 100, max: 2000 }), (list, width) => {
        let at = 0;
        const spans = list.map(({ length, folded }): ClockSpan => {
          const from_ms = at;
          at += length;
          return { from_ms, to_ms: at, folded };
        });
        const clock = foldedClock(spans, width, 40);
        expect(clock.spans[0]!.x0).toBe(0);
        expect(clock.x(at)).toBeCloseTo(width, 6);
        const rates = clock.spans
          .filter(({ folded }) => !folded)
          .map(({ x0, x1, from_ms, to_ms }) => (x1 - x0) / (to_ms - from_ms));
        for (const span of clock.spans) expect(span.x1).toBeGreaterThanOrEqual(span.x0);
        for (const rate of rates) expect(rate).toBeCloseTo(rates[0]!, 9);
      }),
    );
  });
});
