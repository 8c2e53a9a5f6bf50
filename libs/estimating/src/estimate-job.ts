import { OutOfDomainError, refusal, type Result, success } from '@brimline/quantities';
import { bubblePressure, bubbleTemperature, type Refrigerant } from '@brimline/refrigerants';
import { requiredRecoveryLevel } from '@brimline/rules';
import { accountOf, curveCylinders, shortageOf } from './account.ts';
import { assumptionsOf } from './assumptions.ts';
import { cautionsOf } from './cautions.ts';
import { chargeCurve } from './charge-curve.ts';
import { chooseWay, type Chosen, type Cylinders } from './choose-way.ts';
import type { CylinderPlan, Estimate, EstimateProblem, SupplyPlan } from './estimate.ts';
import { unitsOfKind } from './gear-choice.ts';
import { HEEL_SHARE, type JobContext, jobContext } from './job-context.ts';
import { officeTasks } from './office-tasks.ts';
import { planReceivers } from './receivers.ts';
import type { EstimateRequest } from './request.ts';
import { sampleRisk } from './risk.ts';
import { partsOf } from './scope-parts.ts';
import { planSupply } from './supply.ts';
import { totalReasons } from './total-reasons.ts';
import { vapourAt } from './vapour-phase.ts';
import { attendedSpan, elapsedSpan, gearSpan, riskRequest } from './way-outcomes.ts';

/** Named with every estimate: a change of figures changes it. */
export const ESTIMATING_VERSION = '0.2.0';

/**
 * From what is known of a job to its whole work plan: phases with three clocks, cylinders, charge curve, the ways to
 * do it side by side, percentiles, cautions, assumptions and reasons.
 *
 * @returns the estimate, or everything that stops it
 */
export function estimateJob(request: EstimateRequest): Result<Estimate, EstimateProblem> {
  try {
    return estimated(request);
  } catch (error) {
    if (!(error instanceof OutOfDomainError)) throw error;
    const { quantity, value, allowed } = error;
    return refusal({
      code: 'outside-range',
      path: 'job',
      message: `${quantity}: ${value} is not allowed; expected ${allowed}`,
    });
  }
}

function estimated(request: EstimateRequest): Result<Estimate, EstimateProblem> {
  const context = jobContext(request);
  if (!context.ok) return context;
  const supply = supplyFor(context.value);
  const receivers = receiversFor(context.value);
  const onePortOnly =
    (receivers.ok && receivers.value.onePortOnly) ||
    (supply !== null && supply.onePort && !partsOf(request.job.scope).recovers);
  const cylinders: Cylinders = {
    receivers: receivers.ok ? receivers.value.plans : [],
    supply,
    onePortOnly,
  };
  const price = request.worth?.refrigerant_minor_per_kg ?? 0;
  const refrigerant_minor = price * (supply ? supply.fromStock_kg + supply.toBuy_kg : 0);
  const chosen = chooseWay(context.value, cylinders, refrigerant_minor);
  if (!receivers.ok || !chosen.ok) {
    return refusal(...(receivers.ok ? [] : receivers.problems), ...(chosen.ok ? [] : chosen.problems));
  }
  return success(assemble(request, chosen.value));
}

interface Receivers {
  readonly plans: readonly CylinderPlan[];
  readonly onePortOnly: boolean;
}

/** Two ports, so that every method is open; with one, where the stock has no others, liquid goes direct. */
function receiversFor(context: JobContext): Result<Receivers, EstimateProblem> {
  const { job, request } = context;
  if (!partsOf(job.scope).recovers) return success({ plans: [], onePortOnly: false });
  const ask = (needsTwoPorts: boolean): Result<readonly CylinderPlan[], EstimateProblem> =>
    planReceivers({
      refrigerant: context.refrigerant,
      mass_kg: context.before_kg,
      cylinders: request.cylinders,
      needsTwoPorts,
      neededFrom: job.notBefore.slice(0, 10),
      neededUntil: job.due.slice(0, 10),
      spare: request.spareCylinders,
      ...(job.setup.cylinderCapacity_kg === undefined ? {} : { wished_kg: job.setup.cylinderCapacity_kg }),
    });
  const { method } = job.setup;
  const first = ask(method !== 'direct');
  if (first.ok) return success({ plans: first.value, onePortOnly: false });
  const second = method === undefined ? ask(false) : first;
  return second.ok ? success({ plans: second.value, onePortOnly: true }) : first;
}

/** What must come from stock: the missing charge, or what recovery leaves behind and cylinders keep as heel. */
function supplyFor(context: JobContext): SupplyPlan | null {
  const { job, refrigerant, request, nameplate_kg, before_kg } = context;
  const parts = partsOf(job.scope);
  if (!parts.charges) return null;
  const recovered_kg = parts.recovers ? before_kg - Math.min(before_kg, expectedLeft(context)) : 0;
  const kept_kg = parts.recovers ? recovered_kg * (1 - HEEL_SHARE) : before_kg;
  return planSupply(
    refrigerant.name,
    Math.max(0, nameplate_kg - kept_kg),
    request.cylinders,
    HEEL_SHARE,
    job.notBefore.slice(0, 10),
  );
}

/** Vapour that stays at the least strict of the levels that the firm's machines ask for: the most that can be missing. */
function expectedLeft(context: JobContext): number {
  const wished = context.job.setup.machineIds;
  const machines = unitsOfKind(context.request.gear, 'recovery machine').filter(
    ({ id }) => wished === undefined || wished.includes(id),
  );
  const dates = new Set(machines.map(({ made }) => made));
  const levels = Array.from(
    dates,
    (made) =>
      requiredRecoveryLevel({
        refrigerant: context.refrigerant,
        charge_kg: context.nameplate_kg / context.circuits,
        recoveryMachineMade: made,
      }).pressure_Pa,
  );
  if (levels.length === 0) return 0;
  return vapourAt(context, Math.max(...levels));
}

function saturationOf(gas: Refrigerant): (pressure_Pa: number) => number | null {
  const lowest_Pa = bubblePressure(gas, gas.tableMinimum_K);
  const highest_Pa = bubblePressure(gas, gas.tableMaximum_K);
  return (pressure_Pa) =>
    pressure_Pa >= lowest_Pa && pressure_Pa <= highest_Pa ? bubbleTemperature(gas, pressure_Pa) : null;
}

function assemble(request: EstimateRequest, { best, ways }: Chosen): Estimate {
  const { inputs, plan } = best;
  const { context, receivers, supply } = inputs;
  const { chiller, refrigerant } = context;
  const account = accountOf(inputs, plan);
  const shortage = shortageOf(inputs, account);
  const price = request.worth?.refrigerant_minor_per_kg ?? 0;
  const risk = sampleRisk(
    riskRequest(inputs, plan, price * account.fromStock_kg),
    request.seed,
    request.samples,
  );
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
      cylinders: curveCylinders(inputs, account),
      segments: plan.segments,
      saturationAt: saturationOf(refrigerant),
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
    shortage,
    elapsed_s: elapsedSpan(plan),
    attended_person_s: attendedSpan(plan),
    gear_s: gearSpan(plan),
    elapsed: risk.elapsed,
    attended: risk.attended,
    risk,
    topUp: context.topUp,
    officeTasks: officeTasks(context),
    cautions: cautionsOf(inputs, plan),
    assumptions: assumptionsOf(inputs, plan, risk.loops),
    reasons: [
      ...plan.phases.map(({ reason }) => reason),
      ...(receivers ? [receivers.reason] : []),
      ...(context.topUp ? [context.topUp.reason] : []),
      ...totalReasons(inputs, plan, { account, shortage, risk }),
    ],
    nitrogenCylinders: plan.nitrogen?.cylinders ?? (plan.evacuation ? 1 : 0),
    filterDriers: plan.vapourOut.length > 0 ? 2 : inputs.way ? 1 : 0,
    oilChanges: plan.evacuation?.oilChanges ?? 0,
  };
}
