import fc from 'fast-check';
import { type Estimate, estimateJob, siteVisit } from '@brimline/estimating';
import { describe, expect, it } from 'vitest';
import { estimated, LB, refusedFor, request, spanOf } from '../support/estimate-requests.ts';
import { expectSound } from '../support/expect-sound.ts';
import { sampleFirm } from '../support/sample-firm.ts';

const firm = sampleFirm();
/** A 1 lb/min class machine rated 7.5 lb/min direct, 3/8 in full-bore hoses, cores out. */
const THUMB = {
  machineIds: ['RM-01'],
  hoseSetId: 'TH-01',
  coresRemoved: true,
  coolerBypassed: true,
} as const;

/** What moves refrigerant out and in. */
const movingSpan = (estimate: Estimate): number =>
  spanOf(estimate, 'liquid recovery') +
  spanOf(estimate, 'vapour recovery') +
  spanOf(estimate, 'liquid recharge');

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
    for (const charge_lb of [230, 240, 250]) {
      const minutes = (method: 'push-pull' | 'direct'): number => {
        const chiller = { nameplateCharge_kg: charge_lb * LB, internalVolume_m3: 0.255 };
        return (
          spanOf(estimated('1101', { job: { setup: { ...THUMB, method } }, chiller }), 'liquid recovery') / 60
        );
      };
      expect(minutes('push-pull')).toBeGreaterThan(20);
      expect(minutes('push-pull')).toBeLessThan(36);
      expect(minutes('direct')).toBeGreaterThan(45);
      expect(minutes('direct')).toBeLessThan(61);
    }
  });

  it('takes about half the time by push-pull on a large charge: common practice, no source', () => {
    const out = (method: 'push-pull' | 'direct'): number =>
      spanOf(estimated('1102', { job: { setup: { ...THUMB, method } } }), 'liquid recovery');
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
    expect(refusedFor('1101', { chiller: { nameplateCharge_kg: null } })).toContain('nameplate-unknown');
    expect(refusedFor('1105', { job: { missing_kg: 500 } })).toContain('overcharge');
    expect(refusedFor('1102', { chiller: { nameplateCharge_kg: 9000, internalVolume_m3: 30 } })).toContain(
      'too-few-cylinders',
    );
    expect(refusedFor('1101', { chiller: { refrigerant: 'R-999' } })).toContain('unknown-refrigerant');
  });

  it('is never slowed by a wider hose or a second machine', () => {
    fc.assert(
      fc.property(
        fc.record({
          charge_lb: fc.double({ min: 100, max: 1500, noNaN: true }),
          bore_mm: fc.double({ min: 5, max: 18, noNaN: true }),
          wider: fc.double({ min: 1, max: 1.5, noNaN: true }),
          method: fc.constantFrom('direct' as const, 'push-pull' as const),
        }),
        ({ charge_lb, bore_mm, wider, method }) => {
          const moving = (factor: number, machineIds: readonly string[]): number => {
            const original = request('1102');
            const gear = original.gear.map((unit) => {
              if (unit.kind !== 'hose set' || unit.use !== 'transfer') return unit;
              const bore_m = (bore_mm / 1000) * factor;
              return { ...unit, bore_m, fittingBore_m: bore_m * 0.8, valveBore_m: bore_m * 0.75 };
            });
            const setup = {
              method,
              machineIds,
              hoseSetId: 'TH-01',
              coresRemoved: true,
              coolerBypassed: true,
            };
            return movingSpan(
              estimated('1102', {
                job: { setup },
                chiller: { nameplateCharge_kg: charge_lb * LB, internalVolume_m3: 1, liquidPort_m: 0.05 },
                request: { gear, comparesWays: false, samples: 200 },
              }),
            );
          };
          const one = moving(1, ['RM-01']);
          expect(moving(wider, ['RM-01'])).toBeLessThanOrEqual(one * (1 + 1e-6));
          expect(moving(1, ['RM-01', 'RM-02'])).toBeLessThanOrEqual(one * (1 + 1e-6));
        },
      ),
      { numRuns: 40 },
    );
  });

  it('never costs more at the wanted certainty when the firm owns a further machine', () => {
    const full = request('1102');
    const best = (ids: readonly string[]): number => {
      const gear = full.gear.filter(({ id, kind }) => kind !== 'recovery machine' || ids.includes(id));
      const ways = estimated('1102', { request: { gear } }).ways.filter(
        ({ forbidden }) => forbidden.length === 0,
      );
      return Math.min(...ways.map(({ cost_minor }) => cost_minor!));
    };
    expect(best(['RM-01', 'RM-02'])).toBeLessThanOrEqual(best(['RM-01']));
    expect(best(['RM-01', 'RM-02', 'RM-05'])).toBeLessThanOrEqual(best(['RM-01', 'RM-02']));
  });
});

describe('the ways side by side', () => {
  it('name what one change would buy, and keep the choice with the office', () => {
    const { ways } = estimated('1102');
    const chosen = ways.find((way) => way.chosen)!;
    const whats = ways.flatMap(({ change }) => (change ? [change.what] : []));
    expect(whats).toContain('leave the cores in');
    expect(whats.some((what) => what.startsWith('direct instead of'))).toBe(true);
    const small = estimated('1103').ways.flatMap(({ change }) => (change ? [change.what] : []));
    expect(small.some((what) => what.endsWith('lb class cylinders'))).toBe(true);
    expect(small).toContain('warm water first');
    for (const { change, elapsed_s, cost_minor, setup } of ways) {
      if (!change) continue;
      expect(change.elapsed_s).toBeCloseTo(elapsed_s - chosen.elapsed_s, 3);
      expect(change.cost_minor).toBeCloseTo(cost_minor! - chosen.cost_minor!, -1);
      if (change.what === 'leave the cores in') {
        expect(setup.coresRemoved).toBe(false);
        expect(change.elapsed_s).toBeGreaterThan(0);
      }
    }
    const wished = estimated('1102', { job: { setup: { method: 'direct', coresRemoved: false } } });
    expect(wished.setup).toMatchObject({ method: 'direct', coresRemoved: false });
  });

  it('leave out what is no way, each with its reason', () => {
    const { ways } = estimated('1103');
    const forbidden = ways.filter((way) => way.forbidden.length > 0);
    expect(forbidden.map(({ forbidden: why }) => why.join()).join()).toMatch(/not built for low pressure/);
    expect(forbidden.some(({ setup }) => setup.entry === 'evaporator')).toBe(true);
    expect(refusedFor('1109', { job: { setup: { entry: 'evaporator' } } })).toContain('entry-can-freeze');
  });

  it('compare circuits together with one after the other', () => {
    const setup = { circuitOrder: 'one after the other' } as const;
    const [together, inTurn] = [estimated('1104'), estimated('1104', { job: { setup } })];
    expect(spanOf(inTurn, 'rig up')).toBeGreaterThan(spanOf(together, 'rig up'));
    expect(inTurn.phases.map(({ title }) => title)).toContain('liquid recovery, circuit 2');
    expect(inTurn.account.recovered_kg).toBeCloseTo(together.account.recovered_kg, 1);
    expect(together.ways.some(({ change }) => change?.what === 'circuits one after the other')).toBe(true);
    // The second circuit is full when the hoses come to it.
    const at = inTurn.curve.steps.find(({ title }) => title === 'liquid recovery, circuit 2')!.from_s;
    const first = inTurn.curve.points[0]!;
    expect(inTurn.curve.points.find(({ time_s }) => time_s >= at)!.pressure_Pa).toBeCloseTo(
      first.pressure_Pa,
      0,
    );
    const half = estimated('1104', { job: { circuits: 1 } });
    expect(half.account.nameplate_kg).toBeCloseTo(together.account.nameplate_kg / 2, 6);
  });
});

describe('what somebody knows of the machine', () => {
  it('replaces what was assumed', () => {
    const assumedIds = (estimate: Estimate): string[] => estimate.assumptions.map(({ id }) => id);
    const blind = estimated('1112', { job: { scope: 'recover and recharge', moisture_kg: null } });
    const seen = estimated('1112', {
      job: {
        scope: 'recover and recharge',
        moisture_kg: 0.02,
        known: {
          internalVolume_m3: 0.3,
          presentCharge_kg: 100,
          trappedShare: 0.03,
          hoseRun_m: 6,
          ambient_K: 295,
          lift_m: 1,
        },
      },
    });
    for (const id of [
      'internal-volume',
      'moisture',
      'present-charge',
      'trapped-liquid',
      'hose-run',
      'ambient',
    ]) {
      expect(assumedIds(blind)).toContain(id);
      expect(assumedIds(seen)).not.toContain(id);
    }
    const volume = blind.assumptions.find(({ id }) => id === 'internal-volume')!;
    expect(volume.range!.atLow_s).toBeLessThan(0);
    expect(volume.range!.atHigh_s).toBeGreaterThan(0);
  });

  it('turns a short charge into refrigerant to bring, and leaves an overcharge in its cylinder', () => {
    const plate_kg = estimated('1101').account.nameplate_kg;
    const short = estimated('1101', { job: { known: { presentCharge_kg: plate_kg * 0.7 } } });
    expect(short.shortage.before_kg).toBeCloseTo(plate_kg * 0.3, 6);
    expect(short.shortage.toBring_kg).toBeGreaterThan(plate_kg * 0.3);
    expect(short.account.after_kg).toBe(plate_kg);
    const over = estimated('1101', { job: { known: { presentCharge_kg: plate_kg * 1.2 } } });
    expect(over.account.after_kg).toBe(plate_kg);
    expect(over.shortage.surplus_kg).toBeGreaterThan(plate_kg * 0.1);
    expect(over.account.fromStock_kg).toBe(0);
  });

  it('lets a second job of a visit begin without being let in and unloading again', () => {
    const alone = estimated('1111');
    const along = estimated('1111', { job: { sameVisitAs: '1101' } });
    expect(spanOf(alone, 'rig up') - spanOf(along, 'rig up')).toBeGreaterThan(1200);
    expect(spanOf(alone, 'arrive and lock out')).toBeGreaterThan(spanOf(along, 'arrive and lock out'));
  });

  it('lets vapour in first where a machine that lost its liquid stands below freezing saturation', () => {
    const chiller = { evaporatorFluid: 'water' as const, freezingPoint_K: 273.15 };
    const idle = (pressure_Pa_gauge: number) => ({
      job: { missing_kg: null, idleReading: { pressure_Pa_gauge, temperature_K: 290 } },
      chiller,
    });
    const cold = estimated('1105', idle(150e3));
    expect(spanOf(cold, 'vapour pre-charge')).toBeGreaterThan(0);
    expect(cold.topUp!.basis).toBe('pressure and temperature');
    expect(cold.account.after_kg).toBe(cold.account.nameplate_kg);
    expect(spanOf(estimated('1105', idle(500e3)), 'vapour pre-charge')).toBe(0);
    expect(refusedFor('1105', idle(2e6))).toContain('reading-above-saturation');
  });

  it('waits for warm oil only as long as nothing else takes', () => {
    const wait = (oilHeatUp_s: number): number =>
      spanOf(estimated('1101', { job: { oilHeatUp_s } }), 'oil heat-up');
    expect(wait(3600)).toBe(0);
    expect(wait(100 * 3600)).toBeGreaterThan(80 * 3600);
  });
});

describe('several machines on one site', () => {
  it('take longer in turn, and more people, gear and cylinders side by side', () => {
    const { inTurn, sideBySide } = siteVisit([estimated('1101'), estimated('1111'), estimated('1112')]);
    expect(sideBySide.elapsed_s).toBeLessThan(inTurn.elapsed_s);
    expect(sideBySide.attended_person_s).toBe(inTurn.attended_person_s);
    expect(sideBySide.crew).toBe(3 * inTurn.crew);
    expect(sideBySide.gear.scale).toBe(3);
    expect(inTurn.gear.scale).toBe(1);
    // 1111 is not charged back: what it fills stays full.
    const [first, second] = [estimated('1101').cylinders!, estimated('1111').cylinders!];
    expect(inTurn.cylinders).toBe(Math.max(first.needed + first.spare, second.needed + second.spare));
    expect(sideBySide.cylinders).toBe(first.needed + first.spare + second.needed + second.spare);
  });
});

describe('risk', () => {
  it('is drawn with failed tests and shared causes, and is no sum of percentiles', () => {
    const { risk, elapsed_s, phases } = estimated('1102', { request: { samples: 5000 } });
    expect(risk.loops.map(({ test }) => test)).toEqual(['pressure test', 'rise test']);
    // A wet system fails its rise test every second time: judged, no source.
    expect(risk.loops[1]!.probability).toBe(0.5);
    expect(risk.elapsed.p80_s).toBeGreaterThan(elapsed_s);
    expect(risk.drivers[0]!.kind).toBe('repeated test');
    expect(phases.length).toBeLessThan(risk.drivers.length + risk.loops.length + 5);
    expect(risk.cost!.p80_minor).toBeGreaterThan(risk.cost!.p50_minor);
  });
});
