import { METRES_PER_INCH } from '@brimline/quantities';
import type { SetupOutcome } from './estimate.ts';
import { type PlanInputs, setupOf, type WorkPlan } from './work-plan.ts';

export interface Candidate {
  readonly inputs: PlanInputs;
  readonly plan: WorkPlan;
}

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
export function rankOf({ inputs, plan }: Candidate): number {
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

/** A way that is allowed, as it is shown beside the others. */
export function allowedOutcome({ inputs, plan }: Candidate, chosen: boolean): SetupOutcome {
  return {
    label: labelOf(inputs),
    setup: plan.setup,
    liquidRecovery_s: plan.liquidOut?.phase.planned_s ?? 0,
    liquidRecharge_s: plan.liquidIn?.phase.planned_s ?? 0,
    elapsed_s: elapsedSpan(plan),
    attended_person_s: attendedSpan(plan),
    gear_s: plan.phases.reduce(
      (sum, { planned_s, gear }) => sum + planned_s * gear.reduce((units, { count }) => units + count, 0),
      0,
    ),
    limitedBy: plan.liquidOut?.limitedBy ?? plan.liquidIn?.limitedBy ?? '',
    chosen,
    forbidden: [],
  };
}

/** A way that can't be used, with why. */
export function forbiddenOutcome(inputs: PlanInputs, forbidden: readonly string[]): SetupOutcome {
  return {
    label: labelOf(inputs),
    setup: setupOf(inputs),
    liquidRecovery_s: 0,
    liquidRecharge_s: 0,
    elapsed_s: 0,
    attended_person_s: 0,
    gear_s: 0,
    limitedBy: '',
    chosen: false,
    forbidden,
  };
}

/**
 * The chosen way, the best of the other method, and every way that differs from the chosen in one choice: enough to
 * see what a change would buy. Least person-time first.
 */
export function worthShowing(allowed: readonly Candidate[], chosen: Candidate): Candidate[] {
  const ranked = allowed
    .map((one) => ({ one, attended_s: attendedSpan(one.plan), elapsed_s: elapsedSpan(one.plan) }))
    .toSorted((a, b) => a.attended_s - b.attended_s || a.elapsed_s - b.elapsed_s)
    .map(({ one }) => one);
  const otherMethod = ranked.find(({ inputs }) => inputs.way.method !== chosen.inputs.way.method);
  const oneChange = ranked.filter(
    (one) => one !== chosen && one !== otherMethod && differences(one, chosen) === 1,
  );
  const shown = new Set([chosen, ...(otherMethod ? [otherMethod] : []), ...oneChange].slice(0, MOST_SHOWN));
  return ranked.filter((one) => shown.has(one));
}

function differences(a: Candidate, b: Candidate): number {
  const choices = ({ inputs: { way } }: Candidate) => [
    way.method,
    way.machines.map(({ id }) => id).join(' '),
    way.hose.id,
    way.coresRemoved,
    way.method === 'direct' ? null : way.coolerBypassed,
  ];
  const other = choices(b);
  return choices(a).filter((choice, index) => choice !== other[index]).length;
}

/** One forbidden way for each reason. */
export function distinctForbidden(forbidden: readonly SetupOutcome[]): SetupOutcome[] {
  const reasons = new Set<string>();
  return forbidden.filter((one) => {
    const isNew = one.forbidden.some((reason) => !reasons.has(reason));
    for (const reason of one.forbidden) reasons.add(reason);
    return isNew;
  });
}
