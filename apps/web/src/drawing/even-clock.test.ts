import { describe, expect, it } from 'vitest';
import { clockChanges } from './clock-change.ts';
import { daysOf, evenClock, hourMarks, nightsOf } from './even-clock.ts';

const CHICAGO = 'America/Chicago';
const FROM = Date.parse('2026-10-31T05:00:00Z');
const TO = Date.parse('2026-11-03T06:00:00Z');
const H = 3_600_000;

// Change of the clock: first Sunday of November, 02:00 back to 01:00 (IANA database, United States since 2007, from memory).
describe('the even clock over a change of the clock', () => {
  const days = daysOf(FROM, TO, CHICAGO);

  it('gives the Sunday 25 hours and says so', () => {
    expect(days.map(({ day, from_ms, to_ms }) => [day, (to_ms - from_ms) / H])).toEqual([
      ['2026-10-31', 24],
      ['2026-11-01', 25],
      ['2026-11-02', 24],
    ]);
    expect(clockChanges(days).map(({ day, hours }) => [day.day, hours])).toEqual([['2026-11-01', 25]]);
  });

  it('marks local hours at their instants', () => {
    const marks = hourMarks(days, CHICAGO, 12).map(({ at_ms, hour }) => [
      hour,
      new Date(at_ms).toISOString(),
    ]);
    expect(marks).toEqual([
      ['12', '2026-10-31T17:00:00.000Z'],
      ['12', '2026-11-01T18:00:00.000Z'],
      ['12', '2026-11-02T18:00:00.000Z'],
    ]);
  });

  it('makes the night of the change an hour longer', () => {
    const hours = nightsOf(FROM, TO, CHICAGO).map(({ from_ms, to_ms }) => (to_ms - from_ms) / H);
    expect(hours).toEqual([6, 13, 12, 6]);
  });

  it('places instants in proportion', () => {
    const x = evenClock(FROM, TO, 730);
    expect([x(FROM), x(FROM + 24 * H), x(TO)].map(Math.round)).toEqual([0, 240, 730]);
  });
});
