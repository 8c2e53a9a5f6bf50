import type { Chiller, Job } from '@brimline/firm';
import { refrigerant, saturatedVapourDensity } from '@brimline/refrigerants';
import { describe, expect, it } from 'vitest';
import { type TopUpInput, topUpFacts } from './missing-charge.ts';

const JOB = {
  id: 'T1',
  title: 'top-up',
  chillerId: 'CH',
  scope: 'top-up',
  notBefore: '2026-10-29T07:00',
  due: '2026-10-31T17:00',
  openWork_s: 0,
  missing_kg: null,
  evacuation: 'deep',
  evacuationTarget_Pa: 66,
  moisture_kg: null,
  setup: {},
  notes: '',
} as const satisfies Job;

function facts(job: Partial<Job>, nameplate_kg = 200) {
  const input: TopUpInput = {
    job: { ...JOB, ...job },
    chiller: {} as Chiller,
    gas: refrigerant('R-134a'),
    nameplate_kg,
    volume_m3: 0.5,
    atmosphere_Pa: 101_325,
  };
  return topUpFacts(input);
}

const codes = (job: Partial<Job>): string[] => {
  const found = facts(job);
  return found.ok ? [] : found.problems.map(({ code }) => code);
};

describe('what is missing', () => {
  it('is read from a pressure below saturation: then only vapour is left', () => {
    // R-134a at 20 degC saturates at 571.7 kPa (reference equation, from memory): 200 kPa gauge lies well below.
    const found = facts({ idleReading: { pressure_Pa_gauge: 200e3, temperature_K: 293.15 } });
    if (!found.ok) throw new Error(found.problems[0]!.message);
    expect(found.value.basis).toBe('pressure and temperature');
    // An ideal gas would leave p V M/(R T) = 6.3 kg (own sum); the real one some per cent more.
    const left_kg = 200 - found.value.missing_kg;
    expect(left_kg).toBeGreaterThan(6.3);
    expect(left_kg).toBeLessThan(7.2);
    expect(left_kg).toBeLessThan(saturatedVapourDensity(refrigerant('R-134a'), 293.15) * 0.5);
  });

  it('is not read from saturation, from air, or from a vacuum that can not be', () => {
    const reading = (pressure_Pa_gauge: number) => ({
      idleReading: { pressure_Pa_gauge, temperature_K: 293.15 },
    });
    expect(codes(reading(470e3))).toEqual(['reading-tells-nothing']);
    expect(codes(reading(700e3))).toEqual(['reading-above-saturation']);
    expect(codes(reading(-110e3))).toEqual(['reading-impossible']);
    expect(codes({})).toEqual(['missing-unknown']);
  });

  it('follows the records of earlier additions', () => {
    const additions = [
      { on: '2026-01-01', added_kg: 10 },
      { on: '2026-07-20', added_kg: 20 },
    ];
    const found = facts({ leakRecord: { use: 'comfort cooling', additions } });
    if (!found.ok) throw new Error(found.problems[0]!.message);
    // 20 kg in 200 days, then 101 days: 10.1 kg (own sum).
    expect(found.value.missing_kg).toBeCloseTo(10.1, 9);
    // 40 CFR 84.102 annualizing: 10.1/200/(101/365) = 18.25 % (own sum), above 10 %.
    expect(found.value.percentPerYear).toBeCloseTo(18.25, 6);
    expect(found.value).toMatchObject({ exceeded: true, threshold: 10, basis: 'records' });
    expect(found.value.withinRate_kg).toBeCloseTo((0.1 * 200 * 101) / 365, 9);
    expect(codes({ leakRecord: { use: 'comfort cooling', additions: additions.slice(0, 1) } })).toEqual([
      'records-too-few',
    ]);
  });
});
