import { PASCALS_PER_PSI } from '@brimline/quantities';
import type { Reason, RefrigerantAccount, Shortage } from './estimate.ts';
import { reasonInput as input } from './phase-draft.ts';
import type { PlanInputs } from './plan-inputs.ts';
import type { Risk } from './risk-facts.ts';
import { ASSUMED_WATER_KG } from './vacuum-phases.ts';
import { attendedSpan, elapsedSpan, gearSpan } from './way-outcomes.ts';
import type { WorkPlan } from './work-plan.ts';

/** Why the totals are what they are: clocks, percentiles, refrigerant, money, consumables. */
export function totalReasons(
  inputs: PlanInputs,
  plan: WorkPlan,
  facts: { readonly account: RefrigerantAccount; readonly shortage: Shortage; readonly risk: Risk },
): Reason[] {
  return [
    ...clocks(plan),
    percentile(facts.risk),
    ...cost(inputs, facts.risk),
    ...(facts.account.fromStock_kg > 0 ? [toBring(facts.shortage)] : []),
    ...consumables(inputs, plan),
  ];
}

function clocks(plan: WorkPlan): Reason[] {
  const clock = (
    label: string,
    span_s: number,
    formula: string,
    of: (phase: WorkPlan['phases'][number]) => number,
  ): Reason => ({
    label,
    value: span_s / 3600,
    unit: 'h',
    formula,
    inputs: plan.phases
      .filter((phase) => of(phase) > 0)
      .map((phase) => input(phase.title, of(phase) / 3600, 'h', 'step of the work plan')),
    limitedBy: plan.phases.reduce((longest, phase) => (of(phase) > of(longest) ? phase : longest)).title,
    source: 'work plan; the median of each step',
  });
  return [
    clock('elapsed', elapsedSpan(plan), 't = sum of steps', ({ planned_s }) => planned_s),
    clock(
      'attended, person-hours',
      attendedSpan(plan),
      't = sum of step x persons',
      (phase) => phase.attended_person_s,
    ),
    clock('gear-hours', gearSpan(plan), 't = sum of step x units of gear', ({ gear_s }) => gear_s),
  ];
}

function percentile({ elapsed, samples, seed, distribution, percentileRule, drivers, mean_s }: Risk): Reason {
  return {
    label: 'elapsed, P80',
    value: elapsed.p80_s / 3600,
    unit: 'h',
    formula: 'the total that four draws of five stay below; each draw adds up its own steps',
    inputs: [
      input('draws', samples, '-', 'request'),
      input('seed', seed, '-', 'request'),
      input('distribution of a step', distribution, '-', 'kept with the estimate'),
      input('percentile rule', percentileRule, '-', 'kept with the estimate'),
      input('mean', mean_s / 3600, 'h', 'the same draws'),
    ],
    limitedBy: drivers[0]?.label ?? null,
    source: 'shared causes and chances of failed tests: judged, low confidence',
  };
}

function cost({ context: { request } }: PlanInputs, risk: Risk): Reason[] {
  const { worth } = request;
  if (!worth || !risk.cost) return [];
  const { currency } = worth;
  return [
    {
      label: 'cost, P80',
      value: risk.cost.p80_minor / 100,
      unit: currency,
      formula: 'person-hours x labour + gear-hours x gear + cylinder-hours + refrigerant, in each draw',
      inputs: [
        input('hour of a person', worth.personHour_minor / 100, currency, 'rate card, mean of its classes'),
        input('hour of a cylinder', worth.cylinderHour_minor / 100, currency, 'rate card'),
        input(
          'kilogram of refrigerant',
          worth.refrigerant_minor_per_kg === null ? 'no price' : worth.refrigerant_minor_per_kg / 100,
          currency,
          'rate card',
        ),
      ],
      limitedBy: null,
      source: 'working clock only; nights, travel, overhead and margin come with the quote',
    },
  ];
}

function toBring(shortage: Shortage): Reason {
  return {
    label: 'new refrigerant to bring',
    value: shortage.toBring_kg,
    unit: 'kg',
    formula: 'short at arrival + left as vapour + heel in cylinders',
    inputs: [
      input('short at arrival', shortage.before_kg, 'kg', 'nameplate less what is in the machine'),
      input('left as vapour', shortage.lostAsVapour_kg, 'kg', 'vapour density at the recovery level'),
      input(
        'heel in cylinders',
        shortage.heelInCylinders_kg,
        'kg',
        '2 % of what is recovered, common practice, no source',
      ),
      input('of it to buy', shortage.toBuy_kg, 'kg', 'what the stock does not hold'),
    ],
    limitedBy: null,
    source: 'conservation of mass: the whole nameplate charge is weighed in before a compressor turns',
  };
}

function consumables({ context }: PlanInputs, { nitrogen, evacuation }: WorkPlan): Reason[] {
  const reasons: Reason[] = [];
  if (nitrogen) {
    reasons.push({
      label: 'nitrogen cylinders',
      value: nitrogen.cylinders,
      unit: '-',
      formula: 'n = ceil(V (rho(test) - rho(atmosphere)) / usable mass of one)',
      inputs: [
        input('internal volume', context.volume_m3, 'm3', context.volume.source),
        input(
          'test pressure',
          context.chiller.testPressure_Pa_gauge / PASCALS_PER_PSI,
          'psig',
          'machine register',
        ),
      ],
      limitedBy: null,
      source: 'mass balance with real-gas density',
    });
  }
  if (evacuation) {
    const { moisture_kg } = context.job;
    reasons.push({
      label: 'pump oil changes',
      value: evacuation.oilChanges,
      unit: '-',
      formula: 'one before, one for each half kilogram of water, one for each further pull',
      inputs: [
        input(
          'water',
          moisture_kg ?? ASSUMED_WATER_KG,
          'kg',
          moisture_kg === null ? 'assumed, low confidence' : 'job',
        ),
        input('pulls', evacuation.pulls.length, '-', 'job'),
      ],
      limitedBy: null,
      source: 'common practice, no source',
    });
  }
  return reasons;
}
