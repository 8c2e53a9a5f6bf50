import fc from 'fast-check';
import type { RateCard } from '@brimline/firm';
import { describe, expect, it } from 'vitest';
import { calculations } from './calculations.ts';
import * as margin from './margin.ts';
import { type JobUsage, priceJob } from './price-job.ts';
import { quantityAdjustment } from './quantity-clause.ts';

describe('margin and markup', () => {
  it.each([
    // Trade article on mark-up and margin (Contracting Business, 25 Apr 2024), read.
    ['price from markup', margin.priceFromMarkup(100, 0.2), 120],
    ['margin of that price', margin.marginOf(100, 120) * 100, 16.6667],
    ['price from margin', margin.priceFromMargin(100, 0.2), 125],
    // Computed independently with numpy.
    ['markup of a margin', margin.markupFromMargin(0.35) * 100, 53.8462],
    [
      'margin of a markup, the other way',
      margin.marginOf(100, margin.priceFromMarkup(100, 0.2)) * 100,
      16.6667,
    ],
    ['margin left after a discount', margin.marginOf(10_000, 12_500 * 0.95) * 100, 15.7895],
    ['loaded hour', margin.loadedHour(35, 0.35, 0.75), 63],
    [
      'price change beyond the deadband',
      quantityAdjustment({ quoted: 2000, actual: 2130, rate: 18, deadband: 0.02 }),
      1620,
    ],
    // By hand: 60 below, 20 beyond the deadband of 40; within it nothing.
    ['given back', quantityAdjustment({ quoted: 2000, actual: 1940, rate: 18, deadband: 0.02 }), -360],
    ['within it', quantityAdjustment({ quoted: 2000, actual: 2040, rate: 18, deadband: 0.02 }), 0],
  ])('%s', (_, value, expected) => {
    expect(value).toBeCloseTo(expected, 3);
  });

  it('gives back the margin that a price was made with, and a markup is never a margin', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 1e6, noNaN: true }),
        fc.double({ min: 0.01, max: 0.95, noNaN: true }),
        (cost, share) => {
          const price = margin.priceFromMargin(cost, share);
          expect(margin.marginOf(cost, price)).toBeCloseTo(share, 9);
          expect(margin.priceFromMarkup(cost, margin.markupFromMargin(share)) / price).toBeCloseTo(1, 9);
          expect(margin.priceFromMarkup(cost, share)).toBeLessThan(price);
        },
      ),
    );
  });

  it('refuses a margin that leaves nothing for the cost', () => {
    expect(() => margin.priceFromMargin(100, 1)).toThrow(/0 to 0.95/);
    expect(() => margin.marginOf(100, 0)).toThrow(/above 0/);
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
          for (const { cost, quantity, unitCost_minor } of quote.lines) {
            expect(Number.isInteger(cost.minorUnits) && Number.isInteger(unitCost_minor)).toBe(true);
            expect(Math.abs(cost.minorUnits - quantity * unitCost_minor)).toBeLessThanOrEqual(0.5 + 1e-6);
          }
        },
      ),
    );
  });

  it('says what it could not price, and what lapses before the work is due', () => {
    const quote = priceJob(
      {
        ...usage,
        refrigerant: { name: 'R-22', mass_kg: 1 },
        gearDays: [...usage.gearDays, { kind: 'heater', days: 2 }],
        due: '2027-01-08',
      },
      card,
    );
    expect(quote.unpriced).toEqual(['day rate of a heater', 'price of R-22']);
    expect(quote.notes).toEqual([
      'New R-22 is not in this price.',
      'These rates lapse on 2026-12-31, before the work is due.',
    ]);
    expect(quote.goodUntil).toBe('2026-12-31');
  });

  it('refuses labour of a class that the card does not hold, rather than give it away', () => {
    const pay = [{ ...usage.pay[0]!, labourClass: 'diver' }];
    expect(() => priceJob({ ...usage, pay }, card)).toThrow(/labour class is diver/);
  });
});

describe('calculations', () => {
  it.each(calculations.map((one) => [one.name, one] as const))(
    '%s runs its example',
    (_, { example, run, results }) => {
      expect(Object.keys(run(example))).toEqual(results.map(({ name }) => name));
    },
  );
});
