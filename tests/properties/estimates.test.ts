import fc from 'fast-check';
import { type Estimate, estimateJob, type EstimateRequest, STANDARD_NORMS } from '@brimline/estimating';
import type { Chiller, Job } from '@brimline/firm';
import { describe, expect, it } from 'vitest';
import { sampleFirm } from '../support/sample-firm.ts';

const firm = sampleFirm();
const LB = 0.45359237;

function request(
  jobId: string,
  changes: { job?: Partial<Job>; chiller?: Partial<Chiller>; seed?: number } = {},
): EstimateRequest {
  const job = firm.jobs.find(({ id }) => id === jobId)!;
  const chiller = firm.chillers.find(({ id }) => id === job.chillerId)!;
  return {
    job: { ...job, ...changes.job },
    chiller: { ...chiller, ...changes.chiller },
    site: firm.sites.find(({ id }) => id === chiller.siteId)!,
    gear: firm.gear.filter(({ calibrationDue }) => calibrationDue === null || calibrationDue > '2026-11-15'),
    cylinders: firm.cylinders,
    norms: STANDARD_NORMS,
    spareCylinders: 1,
    seed: changes.seed ?? 1,
    samples: 400,
  };
}

function estimated(...args: Parameters<typeof request>): Estimate {
  const result = estimateJob(request(...args));
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('; '));
  return result.value;
}

const spanOf = (estimate: Estimate, kind: string): number =>
  estimate.phases.filter((phase) => phase.kind === kind).reduce((sum, { planned_s }) => sum + planned_s, 0);

/** Every law that must hold for any estimate. */
function expectSound(estimate: Estimate): void {
  const { account, curve, phases } = estimate;
  for (const phase of phases) {
    expect(phase.planned_s).toBeGreaterThan(0);
    expect(phase.elapsed.low_s).toBeLessThanOrEqual(phase.elapsed.likely_s + 1e-9);
    expect(phase.elapsed.likely_s).toBeLessThanOrEqual(phase.elapsed.high_s + 1e-9);
  }
  const total = (point: Estimate['curve']['points'][number]): number =>
    point.chiller_kg + point.transit_kg + point.cylinder_kg.reduce((sum, mass) => sum + mass, 0);
  const first = total(curve.points[0]!);
  for (const [index, point] of curve.points.entries()) {
    expect(point.pressure_Pa).toBeGreaterThan(0);
    expect(point.chiller_kg).toBeGreaterThan(-1e-6);
    if (index > 0) expect(point.time_s).toBeGreaterThanOrEqual(curve.points[index - 1]!.time_s - 1e-6);
    for (const [cylinder, mass] of point.cylinder_kg.entries()) {
      expect(mass).toBeLessThanOrEqual(curve.cylinders[cylinder]!.limit_kg + 1e-6);
      expect(mass).toBeGreaterThanOrEqual(-1e-6);
    }
    // Only what is named as lost may be missing: to the gram.
    expect(first - total(point)).toBeLessThan(account.leftAsVapour_kg + 1e-3);
    expect(first - total(point)).toBeGreaterThan(-1e-3);
  }
  expect(
    Math.abs(
      account.recovered_kg + account.leftAsVapour_kg - (account.recovered_kg > 0 ? account.before_kg : 0),
    ),
  ).toBeLessThan(1e-3);
  expect(
    Math.abs(curve.points.at(-1)!.chiller_kg - (account.after_kg || account.leftAsVapour_kg)),
  ).toBeLessThan(1e-3);
  expect(estimate.elapsed.p50_s).toBeLessThanOrEqual(estimate.elapsed.p80_s);
  expect(estimate.elapsed.p80_s).toBeLessThanOrEqual(estimate.elapsed.p90_s);
  expect(JSON.stringify(estimate)).not.toMatch(/NaN|Infinity|null,"unit"/);
}

describe('an estimate', () => {
  it('of each sample job is sound, and the impossible one says why', () => {
    for (const { id } of firm.jobs) {
      const result = estimateJob(request(id));
      if (result.ok) expectSound(result.value);
      else {
        expect(id).toBe('1110');
        expect(result.problems[0]).toMatchObject({ code: 'no-recovery-machine', path: 'gear' });
        expect(result.problems[0]!.message).toMatch(/flammable/);
      }
    }
  });

  it('meets the rules of thumb for 230 to 250 lb with full-bore hoses: common practice, no source', () => {
    // A 1 lb/min class machine rated 7.5 lb/min direct, 3/8 in full-bore hoses, cores out; one half rate for push-pull below.
    const setup = {
      machineIds: ['RM-01'],
      hoseSetId: 'TH-01',
      coresRemoved: true,
      coolerBypassed: true,
    } as const;
    for (const charge_lb of [230, 240, 250]) {
      const minutes = (method: 'push-pull' | 'direct'): number => {
        const chiller = { nameplateCharge_kg: charge_lb * LB, internalVolume_m3: 0.255 };
        return (
          spanOf(estimated('1101', { job: { setup: { ...setup, method } }, chiller }), 'liquid recovery') / 60
        );
      };
      expect(minutes('push-pull')).toBeGreaterThan(20);
      expect(minutes('push-pull')).toBeLessThan(36);
      expect(minutes('direct')).toBeGreaterThan(45);
      expect(minutes('direct')).toBeLessThan(61);
    }
  });

  it('takes about half the time by push-pull on a large charge: common practice, no source', () => {
    const setup = {
      machineIds: ['RM-01'],
      hoseSetId: 'TH-01',
      coresRemoved: true,
      coolerBypassed: true,
    } as const;
    const out = (method: 'push-pull' | 'direct'): number =>
      spanOf(estimated('1102', { job: { setup: { ...setup, method } } }), 'liquid recovery');
    expect(out('push-pull') / out('direct')).toBeGreaterThan(0.3);
    expect(out('push-pull') / out('direct')).toBeLessThan(0.65);
  });

  it('replays to the same bytes from the same request and seed, and differs by seed only in its percentiles', () => {
    expect(JSON.stringify(estimated('1102'))).toBe(JSON.stringify(estimated('1102')));
    const [one, other] = [estimated('1102'), estimated('1102', { seed: 2 })];
    expect(other.phases).toEqual(one.phases);
    expect(other.elapsed).not.toEqual(one.elapsed);
  });

  it('never takes less time for more charge in the same machine', () => {
    const setup = {
      method: 'push-pull',
      machineIds: ['RM-05'],
      hoseSetId: 'TH-01',
      coresRemoved: true,
    } as const;
    let before = 0;
    for (const charge_lb of [205, 260, 320, 380, 440]) {
      const estimate = estimated('1101', {
        job: { setup },
        chiller: { nameplateCharge_kg: charge_lb * LB, internalVolume_m3: 0.6 },
      });
      const moving_s =
        spanOf(estimate, 'liquid recovery') +
        spanOf(estimate, 'vapour recovery') +
        spanOf(estimate, 'liquid recharge');
      expect(moving_s).toBeGreaterThan(before);
      before = moving_s;
    }
  });

  it('stops at an unreadable plate, an overcharge, and too few cylinders, and says which', () => {
    const codes = (...args: Parameters<typeof request>): string[] => {
      const result = estimateJob(request(...args));
      return result.ok ? [] : result.problems.map(({ code }) => code);
    };
    expect(codes('1101', { chiller: { nameplateCharge_kg: null } })).toContain('nameplate-unknown');
    expect(codes('1105', { job: { missing_kg: 500 } })).toContain('overcharge');
    expect(codes('1102', { chiller: { nameplateCharge_kg: 9000, internalVolume_m3: 30 } })).toContain(
      'too-few-cylinders',
    );
    expect(codes('1101', { chiller: { refrigerant: 'R-999' } })).toContain('unknown-refrigerant');
  });

  it('of any plausible job is sound or refused in words', () => {
    const jobs = fc.record({
      id: fc.constantFrom('1101', '1102', '1103', '1105', '1106', '1109', '1111', '1112'),
      charge_lb: fc.integer({ min: 40, max: 2500 }),
      litresPerKilogram: fc.double({ min: 1.6, max: 6, noNaN: true }),
      evacuation: fc.constantFrom<'deep' | 'triple'>('deep', 'triple'),
      moisture_kg: fc.option(fc.double({ min: 0, max: 2, noNaN: true })),
      openWork_s: fc.integer({ min: 600, max: 100_000 }),
      method: fc.constantFrom<'direct' | 'push-pull' | undefined>('direct', 'push-pull', undefined),
      coresRemoved: fc.boolean(),
      waterFlow: fc.boolean(),
      isMeasured: fc.boolean(),
    });
    let sound = 0;
    fc.assert(
      fc.property(jobs, (one) => {
        const charge_kg = one.charge_lb * LB;
        const base = firm.jobs.find(({ id }) => id === one.id)!;
        const result = estimateJob(
          request(one.id, {
            job: {
              evacuation: one.evacuation,
              moisture_kg: one.moisture_kg,
              openWork_s: one.openWork_s,
              missing_kg: base.missing_kg === null ? null : charge_kg / 4,
              setup: { coresRemoved: one.coresRemoved, ...(one.method ? { method: one.method } : {}) },
            },
            chiller: {
              nameplateCharge_kg: charge_kg,
              internalVolume_m3: one.isMeasured ? (charge_kg * one.litresPerKilogram) / 1000 : null,
              waterFlow: one.waterFlow,
            },
          }),
        );
        if (result.ok) {
          sound += 1;
          expectSound(result.value);
        } else
          for (const { code, path, message } of result.problems)
            expect([code, path, message].every((text) => text !== '')).toBe(true);
      }),
      { numRuns: 120 },
    );
    expect(sound).toBeGreaterThan(30);
  });
});
