import { normalQuantile } from '@brimline/chance';
import { refusal, type Result, success } from '@brimline/quantities';
import type { CylinderPlan, EstimateProblem, SetupOutcome, SupplyPlan } from './estimate.ts';
import { forbiddenChoices } from './forbidden-choices.ts';
import type { JobContext } from './job-context.ts';
import { JobPhysics } from './job-physics.ts';
import type { Detail, PlanInputs } from './plan-inputs.ts';
import { partsOf } from './scope-parts.ts';
import type { TransferWay } from './transfer-way.ts';
import { evacuationPulls, spanOfPulls } from './vacuum-phases.ts';
import { VacuumStation } from './vacuum-station.ts';
import {
  allowedOutcome,
  type Candidate,
  candidate,
  distinctForbidden,
  forbiddenWay,
  worthShowing,
} from './way-outcomes.ts';
import { canBeWarmed, otherWater, transferWays, type VacuumWay, vacuumWays, withCooler } from './ways.ts';
import { workPlan } from './work-plan.ts';

/** A larger pump is taken only when it saves more than this share of the time. */
const WORTH_A_LARGER_PUMP = 0.25;

const ONE_PORT: EstimateProblem = {
  code: 'one-port',
  path: 'job.setup.method',
  message:
    '"push-pull" is not allowed with one-port cylinders; expected "direct", or cylinders with two ports',
};

export interface Chosen {
  readonly best: Candidate;
  readonly ways: readonly SetupOutcome[];
}

export interface Cylinders {
  /** That to recommend first; empty where nothing is recovered. */
  readonly receivers: readonly CylinderPlan[];
  readonly supply: SupplyPlan | null;
  /** Liquid can't be pushed out of or into cylinders with one port. */
  readonly onePortOnly: boolean;
}

/**
 * Ranks every way by its cost at the wanted certainty with a lean plan, tries what else could be changed of the best,
 * and works out in full those that somebody will read.
 *
 * @param refrigerant_minor cost of refrigerant to buy, the same for every way
 */
export function chooseWay(
  context: JobContext,
  cylinders: Cylinders,
  refrigerant_minor: number,
): Result<Chosen, EstimateProblem> {
  const search = new WaySearch(context, cylinders);
  const problem = search.prepare();
  if (problem) return refusal(...problem);
  const best = search.best();
  if (!best) return refusal(...search.distinctProblems());
  const shown = worthShowing(search.allowed, best).map((one) => ({
    lean: one,
    full: search.inFull(one, one === best ? 'chosen' : 'compared'),
  }));
  const chosen = shown.find(({ lean }) => lean === best)!.full;
  const outcomes = shown.map(({ full }) => allowedOutcome(full, chosen, refrigerant_minor));
  const forbidden = [...search.forbidden, ...forbiddenChoices(chosen.inputs)];
  return success({ best: chosen, ways: [...outcomes, ...distinctForbidden(forbidden)] });
}

class WaySearch {
  readonly allowed: Candidate[] = [];
  readonly forbidden: SetupOutcome[] = [];
  private readonly problems: EstimateProblem[] = [];
  private readonly physics: JobPhysics;
  private readonly deviate: number;
  private station: VacuumStation | null = null;
  private ways: readonly (TransferWay | null)[] = [null];

  constructor(
    private readonly context: JobContext,
    private readonly cylinders: Cylinders,
  ) {
    this.physics = new JobPhysics(context);
    this.deviate = normalQuantile(context.request.certainty ?? 0.8);
  }

  /** The ways and the pump that there are; or why there are none. */
  prepare(): readonly EstimateProblem[] | null {
    const { context, physics } = this;
    const parts = partsOf(context.job.scope);
    if (parts.recovers || parts.charges) {
      const ways = transferWays(context, this.cylinders.onePortOnly);
      if (!ways.ok) return ways.problems;
      this.ways = ways.value;
    }
    if (parts.evacuates || parts.tests) {
      const vacuum = vacuumFor(context, physics);
      if (!vacuum.ok) return vacuum.problems;
      this.station = new VacuumStation(context, physics, vacuum.value);
    }
    return null;
  }

  /** Is there but one way, to be shown whatever it ranks? */
  private get isAlone(): boolean {
    return this.ways.length === 1 && this.context.request.comparesWays === false;
  }

  best(): Candidate | null {
    for (const way of this.ways) this.try(way, this.cylinders.receivers[0] ?? null);
    const { method } = this.context.job.setup;
    const wished = this.allowed.filter(
      ({ inputs: { way } }) => way === null || method === undefined || way.method === method,
    );
    const first = lowest(wished);
    if (!first || this.context.request.comparesWays === false) return first;
    return this.refined(first);
  }

  /** The best again with what is no matter of hoses and machines: circuits, warm water, class of cylinders. */
  private refined(first: Candidate): Candidate {
    const { context, cylinders } = this;
    const { way, receivers } = first.inputs;
    if (!way) return first;
    const { setup } = context.job;
    let best = first;
    const adopt = (one: Candidate | null, isOpen: boolean): void => {
      if (one && isOpen && one.rank < best.rank) best = one;
    };
    if (context.circuits > 1) {
      const circuitOrder = way.circuitOrder === 'together' ? 'one after the other' : 'together';
      adopt(this.try({ ...way, circuitOrder }, receivers), setup.circuitOrder === undefined);
    }
    if (partsOf(context.job.scope).recovers && canBeWarmed(context)) {
      adopt(this.try(otherWater(best.inputs.way!), receivers), setup.warmWater === undefined);
    }
    const cooled = withCooler(context, best.inputs.way!);
    if (cooled) this.try(cooled, receivers);
    for (const other of cylinders.receivers.slice(1)) this.try(best.inputs.way, other);
    return best;
  }

  private try(way: TransferWay | null, receivers: CylinderPlan | null): Candidate | null {
    const inputs = this.inputs(way, receivers, this.isAlone ? 'chosen' : 'ranked');
    const plan = workPlan(inputs);
    if (plan.ok) {
      const found = candidate(inputs, plan.value, this.deviate);
      this.allowed.push(found);
      return found;
    }
    this.problems.push(...plan.problems);
    const why = plan.problems.map(({ message }) => message);
    this.forbidden.push(forbiddenWay(inputs, why));
    return null;
  }

  inFull(one: Candidate, detail: Detail): Candidate {
    const { inputs } = one;
    if (inputs.detail === detail) return one;
    const full = this.inputs(inputs.way, inputs.receivers, detail);
    const plan = workPlan(full);
    if (!plan.ok) throw new Error('a way that was allowed is no longer');
    return candidate(full, plan.value, this.deviate);
  }

  distinctProblems(): EstimateProblem[] {
    const { method } = this.context.job.setup;
    const isOnePort = this.cylinders.onePortOnly && method === 'push-pull';
    const problems = isOnePort ? [...this.problems, ONE_PORT] : this.problems;
    return [...new Map(problems.map((problem) => [problem.message, problem])).values()];
  }

  private inputs(way: TransferWay | null, receivers: CylinderPlan | null, detail: Detail): PlanInputs {
    const { context, physics, station } = this;
    return { context, physics, way, station, receivers, supply: this.cylinders.supply, detail };
  }
}

function lowest(candidates: readonly Candidate[]): Candidate | null {
  let best: Candidate | null = null;
  for (const one of candidates) if (!best || one.rank < best.rank) best = one;
  return best;
}

/** The smallest pump within a quarter of the fastest: a larger one is kept free for larger machines. */
function vacuumFor(context: JobContext, physics: JobPhysics): Result<VacuumWay, EstimateProblem> {
  const ways = vacuumWays(context);
  if (!ways.ok) return ways;
  if (ways.value.length === 1) return success(ways.value[0]!);
  const timed = ways.value.flatMap((vacuum) => {
    const pulls = evacuationPulls(context, physics, { ...vacuum, coresLeftIn: 0 });
    return pulls.ok ? [{ vacuum, time_s: spanOfPulls(context, pulls.value) }] : [];
  });
  if (timed.length === 0) return success(ways.value[0]!);
  const fastest_s = Math.min(...timed.map(({ time_s }) => time_s));
  const good = timed.filter(({ time_s }) => time_s <= fastest_s * (1 + WORTH_A_LARGER_PUMP));
  const size = ({ vacuum }: (typeof timed)[number]): number =>
    vacuum.pump.speed_m3_s * 1e3 + vacuum.vacuumHose.bore_m;
  return success(good.toSorted((a, b) => size(a) - size(b))[0]!.vacuum);
}
