import { formatNumber, KILOGRAMS_PER_POUND, METRES_PER_INCH } from '@brimline/quantities';
import type { Setup, SetupOutcome, WayChange } from './estimate.ts';
import { type PlanInputs, setupOf } from './plan-inputs.ts';
import { totalAt, totalOf } from './ranking-cost.ts';
import { drawnOf, type RiskRequest } from './risk.ts';
import { testLoops } from './test-loops.ts';
import type { TransferWay } from './transfer-way.ts';
import type { WorkPlan } from './work-plan.ts';
import { worthOf } from './worth.ts';

export interface Candidate {
  readonly inputs: PlanInputs;
  readonly plan: WorkPlan;
  /** At the wanted certainty, without refrigerant: labour, gear and cylinders. */
  readonly cost_minor: number;
  /** What decides: the cost with what the clock and a machine kept free are worth. */
  readonly rank: number;
}

/** Most ways that a reader compares at once. */
const MOST_SHOWN = 10;

export const attendedSpan = (plan: WorkPlan): number =>
  plan.phases.reduce((sum, { attended_person_s }) => sum + attended_person_s, 0);
export const elapsedSpan = (plan: WorkPlan): number =>
  plan.phases.reduce((sum, { planned_s }) => sum + planned_s, 0);
export const gearSpan = (plan: WorkPlan): number => plan.phases.reduce((sum, { gear_s }) => sum + gear_s, 0);

/**
 * What it is worth to keep a machine free for others: half an hour of somebody's time for each half kilogram a minute
 * of vapour rating. Assumed, low confidence: it leaves the large machines to the large jobs.
 */
const MACHINE_WORTH_H = 0.5 / (0.5 / 60);
/** An hour of the clock against an hour of a person: assumed, low confidence. */
const CLOCK_SHARE = 0.1;
/** A wider hose is kept for those who need it, all else being equal. */
const HOSE_WORTH_H = 1e-3;

/** What is drawn for a plan: the same for its ranking and for its percentiles. */
export function riskRequest(
  { context, receivers }: PlanInputs,
  plan: WorkPlan,
  fixed_minor: number,
): RiskRequest {
  return {
    phases: plan.phases,
    loops: testLoops(context, plan.phases),
    isVolumeMeasured: context.volume.isMeasured,
    worth: context.request.worth ?? null,
    fixed_minor,
    cylindersHeld: receivers ? receivers.needed + receivers.spare : 0,
  };
}

/** A plan with what it costs at the wanted certainty: lower is better. */
export function candidate(inputs: PlanInputs, plan: WorkPlan, deviate: number): Candidate {
  const worth = worthOf(inputs.context.request.worth);
  const drawn = drawnOf({ ...riskRequest(inputs, plan, 0), worth });
  const cost_minor = totalAt(
    totalOf(drawn, (one) => one.cost_minor_s),
    deviate,
  );
  const elapsed_s = totalAt(
    totalOf(drawn, () => 1),
    deviate,
  );
  const size_kg_s = inputs.way?.machines.reduce((sum, { vapourRate_kg_s }) => sum + vapourRate_kg_s, 0) ?? 0;
  const policy_h =
    (CLOCK_SHARE * elapsed_s) / 3600 +
    MACHINE_WORTH_H * size_kg_s +
    HOSE_WORTH_H * (inputs.way?.hose.bore_m ?? 0);
  return { inputs, plan, cost_minor, rank: cost_minor + policy_h * worth.personHour_minor };
}

const sixteenths = (bore_m: number): string => `${Math.round((bore_m / METRES_PER_INCH) * 16) / 16}`;

const classText = (capacity_kg: number): string =>
  `${formatNumber(capacity_kg / KILOGRAMS_PER_POUND, 0)} lb class cylinders`;

/** A way in one line. */
export function labelOf({ way, context, receivers }: PlanInputs): string {
  if (!way) return 'evacuation alone';
  const parts = [
    way.method,
    way.machines.map(({ id }) => id).join(' and '),
    `${sixteenths(way.hose.bore_m)} in hose`,
    `cores ${way.coresRemoved ? 'out' : 'in'}`,
  ];
  if (way.method !== 'direct') parts.push(way.coolerBypassed ? 'cooler bypassed' : 'cooler in circuit');
  if (receivers) parts.push(classText(receivers.class_waterCapacity_kg));
  if (context.circuits > 1) parts.push(`circuits ${way.circuitOrder}`);
  if (way.warmedTo_K !== null) parts.push('warm water');
  return parts.join(', ');
}

const sumOf = (phases: readonly { readonly phase: { readonly planned_s: number } }[]): number =>
  phases.reduce((sum, { phase }) => sum + phase.planned_s, 0);

/** A way that is allowed, as it is shown beside the others. */
export function allowedOutcome(one: Candidate, chosen: Candidate, refrigerant_minor: number): SetupOutcome {
  const { inputs, plan } = one;
  const hasCard = inputs.context.request.worth !== undefined;
  return {
    label: labelOf(inputs),
    setup: plan.setup,
    liquidRecovery_s: sumOf(plan.liquidOut),
    liquidRecharge_s: sumOf(plan.liquidIn),
    elapsed_s: elapsedSpan(plan),
    attended_person_s: attendedSpan(plan),
    gear_s: gearSpan(plan),
    cost_minor: hasCard ? Math.round(one.cost_minor + refrigerant_minor) : null,
    change: changeFrom(chosen, one),
    limitedBy: plan.liquidOut[0]?.limitedBy ?? plan.liquidIn[0]?.limitedBy ?? '',
    chosen: one === chosen,
    forbidden: [],
  };
}

/** A way that can't be used, with why. */
export function forbiddenOutcome(label: string, setup: Setup, forbidden: readonly string[]): SetupOutcome {
  return {
    label,
    setup,
    liquidRecovery_s: 0,
    liquidRecharge_s: 0,
    elapsed_s: 0,
    attended_person_s: 0,
    gear_s: 0,
    cost_minor: null,
    change: null,
    limitedBy: '',
    chosen: false,
    forbidden,
  };
}

export const forbiddenWay = (inputs: PlanInputs, forbidden: readonly string[]): SetupOutcome =>
  forbiddenOutcome(labelOf(inputs), setupOf(inputs), forbidden);

/**
 * The chosen way, the best of the other method, and ways that differ from the chosen in one choice, the best of each
 * choice before the second best of any: enough to see what a change would buy. Least cost first.
 */
export function worthShowing(allowed: readonly Candidate[], chosen: Candidate): Candidate[] {
  if (chosen.inputs.context.request.comparesWays === false) return [chosen];
  const ranked = allowed.toSorted((a, b) => a.cost_minor - b.cost_minor || a.rank - b.rank);
  const firsts = new Map<Choice, Candidate>();
  const others: Candidate[] = [];
  for (const one of ranked) {
    const [difference, second] = differences(chosen, one);
    if (one === chosen || !difference || second) continue;
    if (firsts.has(difference.choice)) others.push(one);
    else firsts.set(difference.choice, one);
  }
  const otherMethod = allowed
    .toSorted((a, b) => a.rank - b.rank)
    .find(({ inputs }) => inputs.way?.method !== chosen.inputs.way?.method);
  const wanted = [chosen, ...(otherMethod ? [otherMethod] : []), ...firsts.values(), ...others];
  const shown = new Set([...new Set(wanted)].slice(0, MOST_SHOWN));
  return ranked.filter((one) => shown.has(one));
}

type Choice = 'method' | 'cooler' | 'machines' | 'hose' | 'cores' | 'circuits' | 'water' | 'cylinders';

interface Difference {
  readonly choice: Choice;
  /** What one would do otherwise, in words. */
  readonly what: string;
}

const idsOf = ({ machines }: TransferWay): string => machines.map(({ id }) => id).join(' and ');

function machineChange(a: TransferWay, b: TransferWay): string {
  const added = b.machines.filter(({ id }) => !a.machines.some((own) => own.id === id));
  const more = b.machines.length - a.machines.length;
  if (more > 0 && added.length === more) return `a second machine, ${added[0]!.id}`;
  return more < 0 && added.length === 0 ? `${idsOf(b)} alone` : `${idsOf(b)} instead of ${idsOf(a)}`;
}

/** Each choice in which a way differs from another; the cooler goes with the method. */
function differences({ inputs: from }: Candidate, { inputs: to }: Candidate): Difference[] {
  const [a, b] = [from.way, to.way];
  if (!a || !b) return [];
  const found: Difference[] = [];
  const note = (isOther: boolean, choice: Choice, what: () => string): void => {
    if (isOther) found.push({ choice, what: what() });
  };
  const sameMethod = a.method === b.method;
  note(!sameMethod, 'method', () => `${b.method} instead of ${a.method}`);
  note(sameMethod && a.method !== 'direct' && a.coolerBypassed !== b.coolerBypassed, 'cooler', () =>
    b.coolerBypassed ? 'bypass the cooler' : 'leave the cooler in circuit',
  );
  note(idsOf(a) !== idsOf(b), 'machines', () => machineChange(a, b));
  note(
    a.hose.id !== b.hose.id,
    'hose',
    () => `the ${sixteenths(b.hose.bore_m)} in hose ${b.hose.id} instead of ${a.hose.id}`,
  );
  note(a.coresRemoved !== b.coresRemoved, 'cores', () =>
    b.coresRemoved ? 'take the cores out' : 'leave the cores in',
  );
  note(a.circuitOrder !== b.circuitOrder, 'circuits', () => `circuits ${b.circuitOrder}`);
  note(a.warmedTo_K !== b.warmedTo_K, 'water', () =>
    b.warmedTo_K === null ? 'no warm water' : 'warm water first',
  );
  const [own, other] = [from.receivers, to.receivers];
  note(own?.class_waterCapacity_kg !== other?.class_waterCapacity_kg, 'cylinders', () =>
    classText(other!.class_waterCapacity_kg),
  );
  return found;
}

function changeFrom(chosen: Candidate, one: Candidate): WayChange | null {
  const found = differences(chosen, one);
  if (found.length !== 1) return null;
  return {
    what: found[0]!.what,
    elapsed_s: elapsedSpan(one.plan) - elapsedSpan(chosen.plan),
    attended_person_s: attendedSpan(one.plan) - attendedSpan(chosen.plan),
    cost_minor:
      one.inputs.context.request.worth === undefined ? null : Math.round(one.cost_minor - chosen.cost_minor),
  };
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
