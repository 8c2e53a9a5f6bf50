import { refusal, type Result, success } from '@brimline/quantities';
import { bubblePressure } from '@brimline/refrigerants';
import { certificateNeeded } from '@brimline/rules';
import type { CurveSegment } from './charge-curve.ts';
import type { Dependency, EstimateProblem, GearUse, PhaseEstimate, Setup } from './estimate.ts';
import { chargingSources, isLargeCylinder, sourceCount } from './charging-sources.ts';
import type { JobContext } from './job-context.ts';
import { liquidPhase, type LiquidPhase, liquidToMove } from './liquid-phase.ts';
import * as people from './people-phases.ts';
import { chained } from './phase-draft.ts';
import { type PlanInputs, setupOf } from './plan-inputs.ts';
import { preChargePhase, type PreChargePhase, vapourSpaceToFill } from './pre-charge-phase.ts';
import { partsOf } from './scope-parts.ts';
import { transferGear } from './transfer-gear.ts';
import type { TransferWay } from './transfer-way.ts';
import type { EvacuationPlan, NitrogenPlan } from './vacuum-phases.ts';
import { startPressure, vapourPhase, type VapourPhase } from './vapour-phase.ts';
import { LARGE_UNIT_KG_S } from './ways.ts';

/** Liquid in a hose against a round figure: the curve shows it, nothing is computed from it. */
const HOSE_LIQUID_KG_M3 = 1200;

export interface WorkPlan {
  readonly phases: readonly PhaseEstimate[];
  readonly segments: readonly CurveSegment[];
  readonly setup: Setup;
  /** One entry a circuit where circuits are done one after the other. */
  readonly liquidOut: readonly LiquidPhase[];
  readonly vapourOut: readonly VapourPhase[];
  readonly liquidIn: readonly LiquidPhase[];
  readonly preCharges: readonly PreChargePhase[];
  readonly nitrogen: NitrogenPlan | null;
  readonly evacuation: EvacuationPlan | null;
}

/** The phases of a job by one way, in order, with what each does to the pounds. */
export function workPlan(inputs: PlanInputs): Result<WorkPlan, EstimateProblem> {
  const { context, way } = inputs;
  const parts = partsOf(context.job.scope);
  const gear = way ? transferGear(inputs, way) : success([]);
  if (!gear.ok) return gear;
  const setup = setupOf(inputs);
  const isLargeUnit = way !== null && way.machines[0]!.vapourRate_kg_s >= LARGE_UNIT_KG_S;
  const builder = new PlanBuilder(inputs, gear.value, setup);
  builder.still(people.arrive(context));
  builder.still(
    people.rigUp(context, setup, parts.recovers || !parts.evacuates ? gear.value : [], isLargeUnit),
  );
  const problems = [
    ...(parts.recovers && way ? builder.recover(way) : []),
    ...(parts.tests || parts.evacuates ? builder.testAndEvacuate(parts.opens, parts.tests) : []),
    ...(parts.charges && way ? builder.charge(way, parts.evacuates) : []),
  ];
  if (problems.length > 0) return refusal(...problems);
  builder.still(people.rigDown(context, gear.value));
  return success(builder.plan());
}

class PlanBuilder {
  private readonly phases: PhaseEstimate[] = [];
  private readonly segments: CurveSegment[] = [];
  private readonly liquidOut: LiquidPhase[] = [];
  private readonly vapourOut: VapourPhase[] = [];
  private readonly liquidIn: LiquidPhase[] = [];
  private readonly preCharges: PreChargePhase[] = [];
  private nitrogen: NitrogenPlan | null = null;
  private evacuation: EvacuationPlan | null = null;
  private pressure_Pa: number;
  private recovered_kg = 0;

  constructor(
    private readonly inputs: PlanInputs,
    private readonly gear: readonly GearUse[],
    private readonly setup: Setup,
  ) {
    const { context } = inputs;
    this.pressure_Pa =
      context.before_kg > 0 ? startPressure(context, context.ambient_K) : context.atmosphere_Pa;
  }

  plan(): WorkPlan {
    const { segments, setup, liquidOut, vapourOut, liquidIn, preCharges, nitrogen, evacuation } = this;
    const { text } = certificateNeeded([this.inputs.context.refrigerant]);
    const phases = chained(this.phases, text, this.oilHeatUp());
    return { phases, segments, setup, liquidOut, vapourOut, liquidIn, preCharges, nitrogen, evacuation };
  }

  /** The oil heater goes on when the pump does, and start-up waits for warm oil. */
  private oilHeatUp(): ReadonlyMap<string, readonly Dependency[]> {
    const { oilHeatUp_s } = this.inputs.context.job;
    const startUp = this.phases.find(({ kind }) => kind === 'start-up check');
    if (oilHeatUp_s === undefined || !startUp) return new Map();
    const phaseId = this.phases[this.heaterOn()]!.id;
    const why = 'oil heater on since then';
    return new Map([[startUp.id, [{ phaseId, from: 'end', minimum_s: oilHeatUp_s, maximum_s: null, why }]]]);
  }

  /** Place of the phase at whose end the oil heater goes on. */
  private heaterOn(): number {
    return Math.max(
      0,
      this.phases.findIndex(({ kind }) => kind === 'evacuation set-up'),
    );
  }

  /** What is left to wait for warm oil when all else is done. */
  private waitForOil(): void {
    const { oilHeatUp_s = 0 } = this.inputs.context.job;
    const meanwhile_s = this.phases
      .slice(this.heaterOn() + 1)
      .reduce((sum, { planned_s }) => sum + planned_s, 0);
    if (oilHeatUp_s > meanwhile_s) this.still(people.oilHeatUp(oilHeatUp_s, oilHeatUp_s - meanwhile_s));
  }

  /** A phase in which no pound moves; the pressure stays or goes straight to another. */
  still(phase: PhaseEstimate, to_Pa = this.pressure_Pa): void {
    this.add({ phase, movement: 'none', points: [point(0, 0, this.pressure_Pa), point(1, 0, to_Pa)] });
  }

  recover(way: TransferWay): EstimateProblem[] {
    const { context } = this.inputs;
    if (way.warmedTo_K !== null) {
      this.still(people.warmUp(context, this.gear), startPressure(context, way.warmedTo_K));
    }
    for (const { one, part } of this.circuits(way)) {
      if (part !== '' && part !== FIRST_CIRCUIT) {
        this.nextCircuit(`${part}, out`, startPressure(one, way.warmedTo_K ?? one.ambient_K));
      }
      const problems = this.recoverCircuit(one, way, part);
      if (problems.length > 0) return problems;
    }
    return [];
  }

  private recoverCircuit(one: JobContext, way: TransferWay, part: string): EstimateProblem[] {
    const { physics, detail } = this.inputs;
    const mass_kg = liquidToMove(one, way.warmedTo_K ?? one.ambient_K);
    if (mass_kg > 0) {
      const liquid = liquidPhase(one, physics, way, {
        kind: 'liquid recovery',
        mass_kg,
        changes: this.changesWhile(mass_kg),
        isLargeCylinder: isLargeCylinder(this.inputs),
        showsLimit: detail !== 'ranked',
        gear: this.gear,
        part,
      });
      if (!liquid.ok) return [...liquid.problems];
      this.liquidOut.push(liquid.value);
      this.move('out', liquid.value.phase, mass_kg, this.pressure_Pa);
    }
    const vapour = vapourPhase(one, physics, way, this.gear, part);
    if (!vapour.ok) return [...vapour.problems];
    this.vapourOut.push(vapour.value);
    this.recovered_kg += one.before_kg - vapour.value.recovery.left_kg;
    this.vapourSegment(vapour.value, one.before_kg - mass_kg);
    this.still(people.recoveryHold(one, this.gear, part), this.pressure_Pa * 1.02);
    return [];
  }

  /** Cylinders that get full while a circuit's liquid comes; those that its vapour fills are changed with the next. */
  private changesWhile(mass_kg: number): number {
    const { receivers, way } = this.inputs;
    const swaps = receivers?.swaps ?? 0;
    if (way?.circuitOrder !== 'one after the other' || swaps === 0) return swaps;
    const limit_kg = receivers!.fillLimit_kg;
    return Math.floor((this.recovered_kg + mass_kg) / limit_kg) - Math.floor(this.recovered_kg / limit_kg);
  }

  testAndEvacuate(opens: boolean, tests: boolean): EstimateProblem[] {
    const { context, way, station } = this.inputs;
    if (!station) return [{ code: 'no-vacuum-pump', path: 'gear', message: 'no vacuum pump may be used' }];
    if (opens) this.open(station.nitrogenGear);
    if (tests) {
      const nitrogen = station.nitrogenPlan();
      if (!nitrogen.ok) return [...nitrogen.problems];
      this.nitrogen = nitrogen.value;
      this.still(nitrogen.value.raise, nitrogen.value.testPressure_Pa);
      this.still(nitrogen.value.hold);
      this.still(people.releaseNitrogen(context, station.nitrogenGear), context.atmosphere_Pa);
    }
    const plan = station.evacuationPlan((way?.coresRemoved ?? this.setup.coresRemoved) ? 0 : 1);
    if (!plan.ok) return [...plan.problems];
    this.evacuation = plan.value;
    this.still(people.evacuationSetUp(context, station.pumpGear));
    this.pullSegments(plan.value);
    this.still(plan.value.riseTest);
    return [];
  }

  charge(way: TransferWay, evacuated: boolean): EstimateProblem[] {
    const { context } = this.inputs;
    const { chiller } = context;
    const isStill = chiller.evaporatorFluid !== 'none' && !chiller.waterFlow;
    if (evacuated && isStill && this.setup.entry === 'evaporator') return [ENTRY_CAN_FREEZE];
    if (chiller.waterFlow) this.still(people.proveWater(context));
    const before_Pa = this.pressure_Pa;
    for (const { one, part } of this.circuits(way)) {
      if (part !== '' && part !== FIRST_CIRCUIT) this.nextCircuit(`${part}, in`, before_Pa);
      const problems = this.chargeCircuit(one, way, evacuated, part);
      if (problems.length > 0) return problems;
    }
    this.waitForOil();
    this.still(people.startUp(context));
    return [];
  }

  private chargeCircuit(
    one: JobContext,
    way: TransferWay,
    evacuated: boolean,
    part: string,
  ): EstimateProblem[] {
    const { physics, detail } = this.inputs;
    const missing_kg = one.nameplate_kg - (evacuated ? 0 : one.before_kg);
    const empty_m3 = vapourSpaceToFill(one, evacuated, this.pressure_Pa);
    let charged_kg = 0;
    if (empty_m3 > 0) {
      const vapour = preChargePhase(
        { ...one, volume_m3: empty_m3 },
        physics,
        way,
        chargingSources(this.inputs, missing_kg),
        this.gear,
        part,
      );
      this.preCharges.push(vapour);
      charged_kg = Math.min(missing_kg, vapour.preCharge.mass_kg);
      this.move('in', vapour.phase, charged_kg, vapour.preCharge.safePressure_Pa);
    }
    const liquid_kg = missing_kg - charged_kg;
    if (liquid_kg <= 0) return [];
    const changes = Math.max(0, sourceCount(this.inputs) - 1);
    const liquid = liquidPhase(one, physics, way, {
      kind: 'liquid recharge',
      mass_kg: liquid_kg,
      changes: part === '' ? changes : Math.ceil(changes / one.circuits),
      isLargeCylinder: isLargeCylinder(this.inputs),
      showsLimit: detail === 'chosen' || (detail === 'compared' && this.liquidOut.length === 0),
      gear: this.gear,
      part,
    });
    if (!liquid.ok) return [...liquid.problems];
    this.liquidIn.push(liquid.value);
    this.move('in', liquid.value.phase, liquid_kg, bubblePressure(one.refrigerant, one.ambient_K));
    return [];
  }

  /** The circuits as one, or each by itself. */
  private circuits({ circuitOrder }: TransferWay): { readonly one: JobContext; readonly part: string }[] {
    const { context } = this.inputs;
    const count = context.circuits;
    if (circuitOrder === 'together' || count === 1) return [{ one: context, part: '' }];
    const one: JobContext = {
      ...context,
      nameplate_kg: context.nameplate_kg / count,
      before_kg: context.before_kg / count,
      volume_m3: context.volume_m3 / count,
    };
    // The level is that of a circuit's charge: the circuit stands for itself.
    const alone = { ...one, circuits: 1 };
    return Array.from({ length: count }, (_, index) => ({ one: alone, part: `circuit ${index + 1}` }));
  }

  /** The hoses move on; the curve shows the pressure of the circuit that they are on. */
  private nextCircuit(part: string, to_Pa: number): void {
    this.still(people.nextCircuit(this.inputs.context, this.setup, this.gear, part), to_Pa);
  }

  /** What was left as vapour goes when the machine is opened. */
  private open(nitrogenGear: readonly GearUse[]): void {
    const { context } = this.inputs;
    const lost_kg = this.vapourOut.reduce((sum, { recovery }) => sum + recovery.left_kg, 0);
    this.add({
      phase: people.nitrogenBreak(context, nitrogenGear),
      movement: 'lost',
      points: [point(0, 0, this.pressure_Pa), point(1, lost_kg, context.atmosphere_Pa)],
    });
    this.still(people.openWork(context));
  }

  private move(movement: 'out' | 'in', phase: PhaseEstimate, mass_kg: number, to_Pa: number): void {
    const steps = 24;
    const from_Pa = this.pressure_Pa;
    const points = Array.from({ length: steps + 1 }, (_, step) =>
      point(step / steps, (mass_kg * step) / steps, from_Pa + ((to_Pa - from_Pa) * step) / steps),
    );
    this.add({ phase, movement, points, transit_kg: this.hoseContents(phase) });
  }

  private hoseContents({ kind }: PhaseEstimate): number {
    const { way } = this.inputs;
    if (kind === 'vapour pre-charge' || !way) return 0;
    const volume_m3 = (Math.PI / 4) * way.hose.bore_m ** 2 * way.hose.length_m * way.machines.length;
    return volume_m3 * HOSE_LIQUID_KG_M3;
  }

  private vapourSegment(
    { phase, recovery, heel_s, vapour_s, heelPressure_Pa }: VapourPhase,
    before_kg: number,
  ): void {
    const total_s = heel_s + vapour_s;
    const heelShare = total_s > 0 ? heel_s / total_s : 0;
    const heel_kg = Math.max(0, before_kg - recovery.start_kg);
    const last_s = recovery.curve.at(-1)!.time_s;
    const points = [
      point(0, 0, this.pressure_Pa),
      ...(heelShare > 0 ? [point(heelShare, heel_kg, Math.min(this.pressure_Pa, heelPressure_Pa))] : []),
      ...recovery.curve
        .slice(1)
        .map(({ time_s, mass_kg, pressure_Pa }) =>
          point(heelShare + (1 - heelShare) * (time_s / last_s), before_kg - mass_kg, pressure_Pa),
        ),
    ];
    this.add({ phase, movement: 'out', points });
  }

  private pullSegments({ phases, pulls }: EvacuationPlan): void {
    let pull = 0;
    for (const phase of phases) {
      if (phase.kind === 'nitrogen sweep') {
        this.still(phase, this.inputs.context.atmosphere_Pa);
        continue;
      }
      const { curve } = pulls[pull]!;
      pull += 1;
      const total_s = curve.at(-1)!.time_s;
      this.add({
        phase,
        movement: 'none',
        points: curve.map(({ time_s, pressure_Pa }) => point(time_s / total_s, 0, pressure_Pa)),
      });
    }
  }

  private add(segment: CurveSegment): void {
    this.phases.push(segment.phase);
    this.segments.push(segment);
    this.pressure_Pa = segment.points.at(-1)!.pressure_Pa;
  }
}

const ENTRY_CAN_FREEZE: EstimateProblem = {
  code: 'entry-can-freeze',
  path: 'job.setup.entry',
  message:
    '"evaporator" is not allowed while no water flows; expected "liquid line": liquid into an evacuated evaporator bursts its tubes',
};

const FIRST_CIRCUIT = 'circuit 1';

function point(share: number, moved_kg: number, pressure_Pa: number): CurveSegment['points'][number] {
  return { share, moved_kg, pressure_Pa };
}
