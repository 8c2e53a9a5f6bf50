import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calculations } from './calculations.ts';
import { callOutHours, startAfterRest, tripAllowance, weightedWeekPay } from './pay-clauses.ts';
import { PAY_RULES, type PayRule } from './pay-rules.ts';
import { paySegments } from './pay-segments.ts';
import { splitHours } from './split-hours.ts';

const week = (...hours: number[]) => hours.map((one) => ({ hours: one }));

describe('hours split by rule', () => {
  it.each([
    // 29 U.S.C. 207 as read in 29 CFR 785.1; California Labor Code 510(a), read; sums computed independently with numpy.
    ['federal, five days of ten', week(10, 10, 10, 10, 10), 'US federal', 40, 10, 0, 55],
    ['California, one long day', week(9, 8, 8, 13, 8), 'California', 40, 5, 1, 49.5],
    ['California, seven days of ten', week(10, 10, 10, 10, 10, 10, 10), 'California', 40, 28, 2, 86],
    ['federal, the same', week(10, 10, 10, 10, 10, 10, 10), 'US federal', 40, 30, 0, 85],
    // By hand: an eighth day is a new week, and a day off breaks the seven.
    ['federal, eight days of eight', week(8, 8, 8, 8, 8, 8, 8, 8), 'US federal', 48, 16, 0, 72],
    ['California, six days of seven', week(7, 7, 7, 0, 7, 7, 7), 'California', 40, 2, 0, 43],
  ] as const)('%s', (_, hours, rules, regular_h, overtime_h, doubleTime_h, paid_h) => {
    const split = splitHours(hours, PAY_RULES[rules]);
    expect(split.regular_h).toBeCloseTo(regular_h, 9);
    expect(split.overtime_h).toBeCloseTo(overtime_h, 9);
    expect(split.doubleTime_h).toBeCloseTo(doubleTime_h, 9);
    expect(split.paid_h).toBeCloseTo(paid_h, 9);
  });

  const irish = PAY_RULES['Ireland, building trades'];
  it.each([
    // Irish building-trade overtime table effective 1 October 2019, read; sums computed independently with numpy.
    ['Saturday, ten hours', { start: '2026-11-07T08:00', end: '2026-11-07T18:00' }, 18],
    ['a weekday on to 02:00', { start: '2026-11-03T09:00', end: '2026-11-04T02:00' }, 22.5],
    // By hand from the same table.
    ['Sunday, three hours', { start: '2026-11-08T09:00', end: '2026-11-08T12:00' }, 6],
  ])('Ireland: %s', (_, shift, paid_h) => {
    expect(splitHours([shift], irish).paid_h).toBeCloseTo(paid_h, 9);
  });

  it('never pays an hour twice, and never more than the highest multiple', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 24, noNaN: true }), { maxLength: 14 }),
        fc.constantFrom(...(['US federal', 'California'] as const)),
        (hours, name) => {
          const split = splitHours(week(...hours), PAY_RULES[name]);
          const total = hours.reduce((sum, one) => sum + one, 0);
          expect(split.regular_h + split.overtime_h + split.doubleTime_h).toBeCloseTo(total, 6);
          expect(split.paid_h).toBeGreaterThanOrEqual(total - 1e-6);
          expect(split.paid_h).toBeLessThanOrEqual(2 * total + 1e-6);
          expect(split.regular_h).toBeLessThanOrEqual(80 + 1e-6);
        },
      ),
    );
  });

  it('adds up two shifts on one date, and refuses what no day holds', () => {
    const twice = [
      { hours: 6, date: '2026-11-03' },
      { hours: 4, date: '2026-11-03' },
    ];
    // By hand: ten hours in one day, two of them beyond eight.
    expect(splitHours(twice, PAY_RULES.California)).toMatchObject({ regular_h: 8, overtime_h: 2 });
    expect(() => splitHours(week(25), PAY_RULES.California)).toThrow(/0 to 24/);
    expect(() => splitHours(week(-1), PAY_RULES.California)).toThrow(/0 to 24/);
    expect(() => splitHours(week(8), irish)).toThrow(/by the clock/);
  });
});

describe('pay of booked work', () => {
  const rule = {
    dailyAfter_h: 8,
    dailyMultiplier: 1.5,
    weeklyAfter_h: 40,
    weeklyMultiplier: 1.5,
    nightFrom: '20:00',
    nightTo: '06:00',
    nightMultiplier: 1.2,
  };
  const piece = (start: string, end: string) => ({
    personId: 'ann',
    jobId: '1',
    labourClass: 'tech',
    start: new Date(start),
    end: new Date(end),
    timeZone: 'America/Chicago',
  });
  const hoursOf = (
    pieces: readonly ReturnType<typeof piece>[],
    rules: Parameters<typeof paySegments>[1] = rule,
  ) => Object.fromEntries(paySegments(pieces, rules).map(({ rule: kind, hours }) => [kind, hours]));

  // Arithmetic by hand in this block.
  it("counts the day across two jobs, then the night by the site's clock", () => {
    expect(hoursOf([piece('2026-10-29T12:00:00Z', '2026-10-29T23:00:00Z')])).toEqual({
      straight: 8,
      overtime: 3,
    });
    expect(hoursOf([piece('2026-10-30T00:00:00Z', '2026-10-30T03:00:00Z')])).toEqual({
      straight: 1,
      night: 2,
    });
    const jobs = [
      piece('2026-10-29T12:00:00Z', '2026-10-29T18:00:00Z'),
      { ...piece('2026-10-29T18:00:00Z', '2026-10-29T22:00:00Z'), jobId: '2' },
    ];
    expect(paySegments(jobs, rule).map(({ jobId, rule: kind, hours }) => [jobId, kind, hours])).toEqual([
      ['1', 'straight', 6],
      ['2', 'straight', 2],
      ['2', 'overtime', 2],
    ]);
  });

  it('cuts to the minute', () => {
    // 07:07 to 16:00 local: 8 h straight, 53 min over; 19:53 to 20:08: 7 min before the night and 8 min in it.
    const day = hoursOf([piece('2026-10-29T12:07:00Z', '2026-10-29T21:00:00Z')]);
    expect(day['straight']).toBeCloseTo(8, 9);
    expect(day['overtime']).toBeCloseTo(53 / 60, 9);
    const dusk = hoursOf([piece('2026-10-30T00:53:00Z', '2026-10-30T01:08:00Z')]);
    expect(dusk['straight']).toBeCloseTo(7 / 60, 9);
    expect(dusk['night']).toBeCloseTo(8 / 60, 9);
  });

  it('pays the hour that comes twice in autumn twice, because it is worked twice', () => {
    // 00:30 to 03:30 local on 1 November 2026 lasts four hours.
    expect(hoursOf([piece('2026-11-01T05:30:00Z', '2026-11-01T09:30:00Z')])).toEqual({ night: 4 });
  });

  it('moves straight hours beyond forty a week into overtime', () => {
    const days = ['02', '03', '04', '05', '06', '07'].map((day) =>
      piece(`2026-11-${day}T14:00:00Z`, `2026-11-${day}T22:00:00Z`),
    );
    expect(hoursOf(days)).toEqual({ straight: 40, overtime: 8 });
  });

  it('takes any list of rules, double time among them', () => {
    const long = [piece('2026-10-29T12:00:00Z', '2026-10-30T02:00:00Z')];
    expect(hoursOf(long, PAY_RULES.California)).toEqual({ straight: 8, overtime: 4, 'double time': 2 });
    const sundays: PayRule[] = [{ name: 'double time', multiplier: 2, days: ['Sun'] }];
    // 22:00 on Saturday to 02:00 on Sunday.
    expect(hoursOf([piece('2026-11-08T04:00:00Z', '2026-11-08T08:00:00Z')], sundays)).toEqual({
      straight: 2,
      'double time': 2,
    });
  });

  it('accounts for every minute of any work', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 600 }), fc.integer({ min: 1, max: 1500 })), {
          maxLength: 8,
        }),
        (gaps) => {
          let at = Date.parse('2026-10-28T00:00:00Z');
          let minutes = 0;
          const pieces = gaps.map(([wait, length]) => {
            const start = new Date(at + wait * 60_000);
            at = start.getTime() + length * 60_000;
            minutes += length;
            return piece(start.toISOString(), new Date(at).toISOString());
          });
          for (const rules of [rule, PAY_RULES['Ireland, building trades']]) {
            const hours = paySegments(pieces, rules).reduce((sum, one) => sum + one.hours, 0);
            expect(hours).toBeCloseTo(minutes / 60, 6);
          }
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe('clauses of pay', () => {
  it('meets the worked examples', () => {
    // Published US building-trade agreements, call-out clause, read; the multiple is illustrative.
    expect(callOutHours(1.5, 4, 2)).toBe(8);
    // 29 CFR 778.115 from memory; computed independently with numpy.
    const parts = [
      { hours: 30, rate: 40 },
      { hours: 20, rate: 30 },
    ];
    expect(weightedWeekPay(parts, 40).pay).toBeCloseTo(1980, 6);
    // GSA FTR Bulletin 26-01, read, with 75 % on the first and last day from memory; computed independently with numpy.
    expect(tripAllowance(3, 110, 68)).toBeCloseTo(390, 6);
    // By hand: a day trip has no night and one day at 75 %.
    expect(tripAllowance(1, 110, 68)).toBe(51);
  });

  it('rests eleven hours', () => {
    // Directive 2003/88/EC, article 3, read in a public summary.
    expect(startAfterRest(new Date('2026-11-02T22:30:00Z'))).toEqual(new Date('2026-11-03T09:30:00Z'));
    const rest = calculations.find(({ name }) => name === 'daily-rest')!;
    // By hand: the clock goes back one hour that night.
    expect(rest.run({ end: '2026-10-31T22:30', timeZone: 'America/Chicago' })).toEqual({
      earliestStart: '2026-11-01T08:30',
    });
  });
});

describe('overtime-split as it is called', () => {
  const { run } = calculations.find(({ name }) => name === 'overtime-split')!;

  // By hand.
  it('takes hours, dated hours, or shifts; and rules by name, by limits or as a list', () => {
    expect(run({ shifts: [10, 10], rules: { dailyOvertimeAfter_h: 8 } })).toMatchObject({
      regular_h: 16,
      overtime_h: 4,
    });
    expect(run({ shifts: [{ hours: 13 }], rules: 'California' })).toMatchObject({
      regular_h: 8,
      overtime_h: 4,
      doubleTime_h: 1,
    });
    const night = { name: 'night', multiplier: 1.2, from: '20:00', to: '06:00' };
    expect(
      run({ shifts: [{ start: '2026-11-02T18:00', end: '2026-11-02T22:00' }], rules: [night] }),
    ).toMatchObject({ regular_h: 2, overtime_h: 2 });
  });

  it.each([
    [{ shifts: [8], rules: 'Mars' }],
    [{ shifts: [8], rules: { dailyLimit_h: 8 } }],
    [{ shifts: [8], rules: { constructor: 8 } }],
    [{ shifts: [8], rules: [{ name: 'overtime', multiplier: 1.5, from: '25:00', to: '06:00' }] }],
    [{ shifts: [8], rules: [{ name: 'overtime', multiplier: 1.5, days: ['Someday'] }] }],
    [{ shifts: [{ hours: 'eight' }], rules: 'California' }],
    [{ shifts: [8] }],
  ])('refuses %j', (input) => {
    expect(() => run(input)).toThrow(/is not allowed; expected/);
  });
});
