import { formatNumber, formatQuantity } from '@brimline/quantities';
import type { Assumption } from './estimate.ts';
import { JobPhysics } from './job-physics.ts';
import { HEEL_SHARE, TRAPPED_SHARE } from './job-context.ts';
import { leastEvacuation } from './norms.ts';
import type { PlanInputs } from './plan-inputs.ts';
import type { TestLoop } from './risk-facts.ts';
import { partsOf } from './scope-parts.ts';
import { hoseLength, type TransferWay } from './transfer-way.ts';
import { ASSUMED_WATER_KG } from './vacuum-phases.ts';
import type { WorkPlan } from './work-plan.ts';

/** Range of what may be left as water after a short opening: assumed, low confidence. */
const WATER_RANGE_KG = [0.01, 0.2] as const;
/** A run that nobody measured may be so many times the hose: assumed, low confidence. */
const LONGER_RUN = 2;

/** Everything that nobody gave, with where it can be given and, where it matters, what being wrong would do. */
export function assumptionsOf(inputs: PlanInputs, plan: WorkPlan, loops: readonly TestLoop[]): Assumption[] {
  const { context } = inputs;
  const { job } = context;
  const parts = partsOf(job.scope);
  return [
    ...volume(inputs, plan),
    ...(job.known?.ambient_K === undefined
      ? [
          {
            id: 'ambient',
            label: 'temperature round the machine',
            value: context.ambient_K,
            unit: 'K',
            effect: 'sets every saturation pressure and so the transfer rates',
            source: 'site, by month',
            field: 'known.ambient',
          },
        ]
      : []),
    ...(parts.evacuates && job.moisture_kg === null ? [water(inputs, plan)] : []),
    ...(parts.recovers && job.known?.presentCharge_kg === undefined ? [present(inputs)] : []),
    ...(parts.recovers && job.known?.trappedShare === undefined ? [trapped(plan)] : []),
    ...(inputs.way && job.known?.hoseRun_m === undefined ? [hoseRun(inputs, plan, inputs.way)] : []),
    ...(parts.recovers && parts.charges ? [heel(context.before_kg)] : []),
    ...loops.map((loop) => failedTest(loop)),
  ];
}

/** Change of the elapsed span when the evacuation's dry and wet parts change by factors, the least span kept. */
function evacuationChange(
  { context }: PlanInputs,
  { evacuation }: WorkPlan,
  dry: number,
  wet: number,
): number {
  if (!evacuation) return 0;
  const least_s = leastEvacuation(context.nameplate_kg);
  const { dry_s, drying_s } = evacuation;
  return Math.max(least_s, dry_s * dry + drying_s * wet) - Math.max(least_s, dry_s + drying_s);
}

function volume(inputs: PlanInputs, plan: WorkPlan): Assumption[] {
  const { volume: one } = inputs.context;
  if (one.isMeasured) return [];
  const vapour_s = plan.vapourOut.reduce((sum, { vapour_s: span_s }) => sum + span_s, 0);
  const change = (volume_m3: number): number => {
    const factor = volume_m3 / one.volume_m3;
    return vapour_s * (factor - 1) + evacuationChange(inputs, plan, factor, 1);
  };
  return [
    {
      id: 'internal-volume',
      label: 'internal volume of the machine',
      value: one.volume_m3,
      unit: 'm3',
      effect: 'every vapour, vacuum and nitrogen time goes with it; weigh the nitrogen to measure it',
      source: one.source,
      field: 'known.internalVolume',
      range: {
        low: one.low_m3,
        high: one.high_m3,
        atLow_s: change(one.low_m3),
        atHigh_s: change(one.high_m3),
      },
    },
  ];
}

function water(inputs: PlanInputs, plan: WorkPlan): Assumption {
  const [low, high] = WATER_RANGE_KG;
  const change = (mass_kg: number): number => evacuationChange(inputs, plan, 1, mass_kg / ASSUMED_WATER_KG);
  return {
    id: 'moisture',
    label: 'water left in the system',
    value: ASSUMED_WATER_KG,
    unit: 'kg',
    effect: 'drying time of the evacuation goes with it',
    source: 'assumed for a short opening, low confidence',
    field: 'moisture',
    range: { low, high, atLow_s: change(low), atHigh_s: change(high) },
  };
}

function present({ context }: PlanInputs): Assumption {
  return {
    id: 'present-charge',
    label: 'refrigerant in the machine',
    value: context.before_kg,
    unit: 'kg',
    effect: 'what is short of the nameplate is bought on the scale weight',
    source: 'taken as the nameplate charge',
    field: 'known.presentCharge',
  };
}

function trapped(plan: WorkPlan): Assumption {
  const heel_s = plan.vapourOut.reduce((sum, one) => sum + one.heel_s, 0);
  const change = (share: number): number => heel_s * (share / TRAPPED_SHARE.likely - 1);
  return {
    id: 'trapped-liquid',
    label: 'charge that stays as liquid in low spots',
    value: TRAPPED_SHARE.likely,
    unit: '-',
    effect: 'it has to boil off, which is slower than liquid',
    source: 'assumed, low confidence',
    field: 'known.trapped',
    range: {
      low: TRAPPED_SHARE.low,
      high: TRAPPED_SHARE.high,
      atLow_s: change(TRAPPED_SHARE.low),
      atHigh_s: change(TRAPPED_SHARE.high),
    },
  };
}

function hoseRun({ context }: PlanInputs, plan: WorkPlan, way: TransferWay): Assumption {
  const length_m = hoseLength(context, way.hose);
  const fact = {
    id: 'hose-run',
    label: 'hose from the machine to the cylinders',
    value: length_m,
    unit: 'm',
    effect: 'a longer way takes a longer hose and slows liquid and vapour',
    source: 'length of the hose set',
    field: 'known.hoseRun',
  };
  if (context.request.comparesWays === false) return fact;
  const high = length_m * LONGER_RUN;
  return {
    ...fact,
    range: { low: length_m, high, atLow_s: 0, atHigh_s: liquidChange(context, plan, way, high) },
  };
}

/** Change of the time that liquid moves, with another hose run. */
function liquidChange(
  context: PlanInputs['context'],
  plan: WorkPlan,
  way: TransferWay,
  hoseRun_m: number,
): number {
  const { job } = context;
  const longer = { ...context, job: { ...job, known: { ...job.known, hoseRun_m } } };
  const [now, then] = [new JobPhysics(context), new JobPhysics(longer)];
  const factor = (from: 'chiller' | 'cylinder'): number => {
    const temperature_K = from === 'chiller' ? (way.warmedTo_K ?? context.ambient_K) : context.ambient_K;
    const rate = (physics: JobPhysics): number =>
      physics.liquidRate(way, from, temperature_K, false).massFlow_kg_s;
    return rate(now) / Math.max(rate(then), 1e-5) - 1;
  };
  const span = (phases: WorkPlan['liquidOut']): number =>
    phases.reduce((sum, { phase }) => sum + phase.planned_s, 0);
  const out_s = span(plan.liquidOut);
  const in_s = span(plan.liquidIn);
  return (out_s > 0 ? out_s * factor('chiller') : 0) + (in_s > 0 ? in_s * factor('cylinder') : 0);
}

function heel(before_kg: number): Assumption {
  const kept = formatQuantity(before_kg * HEEL_SHARE, 'mass', 'lb', 0);
  return {
    id: 'cylinder-heel',
    label: 'contents that stay behind in emptied cylinders',
    value: HEEL_SHARE,
    unit: '-',
    effect: `about ${kept} that new refrigerant makes up for`,
    source: '1 to 3 %, common practice, no source',
  };
}

function failedTest({ test, probability, each, source }: TestLoop): Assumption {
  return {
    id: `failed-${test.replaceAll(' ', '-')}`,
    label: `chance that the ${test} fails`,
    value: probability,
    unit: '-',
    effect: `each failure adds about ${formatNumber(each.likely_s / 3600, 0)} h; counted in the percentiles, not in the planned hours`,
    source,
  };
}
