import type { NormId, OwnNorm } from '@brimline/firm';
import { KILOGRAMS_PER_POUND, OutOfDomainError } from '@brimline/quantities';
import type { Spread } from './estimate.ts';

/**
 * Time norms for what people do: hours that no physics gives. Low, likely and high are about P5, mode and P95.
 * They are starting values, dated, to be replaced by the firm's own logs.
 */
export interface Norm extends Spread {
  readonly id: NormId;
  readonly label: string;
  readonly source: string;
}

const COMMON = 'common practice, no source';
const min = (minutes: number): number => minutes * 60;
const h = (hours: number): number => hours * 3600;

function norm(
  label: string,
  low_s: number,
  likely_s: number,
  high_s: number,
  source = COMMON,
): Omit<Norm, 'id'> {
  return { label, low_s, likely_s, high_s, source };
}

const TABLE = {
  inductionOrdinary: norm('induction, permit, lockout, ordinary building', h(0.5), h(1), h(2)),
  inductionStrict: norm('induction, permit, lockout, hospital or data centre', h(1), h(2), h(6)),
  sameVisit: norm('walk over to the next machine, lock it out', min(10), min(20), min(45)),
  roomCheck: norm('machinery-room check', min(10), min(15), min(30)),
  carryInGround: norm('unload and carry in, ground level', h(0.5), h(1), h(2)),
  carryInHard: norm('unload and carry in, roof or basement', h(1.5), h(3), h(6)),
  largeUnit: norm('place and connect a large transfer unit', h(0.5), h(1), h(2)),
  connectCircuit: norm('run and connect hoses, each circuit', min(20), min(40), min(90)),
  coreRemoval: norm('remove a valve core, each port', min(3), min(8), min(20)),
  purgeHoses: norm('purge or evacuate hoses and empty vessels', min(10), min(20), min(45)),
  scaleSetUp: norm('set up, zero and check the scale', min(5), min(10), min(20)),
  changeSmall: norm('change, weigh and tag a cylinder of up to 125 lb class', min(5), min(8), min(15)),
  changeLarge: norm('change, weigh and tag a 1,000 lb class cylinder', min(10), min(15), min(30)),
  changeManifold: norm('change over between two vessels on a manifold', min(1), min(3), min(5)),
  warmWater: norm('warm the machine by water through its barrels', h(0.5), h(1.5), h(4)),
  recoveryHold: norm('rest and recheck at the recovery level', min(10), min(20), min(60)),
  nitrogenBreak: norm('break with nitrogen and open', min(15), min(30), min(60)),
  raiseNitrogen: norm('raise nitrogen in stages and search for leaks', h(1), h(2.5), h(6)),
  leakSearch: norm('search for a leak under pressure', h(1), h(3), h(8)),
  repairLeak: norm('tighten or mend what leaks', h(0.5), h(1), h(4)),
  releaseNitrogen: norm('release nitrogen outdoors', min(15), min(30), min(90)),
  pumpSetUp: norm('connect the pump, fresh oil, blank-off check', min(20), min(30), min(60)),
  nitrogenSweep: norm('break the vacuum with nitrogen and sweep', min(20), min(45), min(120)),
  proveWater: norm('prove water flow', min(10), min(20), min(60)),
  preChargeSetUp: norm('connect and purge for the vapour pre-charge', min(10), min(15), min(30)),
  startUp: norm('start up, stabilise, trim', h(1.5), h(3), h(6)),
  rigDown: norm('rig down and load', h(0.5), h(1.5), h(3)),
  paperwork: norm('weigh, label, records', h(0.5), h(1), h(2)),
  evacuationSoak: norm('soak under nitrogen between pulls', min(15), min(30), min(60)),
  survey: norm('survey on site before the job', h(1), h(2), h(4)),
  cylinderReturn: norm('take cylinders back', h(0.5), h(1.5), h(4)),
} satisfies Record<NormId, Omit<Norm, 'id'>>;

/** Spans that a specification fixes; they have no spread. */
export const FIXED_SPANS = {
  /** An overnight hold is what crews do where the site lets nitrogen stand unattended. */
  nitrogenHoldOvernight_s: h(12),
  /** UFGS-15741N 3.7.3: two hours with no drop. */
  nitrogenHoldShort_s: h(2),
  /** UFGS-15182 3.3: closed off for one hour. */
  riseTest_s: h(1),
  /** UFGS-15741N 3.7.3: two hours for the last vacuum; taken for large machines. */
  riseTestLarge_s: h(2),
} as const;

/** Charge from which a machine counts as large for holds and rise tests: common practice, no source. */
export const LARGE_CHARGE_KG = 500 * KILOGRAMS_PER_POUND;

/**
 * Evacuations by charge: the shortest that crews trust, since oil, pockets and walls give up gas slowly, and what they
 * report as likely and high. Common practice, no source; the row from 200 lb is interpolated.
 */
const EVACUATIONS = [
  { from_kg: 2000 * KILOGRAMS_PER_POUND, low_s: h(24), likely_s: h(60), high_s: h(144) },
  { from_kg: LARGE_CHARGE_KG, low_s: h(8), likely_s: h(18), high_s: h(48) },
  { from_kg: 200 * KILOGRAMS_PER_POUND, low_s: h(4), likely_s: h(9), high_s: h(24) },
  { from_kg: 0, low_s: h(2), likely_s: h(4), high_s: h(12) },
] as const;

/** What crews report for a charge; the least of it bounds the computed span from below. */
export function reportedEvacuation(charge_kg: number): Spread {
  const { low_s, likely_s, high_s } = EVACUATIONS.find(({ from_kg }) => charge_kg >= from_kg)!;
  return { low_s, likely_s, high_s };
}

export const leastEvacuation = (charge_kg: number): number => reportedEvacuation(charge_kg).low_s;

/** Date of the norms: they change only with it. */
export const NORMS_DATED = '2026-11-25';

export type Norms = Readonly<Record<NormId, Norm>>;

export const STANDARD_NORMS: Norms = Object.fromEntries(
  Object.entries(TABLE).map(([id, row]) => [id, { id, ...row }]),
) as unknown as Norms;

/** The standard norms with the firm's own in place of those that it has measured. */
export function normsWith(own: readonly OwnNorm[]): Norms {
  const changed = own.map(({ id, source, dated, ...spread }) => [
    id,
    { ...STANDARD_NORMS[id], ...spread, source: `${source}, ${dated}` },
  ]);
  return { ...STANDARD_NORMS, ...Object.fromEntries(changed) };
}

/**
 * The spread of a sum of norms, each taken a number of times.
 * Likely values add up; the distances to low and high add up as independent parts do, by the root of their squares.
 */
export function sumOfSpreads(parts: readonly { readonly spread: Spread; readonly times: number }[]): Spread {
  let likely_s = 0;
  let below = 0;
  let above = 0;
  for (const { spread, times } of parts) {
    if (times < 0) throw new OutOfDomainError('times a norm is taken', times, '0 or more');
    likely_s += spread.likely_s * times;
    below += times * (spread.likely_s - spread.low_s) ** 2;
    above += times * (spread.high_s - spread.likely_s) ** 2;
  }
  return { low_s: likely_s - Math.sqrt(below), likely_s, high_s: likely_s + Math.sqrt(above) };
}

/** A span without spread. */
export function fixedSpan(span_s: number): Spread {
  return { low_s: span_s, likely_s: span_s, high_s: span_s };
}

/** A spread round a computed span: likely / (1 + share) to likely * (1 + share). */
export function relativeSpread(likely_s: number, share: number): Spread {
  return { low_s: likely_s / (1 + share), likely_s, high_s: likely_s * (1 + share) };
}
