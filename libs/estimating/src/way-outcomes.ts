import { METRES_PER_INCH } from '@brimline/quantities';
import type { SetupOutcome } from './estimate.ts';
import type { PlanInputs, WorkPlan } from './work-plan.ts';

/** Most ways that a reader compares at once. */
const MOST_SHOWN = 8;

const attendedSpan = (plan: WorkPlan): number =>
  plan.phases.reduce((sum, { planned_s, crew }) => sum + planned_s * crew, 0);
const elapsedSpan = (plan: WorkPlan): number =>
  plan.phases.reduce((sum, { planned_s }) => sum + planned_s, 0);

/**
 * What it is worth to keep a machine free for others: half an hour of somebody's time for each half kilogram a minute
 * of vapour rating. Assumed, low confidence: it leaves the large machines to the large jobs.
 */
const MACHINE_WORTH_S = 1800 / (0.5 / 60);
/** A second of the clock against a second of a person. */
const CLOCK_SHARE = 0.1;

/** Person-time decides, with the clock and the size of the machines beside it: lower is better. */
export function rankOf({ inputs, plan }: { readonly inputs: PlanInputs; readonly plan: WorkPlan }): number {
  const size_kg_s = inputs.way.machines.reduce((sum, { vapourRate_kg_s }) => sum + vapourRate_kg_s, 0);
  const hose = inputs.way.hose.bore_m;
  return attendedSpan(plan) + CLOCK_SHARE * elapsedSpan(plan) + MACHINE_WORTH_S * size_kg_s + hose;
}

function labelOf({ way }: PlanInputs): string {
  const sixteenths = Math.round((way.hose.bore_m / METRES_PER_INCH) * 16) / 16;
  const machines =
    way.machines.length === 1 ? way.machines[0]!.id : `${way.machines.map(({ id }) => id).join(' and ')}`;
  const cooler =
    way.method === 'direct' ? '' : way.coolerBypassed ? ', cooler bypassed' : ', cooler in circuit';
  return `${way.method}, ${machines}, ${sixteenths} in hose, cores ${way.coresRemoved ? 'out' : 'in'}${cooler}`;
}

/** One way as it is shown beside the others. */
export function outcomeOf(
  inputs: PlanInputs,
  plan: WorkPlan | null,
  forbidden: readonly string[],
  chosen: boolean,
): SetupOutcome {
  const { way, vacuum, context } = inputs;
  return {
    label: labelOf(inputs),
    setup: plan?.setup ?? {
      method: way.method,
      machineIds: way.machines.map(({ id }) => id),
      hoseSetId: way.hose.id,
      coresRemoved: way.coresRemoved,
      coolerBypassed: way.coolerBypassed,
      waterFlowing: context.chiller.waterFlow,
      entry: 'liquid line',
      pumpIds: vacuum ? [vacuum.pump.id] : [],
      vacuumHoseSetId: vacuum?.vacuumHose.id ?? null,
    },
    liquidRecovery_s: plan?.liquidOut?.phase.planned_s ?? 0,
    liquidRecharge_s: plan?.liquidIn?.phase.planned_s ?? 0,
    elapsed_s: plan ? elapsedSpan(plan) : 0,
    attended_person_s: plan ? attendedSpan(plan) : 0,
    gear_s: plan
      ? plan.phases.reduce(
          (sum, { planned_s, gear }) => sum + planned_s * gear.reduce((units, { count }) => units + count, 0),
          0,
        )
      : 0,
    limitedBy: plan?.liquidOut?.limitedBy ?? plan?.liquidIn?.limitedBy ?? '',
    chosen,
    forbidden,
  };
}

/**
 * The chosen way, every way that differs from it in one choice, the best of the other method, and one forbidden way of
 * each reason: enough to see what a change would buy.
 */
export function worthShowing(
  allowed: readonly SetupOutcome[],
  forbidden: readonly SetupOutcome[],
): SetupOutcome[] {
  const ranked = allowed.toSorted(
    (a, b) => a.attended_person_s - b.attended_person_s || a.elapsed_s - b.elapsed_s,
  );
  const chosen = ranked.find((one) => one.chosen)!;
  const otherMethod = ranked.find(({ setup }) => setup.method !== chosen.setup.method);
  const oneChange = ranked.filter(
    (one) => one !== chosen && one !== otherMethod && differences(one, chosen) === 1,
  );
  const shown = [chosen, ...(otherMethod ? [otherMethod] : []), ...oneChange].slice(0, MOST_SHOWN - 1);
  const reasons = new Set<string>();
  const refused = forbidden.filter((one) => {
    const isNew = one.forbidden.some((reason) => !reasons.has(reason));
    for (const reason of one.forbidden) reasons.add(reason);
    return isNew;
  });
  return [...shown.toSorted((a, b) => a.attended_person_s - b.attended_person_s), ...refused.slice(0, 2)];
}

function differences(a: SetupOutcome, b: SetupOutcome): number {
  const choices = ({ setup }: SetupOutcome) => [
    setup.method,
    setup.machineIds.join(' '),
    setup.hoseSetId,
    setup.coresRemoved,
    setup.method === 'direct' ? null : setup.coolerBypassed,
  ];
  const other = choices(b);
  return choices(a).filter((choice, index) => choice !== other[index]).length;
}
