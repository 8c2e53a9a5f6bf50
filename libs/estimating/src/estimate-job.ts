import { refusal, type Result, success } from '@brimline/quantities';
import { bubblePressure } from '@brimline/refrigerants';
import { requiredRecoveryLevel } from '@brimline/rules';
import { cautionsOf } from './cautions.ts';
import { chargeCurve, type CurveCylinder } from './charge-curve.ts';
import type {
  Assumption,
  CylinderPlan,
  Estimate,
  EstimateProblem,
  RefrigerantAccount,
  SetupOutcome,
  SupplyPlan,
} from './estimate.ts';
import { unitsOfKind } from './gear-choice.ts';
import { HEEL_SHARE, type JobContext, jobContext } from './job-context.ts';
import { COMMON_CAUSE_SHARE, samplePercentiles } from './percentiles.ts';
import { planReceivers } from './receivers.ts';
import type { EstimateRequest } from './request.ts';
import { planSupply } from './supply.ts';
import { vapourAt } from './transfer-phases.ts';
import { ASSUMED_WATER_KG, evacuationPlan } from './vacuum-phases.ts';
import { VacuumStation } from './vacuum-station.ts';
import {
  allowedOutcome,
  type Candidate,
  distinctForbidden,
  forbiddenOutcome,
  rankOf,
  worthShowing,
} from './way-outcomes.ts';
import { transferWays, type VacuumWay, vacuumWays } from './ways.ts';
import { partsOf, type PlanInputs, type WorkPlan, workPlan } from './work-plan.ts';

/** Named with every estimate: a change of figures changes it. */
export const ESTIMATING_VERSION = '0.1.0';

/** A larger pump is taken only when it saves more than this share of the time. */
const WORTH_A_LARGER_PUMP = 0.25;

interface Chosen {
  readonly inputs: PlanInputs;
  readonly plan: WorkPlan;
  readonly ways: readonly SetupOutcome[];
}

/**
 * From what is known of a job to its whole work plan: phases with three clocks, cylinders, charge curve, the ways to
 * do it side by side, percentiles, cautions, assumptions and reasons.
 *
 * @returns the estimate, or everything that stops it
 */
export function estimateJob(request: EstimateRequest): Result<Estimate, EstimateProblem> {
  const context = jobContext(request);
  if (!context.ok) return context;
  const receivers = receiversFor(context.value);
  const supply = supplyFor(context.value);
  const chosen = chooseWay(context.value, receivers.ok ? receivers.value : null, supply);
  if (!receivers.ok || !chosen.ok) {
    return refusal(...(receivers.ok ? [] : receivers.problems), ...(chosen.ok ? [] : chosen.problems));
  }
  return success(assemble(request, chosen.value));
}

function receiversFor(context: JobContext): Result<CylinderPlan | null, EstimateProblem> {
  const { job, request } = context;
  if (!partsOf(job.scope).recovers) return success(null);
  return planReceivers({
    refrigerant: context.refrigerant,
    mass_kg: context.before_kg,
    cylinders: request.cylinders,
    needsTwoPorts: job.setup.method !== 'direct',
    neededUntil: job.due.slice(0, 10),
    spare: request.spareCylinders,
  });
}

/** What must come from stock: the missing charge, or what recovery leaves behind and cylinders keep as heel. */
function supplyFor(context: JobContext): SupplyPlan | null {
  const { job, refrigerant, request, nameplate_kg, before_kg } = context;
  const parts = partsOf(job.scope);
  if (!parts.charges) return null;
  const recovered_kg = parts.recovers ? before_kg - expectedLeft(context) : 0;
  const kept_kg = parts.recovers ? recovered_kg * (1 - HEEL_SHARE) : before_kg;
  return planSupply(refrigerant.name, nameplate_kg - kept_kg, request.cylinders, HEEL_SHARE);
}

/** Vapour that stays at the least strict of the levels that the firm's machines ask for: the most that can be missing. */
function expectedLeft(context: JobContext): number {
  const levels = unitsOfKind(context.request.gear, 'recovery machine').map(
    ({ made }) =>
      requiredRecoveryLevel({
        refrigerant: context.refrigerant,
        charge_kg: context.nameplate_kg,
        recoveryMachineMade: made,
      }).pressure_Pa,
  );
  return vapourAt(context, Math.max(0, ...levels));
}

/** Ranks every way by a lean plan, then works out in full those that somebody will read. */
function chooseWay(
  context: JobContext,
  receivers: CylinderPlan | null,
  supply: SupplyPlan | null,
): Result<Chosen, EstimateProblem> {
  const onePortOnly = supply !== null && supply.onePort && receivers === null;
  const ways = transferWays(context, onePortOnly);
  if (!ways.ok) return ways;
  const vacuum = vacuumFor(context);
  if (!vacuum.ok) return vacuum;
  const station = vacuum.value && new VacuumStation(context, vacuum.value);
  const allowed: Candidate[] = [];
  const forbidden: SetupOutcome[] = [];
  const problems: EstimateProblem[] = [];
  for (const way of ways.value) {
    const inputs: PlanInputs = { context, way, station, receivers, supply, isShown: false };
    const plan = workPlan(inputs);
    if (plan.ok) allowed.push({ inputs, plan: plan.value });
    else {
      problems.push(...plan.problems);
      forbidden.push(
        forbiddenOutcome(
          inputs,
          plan.problems.map(({ message }) => message),
        ),
      );
    }
  }
  const wished = allowed.filter(
    ({ inputs }) => (context.job.setup.method ?? inputs.way.method) === inputs.way.method,
  );
  const best = wished.toSorted((a, b) => rankOf(a) - rankOf(b))[0];
  if (!best) return refusal(...distinctProblems(problems));
  const shown = worthShowing(allowed, best).map((one) =>
    one === best ? { ...inFull(one), chosen: true } : { ...inFull(one), chosen: false },
  );
  const outcomes = shown.map((one) => allowedOutcome(one, one.chosen));
  return success({
    ...shown.find(({ chosen }) => chosen)!,
    ways: [...outcomes, ...distinctForbidden(forbidden)],
  });
}

function inFull({ inputs }: Candidate): Candidate {
  const full = { ...inputs, isShown: true };
  const plan = workPlan(full);
  if (!plan.ok) throw new Error('a way that was allowed is no longer');
  return { inputs: full, plan: plan.value };
}

function distinctProblems(problems: readonly EstimateProblem[]): EstimateProblem[] {
  const byMessage = new Map(problems.map((problem) => [problem.message, problem]));
  return [...byMessage.values()];
}

/** The smallest pump within a quarter of the fastest: a larger one is kept free for larger machines. */
function vacuumFor(context: JobContext): Result<VacuumWay | null, EstimateProblem> {
  const parts = partsOf(context.job.scope);
  if (!parts.evacuates && !parts.tests) return success(null);
  const ways = vacuumWays(context);
  if (!ways.ok) return ways;
  const timed = ways.value.flatMap((vacuum) => {
    const plan = evacuationPlan(context, { ...vacuum, coresLeftIn: 0 }, [], []);
    return plan.ok
      ? [{ vacuum, time_s: plan.value.phases.reduce((sum, { planned_s }) => sum + planned_s, 0) }]
      : [];
  });
  if (timed.length === 0) return success(ways.value[0]!);
  const fastest_s = Math.min(...timed.map(({ time_s }) => time_s));
  const good = timed.filter(({ time_s }) => time_s <= fastest_s * (1 + WORTH_A_LARGER_PUMP));
  const size = ({ vacuum }: (typeof timed)[number]): number =>
    vacuum.pump.speed_m3_s * 1e3 + vacuum.vacuumHose.bore_m;
  return success(good.toSorted((a, b) => size(a) - size(b))[0]!.vacuum);
}

function accountOf({ inputs: { context, supply }, plan }: Chosen): RefrigerantAccount {
  const parts = partsOf(context.job.scope);
  const leftAsVapour_kg = plan.vapourOut?.recovery.left_kg ?? 0;
  const recovered_kg = parts.recovers ? context.before_kg - leftAsVapour_kg : 0;
  const heelInCylinders_kg = parts.recovers && parts.charges ? recovered_kg * HEEL_SHARE : 0;
  const kept_kg = parts.recovers ? recovered_kg - heelInCylinders_kg : context.before_kg;
  return {
    nameplate_kg: context.nameplate_kg,
    before_kg: context.before_kg,
    recovered_kg,
    leftAsVapour_kg,
    heelInCylinders_kg,
    fromStock_kg: supply ? context.nameplate_kg - kept_kg : 0,
    after_kg: parts.charges ? context.nameplate_kg : 0,
  };
}

/** Receivers with their heel, then stock, then what has to be bought and comes delivered. */
function curveCylinders({ inputs }: Chosen, account: RefrigerantAccount): CurveCylinder[] {
  const { context, receivers, supply } = inputs;
  let left_kg = account.recovered_kg;
  const own = (receivers?.chosenIds ?? []).slice(0, receivers?.needed ?? 0).map((id): CurveCylinder => {
    const fill_kg = Math.min(receivers!.fillLimit_kg, left_kg);
    left_kg -= fill_kg;
    return { id, limit_kg: receivers!.fillLimit_kg, start_kg: 0, heel_kg: fill_kg * HEEL_SHARE };
  });
  let missing_kg = account.fromStock_kg;
  const stock = context.request.cylinders
    .filter(({ id }) => supply?.cylinderIds.includes(id))
    .toSorted((a, b) => supply!.cylinderIds.indexOf(a.id) - supply!.cylinderIds.indexOf(b.id))
    .map((cylinder): CurveCylinder => {
      const given_kg = Math.min(missing_kg, cylinder.contents_kg * (1 - HEEL_SHARE));
      missing_kg -= given_kg;
      return {
        id: cylinder.id,
        limit_kg: cylinder.contents_kg,
        start_kg: cylinder.contents_kg,
        heel_kg: cylinder.contents_kg * HEEL_SHARE,
      };
    });
  const bought =
    missing_kg > 1e-6 ? [{ id: 'to buy', limit_kg: missing_kg, start_kg: missing_kg, heel_kg: 0 }] : [];
  return [...own, ...stock, ...bought];
}

function assumptionsOf({ inputs: { context } }: Chosen): Assumption[] {
  const { job } = context;
  const water: Assumption[] =
    job.moisture_kg === null && partsOf(job.scope).evacuates
      ? [
          {
            id: 'moisture',
            label: 'water left in the system',
            value: ASSUMED_WATER_KG,
            unit: 'kg',
            effect: 'drying time of the evacuation goes with it',
            source: 'assumed for a short opening, low confidence',
          },
        ]
      : [];
  return [
    ...context.assumptions,
    ...water,
    {
      id: 'no-failed-test',
      label: 'failed pressure or rise tests',
      value: 0,
      unit: '-',
      effect: 'each would add about 4 to 48 h',
      source: 'not counted in this estimate',
    },
    {
      id: 'common-cause',
      label: 'correlation between phases',
      value: COMMON_CAUSE_SHARE,
      unit: '-',
      effect: 'widens the percentiles of the whole job',
      source: 'assumed, low confidence',
    },
  ];
}

function assemble(request: EstimateRequest, chosen: Chosen): Estimate {
  const { inputs, plan, ways } = chosen;
  const { context, receivers, supply } = inputs;
  const account = accountOf(chosen);
  const percentiles = samplePercentiles(plan.phases, request.seed, request.samples);
  const { chiller, refrigerant } = context;
  return {
    jobId: request.job.id,
    engineVersion: ESTIMATING_VERSION,
    seed: request.seed,
    samples: request.samples,
    scope: request.job.scope,
    refrigerant: refrigerant.name,
    setup: plan.setup,
    ways,
    phases: plan.phases,
    curve: chargeCurve({
      nameplate_kg: context.nameplate_kg,
      before_kg: context.before_kg,
      cylinders: curveCylinders(chosen, account),
      segments: plan.segments,
      freezing:
        chiller.evaporatorFluid === 'none'
          ? null
          : {
              temperature_K: chiller.freezingPoint_K,
              pressure_Pa: bubblePressure(refrigerant, chiller.freezingPoint_K),
            },
    }),
    cylinders: receivers,
    supply,
    account,
    elapsed_s: plan.phases.reduce((sum, phase) => sum + phase.planned_s, 0),
    attended_person_s: plan.phases.reduce((sum, phase) => sum + phase.planned_s * phase.crew, 0),
    gear_s: plan.phases.reduce(
      (sum, { planned_s, gear }) => sum + planned_s * gear.reduce((units, { count }) => units + count, 0),
      0,
    ),
    elapsed: percentiles.elapsed,
    attended: percentiles.attended,
    cautions: cautionsOf(inputs, plan),
    assumptions: assumptionsOf(chosen),
    reasons: [...plan.phases.map(({ reason }) => reason), ...(receivers ? [receivers.reason] : [])],
    nitrogenCylinders: plan.nitrogen?.cylinders ?? (plan.evacuation ? 1 : 0),
    filterDriers: plan.vapourOut ? 2 : 1,
    oilChanges: plan.evacuation?.oilChanges ?? 0,
  };
}
