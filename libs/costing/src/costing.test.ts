import fc from 'fast-check';
import type { RateCard } from '@brimline/firm';
import { describe, expect, it } from 'vitest';
import * as margin from './margin.ts';
import { OVERTIME_RULES, splitWeek } from './overtime-split.ts';
import { paySegments } from './pay-segments.ts';
import { type JobUsage, priceJob } from './price-job.ts';

const week = (...hours: number[]) => hours.map((one, index) => ({ day: String(index), hours: one }));
const payHours = ({ regular_h, overtime_h, doubleTime_h }: ReturnType<typeof splitWeek>): number =>
  regular_h + 1.5 * overtime_h + 2 * doubleTime_h;

describe('margin and markup', () => {
  it.each([
    // Trade article on mark-up and margin (Contracting Business, 25 Apr 2024), read.
    ['price from markup', margin.priceFromMarkup(100, 0.2), 120],
    ['margin of that price', margin.marginOf(100, 120) * 100, 16.6667],
    ['price from margin', margin.priceFromMargin(100, 0.2), 125],
    // Computed independently with numpy.
    ['markup of a margin', margin.markupFromMargin(0.35) * 100, 53.8462],
    ['margin left after a discount', margin.marginOf(10_000, 12_500 * 0.95) * 100, 15.7895],
    ['loaded hour', margin.loadedHour(35, 0.35, 0.75), 63],
  ])('%s', (_, value, expected) => {
    expect(value).toBeCloseTo(expected, 3);
  });
});

describe('overtime', () => {
  it.each([
    // 29 U.S.C. 207 as read in 29 CFR 785.1; California Labor Code 510(a), read; sums computed independently.
    ['federal, five days of ten', week(10, 10, 10, 10, 10), 'US federal', 55],
    ['California, one long day', week(9, 8, 8, 13, 8), 'California', 49.5],
    ['California, seven days of ten', week(10, 10, 10, 10, 10, 10, 10), 'California', 86],
    ['federal, the same', week(10, 10, 10, 10, 10, 10, 10), 'US federal', 85],
  ] as const)('%s', (_, hours, rules, expected) => {
    expect(payHours(splitWeek(hours, OVERTIME_RULES[rules]))).toBeCloseTo(expected, 9);
  });

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
  const hoursOf = (pieces: ReturnType<typeof piece>[]) =>
    Object.fromEntries(paySegments(pieces, rule).map(({ rule: kind, hours }) => [kind, hours]));

  // Arithmetic by hand.
  it("counts the day across two jobs, then the night by the site's clock", () => {
    expect(hoursOf([piece('2026-10-29T12:00:00Z', '2026-10-29T23:00:00Z')])).toEqual({
      straight: 8,
      overtime: 3,
    });
    expect(hoursOf([piece('2026-10-30T00:00:00Z', '2026-10-30T03:00:00Z')])).toEqual({
      straight: 1,
      night: 2,
    });
  });

  it('pays the hour that comes twice in autumn twice, because it is worked twice', () => {
    // 00:30 to 03:30 local on 1 November 2026 lasts four hours.
    expect(hoursOf([piece('2026-11-01T05:30:00Z', '2026-11-01T09:30:00Z')])).toEqual({ night: 4 });
  });

  it('moves straight hours beyond forty a week into overtime, never an hour twice', () => {
    const days = ['02', '03', '04', '05', '06', '07'].map((day) =>
      piece(`2026-11-${day}T14:00:00Z`, `2026-11-${day}T22:00:00Z`),
    );
    expect(hoursOf(days)).toEqual({ straight: 40, overtime: 8 });
  });
});

const card: RateCard = {
  id: 'test',
  currency: 'USD',
  validFrom: '2026-01-01',
  validUntil: '2026-12-31',
  labour: [
    { labourClass: 'lead', costPerHour_minor: 7800 },
    { labourClass: 'tech', costPerHour_minor: 6400 },
  ],
  travelPerHour_minor: 5200,
  vehiclePerKilometre_minor: 45,
  overtime: {
    dailyAfter_h: 8,
    dailyMultiplier: 1.5,
    weeklyAfter_h: null,
    weeklyMultiplier: 1,
    nightFrom: '20:00',
    nightTo: '06:00',
    nightMultiplier: 1,
  },
  gearPerDay: [{ kind: 'vacuum pump', costPerDay_minor: 2400 }],
  cylinderPerDay_minor: 250,
  refrigerants: [
    { refrigerant: 'R-134a', price: { minorUnits: 1240, per_kg: 0.45359237 }, validUntil: '2026-11-01' },
  ],
  nitrogenCylinder_minor: 4600,
  filterDrier_minor: 8500,
  vacuumOilChange_minor: 1800,
  permit_minor: 12000,
  overhead: 0.14,
  margin: 0.28,
  tax: 0.065,
};

const usage: JobUsage = {
  jobId: '1',
  pay: [
    { jobId: '1', labourClass: 'lead', rule: 'straight', multiplier: 1, hours: 10 },
    { jobId: '1', labourClass: 'tech', rule: 'overtime', multiplier: 1.5, hours: 2 },
  ],
  travel_h: 1.5,
  travel_km: 40,
  gearDays: [{ kind: 'vacuum pump', days: 2 }],
  cylinderDays: 6,
  refrigerant: { name: 'R-134a', mass_kg: 4.5359237 },
  nitrogenCylinders: 1,
  filterDriers: 2,
  oilChanges: 1,
  contingencyHours: 3,
  due: '2026-11-05',
};

describe('a priced job', () => {
  it('has lines, totals and validity as worked out by hand', () => {
    const quote = priceJob(usage, card);
    // 78000 + 19200 + 7800 + 1800 + 4800 + 1500 + 12400 + 4600 + 17000 + 1800 + 12000 = 160900.
    expect(quote.directCost.minorUnits).toBe(160_900);
    expect(quote.overhead.minorUnits).toBe(22_526);
    // Mean labour hour (78000 + 19200)/12 = 8100; three hours.
    expect(quote.contingency.minorUnits).toBe(24_300);
    expect(quote.cost.minorUnits).toBe(207_726);
    expect(quote.priceBeforeTax.minorUnits).toBe(Math.round(207_726 / 0.72));
    expect(quote.goodUntil).toBe('2026-11-01');
    expect(quote.notes.join(' ')).toMatch(/lapses on 2026-11-01/);
  });

  it('adds up, whatever is used, and keeps the margin to a cent', () => {
    const amount = fc.double({ min: 0, max: 500, noNaN: true });
    const share = fc.double({ min: 0, max: 0.6, noNaN: true });
    fc.assert(
      fc.property(
        amount,
        amount,
        amount,
        amount,
        share,
        share,
        share,
        (hours, travel_h, mass_kg, contingencyHours, overhead, keep, tax) => {
          const quote = priceJob(
            {
              ...usage,
              pay: [{ ...usage.pay[0]!, hours }],
              travel_h,
              refrigerant: { name: 'R-134a', mass_kg },
              contingencyHours,
            },
            { ...card, overhead, margin: keep, tax },
          );
          const lines = quote.lines.reduce((total, { cost }) => total + cost.minorUnits, 0);
          expect(quote.directCost.minorUnits).toBe(lines);
          expect(quote.cost.minorUnits).toBe(
            lines + quote.overhead.minorUnits + quote.contingency.minorUnits,
          );
          expect(quote.priceBeforeTax.minorUnits).toBe(quote.cost.minorUnits + quote.margin.minorUnits);
          expect(quote.price.minorUnits).toBe(quote.priceBeforeTax.minorUnits + quote.tax.minorUnits);
          expect(
            Math.abs(quote.margin.minorUnits - keep * quote.priceBeforeTax.minorUnits),
          ).toBeLessThanOrEqual(1);
          for (const { cost } of quote.lines) expect(Number.isInteger(cost.minorUnits)).toBe(true);
        },
      ),
    );
  });

  it('says when the card has no price for the refrigerant', () => {
    const quote = priceJob({ ...usage, refrigerant: { name: 'R-22', mass_kg: 1 } }, card);
    expect(quote.notes.join(' ')).toMatch(/no price for R-22/);
  });
});
