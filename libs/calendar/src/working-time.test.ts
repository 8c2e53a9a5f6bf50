import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expandWeekly } from './expand-weekly.ts';
import { instantOfLocal } from './local-time.ts';
import { type MinuteSpan, openMinutes } from './spans.ts';
import { splitMinutes, WorkingTime } from './working-time.ts';

const disjoint = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 1, max: 90 })), {
    minLength: 1,
    maxLength: 9,
  })
  .map((pairs) => {
    let at = 0;
    return pairs.map(([gap, length]): MinuteSpan => {
      const from = at + gap;
      at = from + length;
      return [from, at];
    });
  });

// Check values: arithmetic done by hand.
describe('working time', () => {
  const twoDays = new WorkingTime([
    [480, 1020],
    [1920, 2460],
  ]);

  it('passes only while something is open', () => {
    expect([0, 480, 500, 1020, 1500, 1930, 9999].map((minute) => twoDays.worked(minute))).toEqual([
      0, 0, 20, 540, 540, 550, 1080,
    ]);
  });

  it('ends work at closing time, and goes on the next morning when some is left', () => {
    expect(twoDays.endOf(900, 120)).toBe(1020);
    expect(twoDays.endOf(900, 121)).toBe(1921);
    expect(twoDays.endOf(900, 661)).toBe(Number.POSITIVE_INFINITY);
  });

  it('agrees with a count minute by minute', () => {
    fc.assert(
      fc.property(disjoint, fc.integer({ min: 0, max: 1500 }), (open, minute) => {
        const isOpen = (at: number) => open.some(([from, to]) => from <= at && at < to);
        const counted = Array.from({ length: minute }, (_, at) => at).filter(isOpen).length;
        expect(new WorkingTime(open).worked(minute)).toBe(counted);
      }),
    );
  });

  it('has an inverse that leads back', () => {
    fc.assert(
      fc.property(disjoint, fc.nat(400), (open, work) => {
        const time = new WorkingTime(open);
        const minute = time.whenWorked(work);
        if (work > time.total_min) expect(minute).toBe(Number.POSITIVE_INFINITY);
        else expect(time.worked(minute)).toBe(work);
      }),
    );
  });

  it.each([
    // A twelve-hour night shift loses or gains the hour of the change; Lord Howe changes by half an hour.
    ['America/Chicago', '2026-03-07', 660],
    ['America/Chicago', '2026-10-31', 780],
    ['America/New_York', '2026-10-31', 780],
    ['Asia/Kolkata', '2026-10-31', 720],
    ['UTC', '2026-03-07', 720],
    ['Australia/Lord_Howe', '2026-10-03', 690],
  ])('counts a night of the change in %s on %s', (zone, day, expected_min) => {
    const from = instantOfLocal(`${day}T12:00`, zone);
    const to = new Date(from.getTime() + 30 * 3_600_000);
    const days = ['Sat'] as const;
    const night = openMinutes(expandWeekly([{ days, from: '19:00', to: '07:00' }], zone, from, to), from);
    expect(new WorkingTime(night).total_min).toBe(expected_min);
  });

  it('splits a span into what lies inside and what does not', () => {
    expect(splitMinutes([960, 1080], twoDays)).toEqual({ inside_min: 60, outside_min: 60 });
  });

  it.each([
    [[[10, 5]]],
    [
      [
        [0, 10],
        [5, 20],
      ],
    ],
    [
      [
        [20, 30],
        [0, 10],
      ],
    ],
  ] as [MinuteSpan[]][])('refuses %j', (open) => {
    expect(() => new WorkingTime(open)).toThrow(/working time/);
  });
});
