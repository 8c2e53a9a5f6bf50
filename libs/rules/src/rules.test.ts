import { CalculationInputError, OutOfDomainError } from '@brimline/quantities';
import { refrigerant, refrigerantNames } from '@brimline/refrigerants';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { daysAfter, daysBetween, isDay, lastDayOf } from './calendar-day.ts';
import {
  additionsBefore,
  calculations,
  CAUTION_TEXTS,
  cylinderFillLimit,
  euLeakCheck,
  leakRate,
  leakRule,
  liquidShareAt131F,
  recoveryLevelOfClass,
  requalification,
  requiredRecoveryLevel,
  standingVacuum,
  testPressure,
  whyNotFill,
} from './index.ts';

const all = refrigerantNames().map((name) => refrigerant(name));
const run = (name: string, input: Record<string, unknown>) => {
  const found = calculations.find((calculation) => calculation.name === name);
  if (!found) throw new Error(`no calculation ${name}`);
  return found.run(input);
};

describe('laws over all refrigerants', () => {
  it('never lets liquid fill a cylinder at 131 degF under the guideline', () => {
    for (const r of all) expect(liquidShareAt131F(r, 0.8)).toBeLessThan(1);
  });

  it('takes as tighter the lower of guideline and law', () => {
    for (const r of all) {
      const of = (rule: 'tighter' | 'guideline' | 'regulation') =>
        cylinderFillLimit({ refrigerant: r, waterCapacity_kg: 100, tare_kg: 10, rule }).net_kg;
      expect(of('tighter')).toBe(Math.min(of('guideline'), of('regulation')));
    }
  });

  it('never asks a higher pressure of a larger charge or a newer machine', () => {
    const charge = fc.double({ min: 1, max: 2000, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(...all), charge, charge, (r, one, other) => {
        const of = (charge_kg: number, recoveryMachineMade: string) =>
          requiredRecoveryLevel({ refrigerant: r, charge_kg, recoveryMachineMade }).pressure_Pa;
        const [small, large] = [Math.min(one, other), Math.max(one, other)];
        expect(of(large, '2015-01-01')).toBeLessThanOrEqual(of(small, '2015-01-01'));
        expect(of(small, '2015-01-01')).toBeLessThanOrEqual(of(small, '1990-01-01'));
      }),
    );
  });

  it('gives every answer a citation and a day', () => {
    for (const calculation of calculations) {
      const output = calculation.run(calculation.example);
      expect(String(output['citation']).length).toBeGreaterThan(5);
      expect(isDay(String(output['trueOn']))).toBe(true);
    }
  });
});

describe('a cylinder limit', () => {
  const cylinder = { refrigerant: refrigerant('R-134a'), waterCapacity_kg: 20, tare_kg: 12 };

  it('goes by the stamp where that is lower, and says so', () => {
    expect(cylinderFillLimit({ ...cylinder, stampedNet_kg: 15 })).toMatchObject({
      net_kg: 15,
      gross_kg: 27,
      rule: 'stamp',
    });
    expect(cylinderFillLimit({ ...cylinder, stampedNet_kg: 50 }).rule).toBe('guideline');
  });

  it('warns that the guideline leaves flammable refrigerants out', () => {
    const { notes } = cylinderFillLimit({ ...cylinder, refrigerant: refrigerant('R-32') });
    expect(notes.join(' ')).toMatch(/non-flammable refrigerants only/u);
  });

  it.each([
    [0, 1],
    [-1, 1],
    [Number.NaN, 1],
    [20, -1],
  ])('refuses a capacity of %d with tare %d', (waterCapacity_kg, tare_kg) => {
    expect(() => cylinderFillLimit({ ...cylinder, waterCapacity_kg, tare_kg })).toThrow(OutOfDomainError);
  });

  it('may not be used single-trip or overdue', () => {
    expect(whyNotFill({ refillable: false, requalificationDue: '2030-01-01', on: '2026-01-01' })).toMatch(
      /single/u,
    );
    expect(whyNotFill({ refillable: true, requalificationDue: '2026-01-01', on: '2026-01-02' })).toMatch(
      /overdue/u,
    );
    expect(whyNotFill({ refillable: true, requalificationDue: '2026-01-01', on: '2026-01-01' })).toBeNull();
    expect(() => testPressure('DOT-39', 1e6)).toThrow(OutOfDomainError);
    expect(() => requalification({ lastRequalified: '2021-13', service: 'new' })).toThrow(OutOfDomainError);
    expect(() => requalification({ lastRequalified: '2021-06', service: 'new', period_years: 7 })).toThrow(
      /5, 10, 12/u,
    );
  });
});

describe('refusals', () => {
  it('refuses a rate without charge or without days', () => {
    const history = { method: 'annualizing', added_kg: 5, daysSinceLastAddition: 0 } as const;
    expect(() => leakRate({ charge_kg: 100, history })).toThrow(/days/u);
    expect(() => leakRate({ charge_kg: 0, history: { ...history, daysSinceLastAddition: 10 } })).toThrow(
      /charge/u,
    );
    expect(() => additionsBefore('2026-01-01', [{ date: '2026-01-02', added_kg: 1 }])).toThrow(
      OutOfDomainError,
    );
  });

  it('refuses a leak rule before its reading holds', () => {
    expect(() => leakRule({ refrigerant: refrigerant('R-22'), charge_kg: 100, on: '2019-12-31' })).toThrow(
      /2020-04-10/u,
    );
  });

  it('refuses a day that is none', () => {
    for (const recoveryMachineMade of ['2015', '2015-02-30', '15 Nov 1993', '']) {
      expect(() => recoveryLevelOfClass('low', { charge_kg: 100, recoveryMachineMade })).toThrow(
        OutOfDomainError,
      );
    }
  });

  it('refuses to judge a vacuum that began above the criterion', () => {
    expect(() => standingVacuum({ criterion: 'piping', start_Pa: 60, end_Pa: 61, elapsed_s: 3600 })).toThrow(
      OutOfDomainError,
    );
  });

  it.each([
    ['recovery-level', { refrigerant: 'R-134a', charge_kg: 400, recoveryMachineMade: 'yesterday' }],
    ['recovery-level', { refrigerant: 'R-134a', charge_kg: -1, recoveryMachineMade: '2015-01-01' }],
    ['recovery-level', { refrigerant: 'R-13', charge_kg: 400, recoveryMachineMade: '2015-01-01' }],
    ['cylinder-fill', { refrigerant: 'R-134a', waterCapacity_kg: 20, tare_kg: 1, rule: 'loose' }],
    ['cylinder-fill', { refrigerant: 'R-134a', waterCapacity_kg: 20 }],
    ['leak-rate', { method: 'guess', charge_kg: 100, added_kg: 1, days: 10 }],
    ['leak-rate', { method: 'annualizing', charge_kg: 100, added_kg: 1 }],
    ['leak-rate', { method: 'annualizing', charge_kg: 100, history: [{ daysAgo: 1, added_kg: 2 }] }],
    ['leak-rate', { method: 'rolling', charge_kg: 100, history: [{ date: '2026-01-01', added_kg: 2 }] }],
    ['requalification', { lastRequalified: 'June', service: 'new' }],
  ])('%s refuses %j, naming the field', (name, input) => {
    expect(() => run(name, input)).toThrow(CalculationInputError);
  });
});

describe('the leak-rate calculation', () => {
  it('reads a history by days ago or by dates alike', () => {
    const byDates = run('leak-rate', {
      method: 'rolling',
      charge_kg: 1000,
      on: '2026-06-30',
      history: [
        { date: '2026-06-01', added_kg: 30 },
        { date: '2025-06-29', added_kg: 500 },
        { date: '2025-07-01', added_kg: 25 },
      ],
    });
    // Arithmetic: 366 days lie between 2025-06-29 and 2026-06-30, so the 500 kg are out and 55 of 1000 remain.
    expect(byDates['percentPerYear']).toBeCloseTo(5.5, 9);
    const byDays = run('leak-rate', {
      method: 'annualizing',
      charge_kg: 1200,
      history: [
        { daysAgo: 0, added_kg: 45 },
        { daysAgo: 90, added_kg: 10 },
      ],
    });
    expect(byDays['percentPerYear']).toBeCloseTo(15.2083, 3);
  });
});

describe('European leak checks', () => {
  it('halve with a detection system, spare small hermetic systems and send ozone gases elsewhere', () => {
    const of = (name: string, charge_kg: number, more = {}) =>
      euLeakCheck({ refrigerant: refrigerant(name), charge_kg, leakDetection: false, ...more });
    expect(of('R-134a', 6, { hermetic: true }).interval_months).toBeNull();
    expect(of('R-134a', 6).interval_months).toBe(12);
    expect(of('R-134a', 6, { leakDetection: true }).interval_months).toBe(24);
    expect(of('R-134a', 3).interval_months).toBeNull();
    expect(of('R-1233zd(E)', 120)).toMatchObject({ interval_months: 3, detectionObligatory: true });
    expect(of('R-22', 500).notes.join(' ')).toMatch(/ozone/u);
  });
});

describe('days', () => {
  it('count as the calendar does', () => {
    expect(daysAfter('2024-02-28', 1)).toBe('2024-02-29');
    expect(daysAfter('2026-12-31', 1)).toBe('2027-01-01');
    expect(daysBetween('2026-03-10', '2026-04-09')).toBe(30);
    expect(lastDayOf('2024-02')).toBe('2024-02-29');
    expect(lastDayOf('2026-12')).toBe('2026-12-31');
  });
});

describe('cautions', () => {
  it('each defer to local code and licensed practice', () => {
    for (const caution of Object.values(CAUTION_TEXTS)) {
      expect(caution).toMatch(/Local code and the licensed technician decide\.$/u);
    }
    expect(Object.keys(CAUTION_TEXTS)).toHaveLength(11);
  });
});
