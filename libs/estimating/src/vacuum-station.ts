import type { Result } from '@brimline/quantities';
import type { EstimateProblem, GearUse } from './estimate.ts';
import { anyOf, hosesAsGood, pumpsAsGood, unitsOfKind } from './gear-choice.ts';
import type { JobContext } from './job-context.ts';
import { type EvacuationPlan, evacuationPlan, type NitrogenPlan, nitrogenTest } from './vacuum-phases.ts';
import type { JobPhysics } from './job-physics.ts';
import type { VacuumWay } from './ways.ts';

/** The pump, its hose and the nitrogen on one job: the same for every way to move liquid, so worked out once. */
export class VacuumStation {
  readonly nitrogenGear: readonly GearUse[];
  readonly pumpGear: readonly GearUse[];
  private nitrogen: Result<NitrogenPlan, EstimateProblem> | null = null;
  private readonly evacuations = new Map<number, Result<EvacuationPlan, EstimateProblem>>();

  constructor(
    private readonly context: JobContext,
    private readonly physics: JobPhysics,
    readonly way: VacuumWay,
  ) {
    const { gear } = context.request;
    this.nitrogenGear = [anyOf(gear, 'nitrogen set')];
    this.pumpGear = [
      pumpsAsGood(gear, way.pump),
      hosesAsGood(gear, way.vacuumHose, 1),
      anyOf(gear, 'vacuum gauge'),
    ];
  }

  nitrogenPlan(): Result<NitrogenPlan, EstimateProblem> {
    const sets = unitsOfKind(this.context.request.gear, 'nitrogen set');
    this.nitrogen ??= nitrogenTest(this.context, sets, this.nitrogenGear);
    return this.nitrogen;
  }

  evacuationPlan(coresLeftIn: number): Result<EvacuationPlan, EstimateProblem> {
    const known = this.evacuations.get(coresLeftIn);
    if (known) return known;
    const line = { ...this.way, coresLeftIn };
    const plan = evacuationPlan(this.context, this.physics, line, this.pumpGear, this.nitrogenGear);
    this.evacuations.set(coresLeftIn, plan);
    return plan;
  }
}
