import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expandWeekly } from './expand-weekly.ts';
import { instantOfLocal, localTextOf, nextDay } from './local-time.ts';
import {
  intersectSpans,
  openMinutes,
  type Span,
  subtractSpans,
  totalMinutes,
  unionOfSpans,
} from './spans.ts';

const ZONES = ['America/Chicago', 'America/Denver', 'Asia/Kolkata', 'Australia/Lord_Howe', 'UTC'];

describe('wall clocks and instants', () => {
  // Offsets: IANA time zone database, rules for US zones since 2007 and for Lord Howe (half-hour change), from memory.
  it.each([
    ['2026-10-31T23:00', 'America/Chicago', '2026-11-01T04:00:00.000Z'],
    ['2026-11-01T01:30', 'America/Chicago', '2026-11-01T06:30:00.000Z'], // occurs twice: the first
    ['2026-11-01T02:00', 'America/Chicago', '2026-11-01T08:00:00.000Z'],
    ['2026-03-08T02:30', 'America/Chicago', '2026-03-08T08:30:00.000Z'], // does not occur: shown as 03:30
    ['2026-11-01T01:30', 'America/Denver', '2026-11-01T07:30:00.000Z'],
    ['2026-10-04T02:15', 'Australia/Lord_Howe', '2026-10-03T15:45:00.000Z'], // skipped half hour: 02:45 at +11
    ['2026-06-01T24:00', 'Asia/Kolkata', '2026-06-01T18:30:00.000Z'],
  ])('%s in %s', (local, zone, expected) => {
    expect(instantOfLocal(local, zone).toISOString()).toBe(expected);
  });

  it.each(['2026-02-30T10:00', '2026-13-01T10:00', '2026-01-01T24:01', '2026-01-01T10:60', '2026-01-01', ''])(
    'refuses %j',
    (local) => {
      expect(() => instantOfLocal(local, 'UTC')).toThrow(/local time/);
    },
  );

  it('refuses a zone that does not exist', () => {
    expect(() => instantOfLocal('2026-01-01T10:00', 'America/Nowhere')).toThrow(/time zone/);
  });

  it('shows each instant as a local time that leads back to it, but for the hour that occurs twice', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 366 * 24 * 4 }), fc.constantFrom(...ZONES), (quarters, zone) => {
        const instant = new Date(Date.UTC(2026, 0, 1) + quarters * 900_000);
        const back = instantOfLocal(localTextOf(instant, zone), zone);
        expect(localTextOf(back, zone)).toBe(localTextOf(instant, zone));
        expect(instant.getTime() - back.getTime()).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 300 },
    );
  });

  it('counts days across months and years', () => {
    expect([nextDay('2026-10-31'), nextDay('2026-12-31'), nextDay('2028-02-28')]).toEqual([
      '2026-11-01',
      '2027-01-01',
      '2028-02-29',
    ]);
  });
});

describe('weekly windows', () => {
  const night = [{ days: ['Sat'] as const, from: '22:00', to: '06:00' }];
  const around = (zone: string, day: string): Span => [
    instantOfLocal(`${day}T00:00`, zone),
    new Date(instantOfLocal(`${day}T00:00`, zone).getTime() + 3 * 86_400_000),
  ];

  it('makes the night of the autumn change an hour longer and of the spring change an hour shorter', () => {
    const zone = 'America/Chicago';
    expect(totalMinutes(expandWeekly(night, zone, ...around(zone, '2026-10-31')))).toBe(9 * 60);
    expect(totalMinutes(expandWeekly(night, zone, ...around(zone, '2026-03-07')))).toBe(7 * 60);
    expect(totalMinutes(expandWeekly(night, zone, ...around(zone, '2026-06-06')))).toBe(8 * 60);
  });

  it('keeps a shift that began the evening before the first instant', () => {
    const from = instantOfLocal('2026-06-07T00:00', 'UTC');
    const spans = expandWeekly(night, 'UTC', from, new Date(from.getTime() + 86_400_000));
    expect(openMinutes(spans, from)).toEqual([[0, 360]]);
  });

  it('refuses a time of day that no clock shows', () => {
    const from = new Date(0);
    expect(() =>
      expandWeekly([{ days: ['Thu'], from: '25:00', to: '26:00' }], 'UTC', from, new Date(864e5)),
    ).toThrow();
  });
});

describe('spans', () => {
  const spansOf = fc
    .array(fc.tuple(fc.integer({ min: 0, max: 500 }), fc.integer({ min: 0, max: 80 })), { maxLength: 8 })
    .map((pairs) =>
      pairs.map(([from, length]): Span => [new Date(from * 60_000), new Date((from + length) * 60_000)]),
    );

  it('keep their sums: what is common and what is left make up the whole', () => {
    fc.assert(
      fc.property(spansOf, spansOf, (a, b) => {
        const common = intersectSpans(a, b);
        const left = subtractSpans(a, b);
        expect(totalMinutes(common) + totalMinutes(left)).toBe(totalMinutes(a));
        expect(intersectSpans(common, left)).toEqual([]);
        expect(totalMinutes(unionOfSpans([...a, ...b]))).toBe(
          totalMinutes(a) + totalMinutes(subtractSpans(b, a)),
        );
      }),
    );
  });
});
