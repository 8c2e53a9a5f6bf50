import fc from 'fast-check';
import { estimateJob, type EstimateRequest } from '@brimline/estimating';
import { type KnownFacts, SCOPES, type SetupWishes } from '@brimline/firm';
import { refrigerantNames } from '@brimline/refrigerants';
import { describe, expect, it } from 'vitest';
import { LB, request } from '../support/estimate-requests.ts';
import { expectSound } from '../support/expect-sound.ts';

/** A few kinds of gear are enough for the laws, and keep a thousand jobs quick. */
const GEAR = new Set([
  ...[
    'RM-01',
    'RM-02',
    'RM-05',
    'RM-07',
    'RM-08',
    'VP-01',
    'VP-04',
    'TH-01',
    'TH-02',
    'TH-06',
    'VH-01',
    'VH-04',
  ],
]);
const CLASSES = ['low', 'medium', 'high', 'very high'] as const;
const base = request('1101');
const gear = base.gear
  .filter(({ id, kind }) => GEAR.has(id) || !['recovery machine', 'vacuum pump', 'hose set'].includes(kind))
  .map((unit) => (unit.id === 'RM-05' ? { ...unit, flammableSafe: true, pressureClasses: CLASSES } : unit));

const double = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const maybe = <Value>(arbitrary: fc.Arbitrary<Value>) => fc.option(arbitrary, { nil: undefined, freq: 2 });

const jobs = fc.record({
  scope: fc.constantFrom(...SCOPES),
  refrigerant: fc.constantFrom(...refrigerantNames()),
  charge_lb: double(20, 4000),
  litresPerKilogram: double(1.6, 6),
  circuits: fc.integer({ min: 1, max: 4 }),
  worked: fc.integer({ min: 1, max: 4 }),
  cooling: fc.constantFrom('air-cooled' as const, 'water-cooled' as const),
  evaporator: fc.constantFrom('direct-expansion' as const, 'flooded' as const, 'falling-film' as const),
  isMeasured: fc.boolean(),
  waterFlow: fc.boolean(),
  fluid: fc.constantFrom('water' as const, 'glycol' as const, 'none' as const),
  evacuation: fc.constantFrom('deep' as const, 'triple' as const),
  target_micron: double(300, 1500),
  moisture_kg: fc.option(double(0, 3)),
  openWork_s: fc.integer({ min: 600, max: 200_000 }),
  missing: double(0.01, 1),
  oilHeatUp_s: maybe(fc.integer({ min: 0, max: 100_000 })),
  unattendedAllowed: fc.boolean(),
  twoPersonRule: fc.boolean(),
  elevation_m: double(0, 2500),
  present: maybe(double(0.02, 1.3)),
  known: fc.record({
    trappedShare: maybe(double(0, 0.3)),
    hoseRun_m: maybe(double(1, 40)),
    lift_m: maybe(double(-8, 8)),
    ambient_K: maybe(double(250, 318)),
  }),
  setup: fc.record({
    method: maybe(fc.constantFrom('direct' as const, 'push-pull' as const)),
    coresRemoved: maybe(fc.boolean()),
    coolerBypassed: maybe(fc.boolean()),
    circuitOrder: maybe(fc.constantFrom('together' as const, 'one after the other' as const)),
    warmWater: maybe(fc.boolean()),
  }),
  comparesWays: fc.boolean(),
});
type Draw = typeof jobs extends fc.Arbitrary<infer Value> ? Value : never;

const given = <Facts extends object>(facts: Facts): object =>
  Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined));

function requestOf(one: Draw): EstimateRequest {
  const charge_kg = one.charge_lb * LB;
  const circuits = Math.min(one.worked, one.circuits);
  const worked_kg = (charge_kg * circuits) / one.circuits;
  const known = {
    ...given(one.known),
    ...(one.present === undefined ? {} : { presentCharge_kg: worked_kg * one.present }),
  } as KnownFacts;
  return request('1101', {
    job: {
      scope: one.scope,
      circuits,
      evacuation: one.evacuation,
      evacuationTarget_Pa: one.target_micron * 0.133322,
      moisture_kg: one.moisture_kg,
      openWork_s: one.openWork_s,
      missing_kg: one.scope === 'top-up' ? worked_kg * one.missing : null,
      setup: given(one.setup) as SetupWishes,
      known,
      ...(one.oilHeatUp_s === undefined ? {} : { oilHeatUp_s: one.oilHeatUp_s }),
    },
    chiller: {
      refrigerant: one.refrigerant,
      nameplateCharge_kg: charge_kg,
      internalVolume_m3: one.isMeasured ? (charge_kg * one.litresPerKilogram) / 1000 : null,
      circuits: one.circuits,
      cooling: one.cooling,
      evaporator: one.evaporator,
      waterFlow: one.waterFlow,
      evaporatorFluid: one.fluid,
      liquidPort_m: 0.02,
      vapourPort_m: 0.03,
      testPressure_Pa_gauge: 68_000,
    },
    site: {
      unattendedAllowed: one.unattendedAllowed,
      twoPersonRule: one.twoPersonRule,
      elevation_m: one.elevation_m,
    },
    request: { gear, cylinders: cylindersFor(one), comparesWays: one.comparesWays, samples: 200 },
  });
}

/** Cylinders of the sample stock, made clean and strong enough for any refrigerant, with some to spare. */
function cylindersFor({ refrigerant }: Draw): EstimateRequest['cylinders'] {
  return base.cylinders.flatMap((cylinder) => {
    const isStock = cylinder.contents_kg > 0;
    const clean = {
      ...cylinder,
      refrigerant: isStock ? refrigerant : null,
      servicePressure_Pa_gauge: 4.2e6,
      requalificationDue: '2029-01-01',
    };
    return [clean, { ...clean, id: `${cylinder.id}-b` }];
  });
}

describe('a thousand jobs that may come', () => {
  it('are estimated soundly, or refused in words', () => {
    const refused = new Map<string, number>();
    let sound = 0;
    fc.assert(
      fc.property(jobs, (one) => {
        const result = estimateJob(requestOf(one));
        if (result.ok) {
          sound += 1;
          expectSound(result.value);
          return;
        }
        expect(result.problems.length).toBeGreaterThan(0);
        for (const { code, path, message } of result.problems) {
          refused.set(code, (refused.get(code) ?? 0) + 1);
          expect([code, path, message].every((text) => text !== '')).toBe(true);
        }
      }),
      { numRuns: 1000, seed: 7 },
    );
    // Refusals must stay the exception: most of these jobs can be done.
    expect(sound, JSON.stringify([...refused])).toBeGreaterThan(850);
  });
});
