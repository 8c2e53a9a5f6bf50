import { saturatedVapourDensity, refrigerant } from '@brimline/refrigerants';
import { cylinderFillLimit } from '@brimline/rules';
import { internalVolumeFromCharge } from '@brimline/transfer';
import { evacuation } from '@brimline/vacuum';
import { describe, expect, it } from 'vitest';
import { estimated, LB, spanOf } from '../support/estimate-requests.ts';

const PORTABLE = {
  machineIds: ['RM-01'],
  hoseSetId: 'TH-01',
  coresRemoved: true,
  coolerBypassed: true,
} as const;
const h = (span_s: number): number => span_s / 3600;

/** 240 lb in a measured machine at 75 degF, as the rules of thumb mean it. */
function thumb(method: 'direct' | 'push-pull', changes: object = {}) {
  const chiller = { nameplateCharge_kg: 240 * LB, internalVolume_m3: 0.255 };
  const known = { ambient_K: 297.15 };
  return estimated('1101', { job: { setup: { ...PORTABLE, method, ...changes }, known }, chiller });
}

/** Steady flow of the liquid phase, kg/min. */
function rateOf(estimate: ReturnType<typeof estimated>): number {
  const reason = estimate.phases.find(({ kind }) => kind === 'liquid recovery')!.reason;
  return Number(reason.inputs.find(({ label }) => label === 'steady flow')!.value);
}

const out = (method: 'direct' | 'push-pull'): number =>
  spanOf(estimated('1102', { job: { setup: { ...PORTABLE, method } } }), 'liquid recovery');

function evacuationOf(charge_lb: number, moisture_kg: number | null): number {
  const chiller = { nameplateCharge_kg: charge_lb * LB, internalVolume_m3: null };
  const job = { evacuation: 'deep' as const, moisture_kg, setup: { cylinderCapacity_kg: 453.6 } };
  const name = charge_lb < 500 ? '1101' : '1102';
  return h(spanOf(estimated(name, { job, chiller }), 'evacuation'));
}

/** 890 ft3 at 12 cfm from 760 torr: without hose to 5 torr, and through a hose to 5,000 micron. */
function largeBarrel(hose: { bore_m: number; length_m: number } | null): number {
  const pumps = [{ speed_m3_s: 12 * 4.719474e-4, ultimate_Pa: 2.7, hose, coresLeftIn: 0 }];
  const pull = evacuation({
    volume_m3: 890 * 0.028316846592,
    pumps,
    from_Pa: 101_325,
    to_Pa: 666.6,
    temperature_K: 293,
  });
  return pull.ok ? h(pull.value.time_s) : Number.NaN;
}

/** Met, or why it is not. */
type Verdict = true | string;
type Row = readonly [
  what: string,
  source: string,
  low: number,
  high: number,
  model: () => number,
  verdict: Verdict,
];

const vapourShare = (): number => {
  const one = thumb('direct');
  const vapour_s = spanOf(one, 'vapour recovery');
  return vapour_s / (vapour_s + spanOf(one, 'liquid recovery'));
};
const riseLoop = () => estimated('1103').risk.loops.find(({ test }) => test === 'rise test')!;

/**
 * Figures from the trade beside what the model says. Those that are not met are held too: a change that meets them,
 * or leaves another, has to say so.
 */
const FIGURES: readonly Row[] = [
  [
    '240 lb by push-pull [min]',
    'common practice, no source',
    22,
    36,
    () => spanOf(thumb('push-pull'), 'liquid recovery') / 60,
    true,
  ],
  [
    '240 lb direct [min]',
    'common practice, no source',
    45,
    60,
    () => spanOf(thumb('direct'), 'liquid recovery') / 60,
    true,
  ],
  [
    'push-pull over direct, 1,800 lb',
    'common practice, no source: about half',
    0.35,
    0.65,
    () => out('push-pull') / out('direct'),
    true,
  ],
  [
    'portable, push-pull [kg/min]',
    'common practice, no source',
    4,
    9,
    () => rateOf(thumb('push-pull')),
    'the sample machine draws 0.45 kg/min of vapour, above the 0.15 to 0.4 of the class',
  ],
  ['portable, direct [kg/min]', 'common practice, no source', 1.5, 4, () => rateOf(thumb('direct')), true],
  [
    'two portables, push-pull [kg/min]',
    'common practice, no source',
    8,
    12,
    () =>
      rateOf(
        estimated('1101', {
          job: { setup: { ...PORTABLE, method: 'push-pull', machineIds: ['RM-01', 'RM-02'] } },
          request: { comparesWays: false },
        }),
      ),
    'as above: two machines of 0.45 kg/min',
  ],
  [
    'large unit, liquid [kg/min]',
    'common practice, no source',
    10,
    60,
    () =>
      rateOf(
        estimated('1102', {
          job: { setup: { machineIds: ['RM-07'], method: 'direct', hoseSetId: 'TH-06' } },
        }),
      ),
    true,
  ],
  [
    'cores left in take of the flow',
    'ACHR News, tips for high-speed recovery: about 90 %',
    0.8,
    0.95,
    () =>
      1 -
      rateOf(thumb('push-pull', { coresRemoved: false, hoseSetId: 'TH-04' })) /
        rateOf(thumb('push-pull', { hoseSetId: 'TH-04' })),
    'the open area past a core is assumed, 5 mm2; 3 mm2 would meet it',
  ],
  [
    'vapour share of recovery time',
    'Contracting Business 2007: 75 to 80 %, general service',
    0.5,
    0.85,
    vapourShare,
    true,
  ],
  [
    'vapour left at 0 psig, 350 ton R-11 [lb]',
    'exam-preparation page: about 100 lb',
    80,
    120,
    () =>
      (internalVolumeFromCharge({
        refrigerant: refrigerant('R-11'),
        charge_kg: 1100 * LB,
        evaporator: 'flooded',
      }).volume_m3 *
        saturatedVapourDensity(refrigerant('R-11'), 296.9)) /
      LB,
    'the volume from the charge misses the large vapour space of old low-pressure barrels: give known.internalVolume',
  ],
  [
    'evacuation below 200 lb, dry [h]',
    'common practice, no source',
    2,
    12,
    () => evacuationOf(180, 0.02),
    true,
  ],
  ['evacuation of 900 lb [h]', 'common practice, no source', 8, 48, () => evacuationOf(900, null), true],
  [
    'evacuation of 2,500 lb, wet [h]',
    'common practice, no source',
    24,
    144,
    () => evacuationOf(2500, 1),
    true,
  ],
  [
    '890 ft3 at 12 cfm to 5 torr, no hose [h]',
    'computed independently: V/S ln(152)',
    6.1,
    6.3,
    () => largeBarrel(null),
    true,
  ],
  [
    '890 ft3 to 5,000 micron through 3/8 in [h]',
    'field account 2018: scheduled 4 to 6 days',
    96,
    144,
    () => 1.5 * largeBarrel({ bore_m: 0.0095, length_m: 3 }),
    'the account gives connection size, outgassing and habit, and no hose; the physics of one 3/8 in hose explains a tenth',
  ],
  [
    'a failed rise test adds [h]',
    'judged, no source: 4 to 48, likely 14',
    10,
    18,
    () => h(riseLoop().each.likely_s),
    true,
  ],
  ['a rise test fails', 'judged, no source: 0.15 to 0.5', 0.15, 0.5, () => riseLoop().probability, true],
  [
    'rise test, large machine [h]',
    'UFGS-15741N: 2; overnight 12 is common practice',
    2,
    24,
    () => h(spanOf(estimated('1102'), 'rise test')),
    true,
  ],
  [
    'vapour pre-charge [h]',
    'common practice, no source',
    0.5,
    3,
    () => h(spanOf(estimated('1102'), 'vapour pre-charge')),
    'half-ton cylinders hold heat enough for the whole burst; water is not cold here',
  ],
  [
    '1,000 lb cylinder at SG 1.197, net [lb]',
    'ACHR News, filling cylinders: 957.6 (R-22, 77 degF)',
    940,
    970,
    () =>
      cylinderFillLimit({
        refrigerant: refrigerant('R-22'),
        waterCapacity_kg: 1000 * LB,
        tare_kg: 172,
        rule: 'guideline',
      }).net_kg / LB,
    true,
  ],
];

const SLACK = 1e-9;

describe('figures from the field beside the model', () => {
  it.each(FIGURES)('%s (%s)', (what, source, low, high, model, verdict) => {
    const value = model();
    const isWithin = value >= low * (1 - SLACK) && value <= high * (1 + SLACK);
    expect(isWithin, `${what}: ${value} against ${low} to ${high}, ${source}`).toBe(verdict === true);
  });
});
