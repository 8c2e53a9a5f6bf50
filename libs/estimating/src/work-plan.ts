import type { Cylinder, Scope } from '@brimline/firm';
import { refusal, type Result, success } from '@brimline/quantities';
import { bubblePressure } from '@brimline/refrigerants';
import type { CurveSegment } from './charge-curve.ts';
import type { CylinderPlan, EstimateProblem, GearUse, PhaseEstimate, Setup, SupplyPlan } from './estimate.ts';
import { hosesAsGood, machinesAsGood, anyOf, scalesFor, scaleUse } from './gear-choice.ts';
import { HEEL_SHARE, type JobContext } from './job-context.ts';
import * as people from './people-phases.ts';
import {
  liquidPhase,
  type LiquidPhase,
  liquidToMove,
  type PreChargePhase,
  preChargePhase,
  type VapourPhase,
  vapourPhase,
} from './transfer-phases.ts';
import type { EvacuationPlan, NitrogenPlan } from './vacuum-phases.ts';
import type { VacuumStation } from './vacuum-station.ts';
import { LARGE_UNIT_KG_S, type TransferWay } from './ways.ts';

/** What a scope takes from the whole work plan. */
const PARTS: Readonly<
  Record<Scope, { recovers: boolean; opens: boolean; tests: boolean; evacuates: boolean; charges: boolean }>
> = {
  'recover and recharge': { recovers: true, opens: true, tests: true, evacuates: true, charges: true },
  'recover only': { recovers: true, opens: false, tests: false, evacuates: false, charges: false },
  'top-up': { recovers: false, opens: false, tests: false, evacuates: false, charges: true },
  recharge: { recovers: false, opens: false, tests: false, evacuates: true, charges: true },
  'evacuate and recharge': { recovers: false, opens: false, tests: true, evacuates: true, charges: true },
};

export const partsOf = (scope: Scope): (typeof PARTS)[Scope] => PARTS[scope];

/** Cylinders of this water capacity are moved and weighed as large ones. */
const LARGE_CYLINDER_KG = 200;

export interface PlanInputs {
  readonly context: JobContext;
  readonly way: TransferWay;
  /** What tests and evacuates; null where the scope does neither. */
  readonly station: VacuumStation | null;
  readonly receivers: CylinderPlan | null;
  readonly supply: SupplyPlan | null;
  /** False while ways are only ranked: reasons then lack what limits a flow. */
  readonly isShown: boolean;
}

export interface WorkPlan {
  readonly phases: readonly PhaseEstimate[];
  readonly segments: readonly CurveSegment[];
  readonly setup: Setup;
  readonly liquidOut: LiquidPhase | null;
  readonly vapourOut: VapourPhase | null;
  readonly liquidIn: LiquidPhase | null;
  readonly preCharge: PreChargePhase | null;
  readonly nitrogen: NitrogenPlan | null;
  readonly evacuation: EvacuationPlan | null;
}

/** Gear that stands on site while refrigerant is moved. */
function transferGear({ context, way, receivers }: PlanInputs): Result<readonly GearUse[], EstimateProblem> {
  const { gear, cylinders } = context.request;
  const heaviest_kg = receivers
    ? receivers.fillLimit_kg + tareOf(cylinders, receivers.eligibleIds)
    : Math.max(
        0,
        ...cylinders
          .filter(({ refrigerant }) => refrigerant === context.refrigerant.name)
          .map((one) => one.contents_kg + one.tare_kg),
      );
  const scales = scalesFor(gear, heaviest_kg);
  if (scales.length === 0) {
    const message = `no scale in calibration carries ${Math.round(heaviest_kg)} kg`;
    return refusal({ code: 'no-scale', path: 'gear', message });
  }
  return success([
    machinesAsGood(gear, way.machines),
    hosesAsGood(gear, way.hose, way.machines.length),
    scaleUse(scales),
    ...(way.coresRemoved ? [anyOf(gear, 'core tool')] : []),
  ]);
}

function tareOf(cylinders: readonly Cylinder[], ids: readonly string[]): number {
  return Math.max(0, ...cylinders.filter(({ id }) => ids.includes(id)).map(({ tare_kg }) => tare_kg));
}

export function setupOf({ context, way, station }: PlanInputs): Setup {
  return {
    method: way.method,
    machineIds: way.machines.map(({ id }) => id),
    hoseSetId: way.hose.id,
    coresRemoved: way.coresRemoved,
    coolerBypassed: way.coolerBypassed,
    waterFlowing: context.chiller.waterFlow,
    entry: 'liquid line',
    pumpIds: station ? [station.way.pump.id] : [],
    vacuumHoseSetId: station?.way.vacuumHose.id ?? null,
  };
}

/** The phases of a job by one way, in order, with what each does to the pounds. */
export function workPlan(inputs: PlanInputs): Result<WorkPlan, EstimateProblem> {
  const { context, way } = inputs;
  const parts = partsOf(context.job.scope);
  const gear = transferGear(inputs);
  if (!gear.ok) return gear;
  const setup = setupOf(inputs);
  const isLargeUnit = way.machines[0]!.vapourRate_kg_s >= LARGE_UNIT_KG_S;
  const builder = new PlanBuilder(inputs, gear.value, setup);
  builder.still(people.arrive(context));
  builder.still(
    people.rigUp(context, setup, parts.recovers || !parts.evacuates ? gear.value : [], isLargeUnit),
  );
  const problems = [
    ...(parts.recovers ? builder.recover() : []),
    ...(parts.tests || parts.evacuates ? builder.testAndEvacuate(parts.opens, parts.tests) : []),
  ];
  if (problems.length > 0) return refusal(...problems);
  if (parts.charges) builder.charge(parts.evacuates);
  builder.still(people.rigDown(context, gear.value));
  return success(builder.plan());
}

class PlanBuilder {
  private readonly phases: PhaseEstimate[] = [];
  private readonly segments: CurveSegment[] = [];
  private liquidOut: LiquidPhase | null = null;
  private vapourOut: VapourPhase | null = null;
  private liquidIn: LiquidPhase | null = null;
  private preCharge: PreChargePhase | null = null;
  private nitrogen: NitrogenPlan | null = null;
  private evacuation: EvacuationPlan | null = null;
  private pressure_Pa: number;

  constructor(
    private readonly inputs: PlanInputs,
    private readonly gear: readonly GearUse[],
    private readonly setup: Setup,
  ) {
    const { context } = inputs;
    this.pressure_Pa =
      context.before_kg > 0 ? bubblePressure(context.refrigerant, context.ambient_K) : context.atmosphere_Pa;
  }

  plan(): WorkPlan {
    const { phases, segments, setup, liquidOut, vapourOut, liquidIn, preCharge, nitrogen, evacuation } = this;
    return { phases, segments, setup, liquidOut, vapourOut, liquidIn, preCharge, nitrogen, evacuation };
  }

  /** A phase in which no pound moves; the pressure stays or goes straight to another. */
  still(phase: PhaseEstimate, to_Pa = this.pressure_Pa): void {
    this.add({ phase, movement: 'none', points: [point(0, 0, this.pressure_Pa), point(1, 0, to_Pa)] });
  }

  recover(): EstimateProblem[] {
    const { context, way, receivers } = this.inputs;
    const mass_kg = liquidToMove(context);
    if (mass_kg > 0) {
      this.liquidOut = liquidPhase(context, way, {
        kind: 'liquid recovery',
        mass_kg,
        changes: Math.max(0, (receivers?.needed ?? 1) - 1),
        isLargeCylinder: this.isLargeCylinder(),
        isShown: this.inputs.isShown,
        gear: this.gear,
      });
      this.move('out', this.liquidOut.phase, mass_kg, this.pressure_Pa);
    }
    const vapour = vapourPhase(context, way, this.gear);
    if (!vapour.ok) return [...vapour.problems];
    this.vapourOut = vapour.value;
    this.vapourSegment(vapour.value, context.before_kg - mass_kg);
    this.still(people.recoveryHold(context, this.gear), this.pressure_Pa * 1.02);
    return [];
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
    const plan = station.evacuationPlan(way.coresRemoved ? 0 : 1);
    if (!plan.ok) return [...plan.problems];
    this.evacuation = plan.value;
    this.still(people.evacuationSetUp(context, station.pumpGear));
    this.pullSegments(plan.value);
    this.still(plan.value.riseTest);
    return [];
  }

  charge(evacuated: boolean): void {
    const { context, way } = this.inputs;
    const missing_kg = context.nameplate_kg - (evacuated ? 0 : context.before_kg);
    if (context.chiller.waterFlow) this.still(people.proveWater(context));
    let charged_kg = 0;
    if (evacuated) {
      this.preCharge = preChargePhase(context, way, this.sources(missing_kg), this.gear);
      charged_kg = Math.min(missing_kg, this.preCharge.preCharge.mass_kg);
      this.move('in', this.preCharge.phase, charged_kg, this.preCharge.preCharge.safePressure_Pa);
    }
    const saturation_Pa = bubblePressure(context.refrigerant, context.ambient_K);
    this.liquidIn = liquidPhase(context, way, {
      kind: 'liquid recharge',
      mass_kg: missing_kg - charged_kg,
      changes: Math.max(0, this.sourceCount() - 1),
      isLargeCylinder: this.isLargeCylinder(),
      isShown: this.inputs.isShown,
      gear: this.gear,
    });
    this.move('in', this.liquidIn.phase, missing_kg - charged_kg, saturation_Pa);
    this.still(people.startUp(context));
  }

  /** What was left as vapour goes when the machine is opened. */
  private open(nitrogenGear: readonly GearUse[]): void {
    const { context } = this.inputs;
    const lost_kg = this.vapourOut?.recovery.left_kg ?? 0;
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
    const { context, way } = this.inputs;
    if (kind === 'vapour pre-charge') return 0;
    const volume_m3 = (Math.PI / 4) * way.hose.bore_m ** 2 * way.hose.length_m * way.machines.length;
    return volume_m3 * 1000 * (context.refrigerant.isBlend ? 1.1 : 1.2);
  }

  private vapourSegment({ phase, recovery, heel_s, heelPressure_Pa }: VapourPhase, before_kg: number): void {
    const total_s = heel_s + recovery.time_s;
    const heelShare = total_s > 0 ? heel_s / total_s : 0;
    const heel_kg = Math.max(0, before_kg - recovery.start_kg);
    const points = [
      point(0, 0, this.pressure_Pa),
      ...(heelShare > 0 ? [point(heelShare, heel_kg, Math.min(this.pressure_Pa, heelPressure_Pa))] : []),
      ...recovery.curve
        .slice(1)
        .map(({ time_s, mass_kg, pressure_Pa }) =>
          point((heel_s + time_s) / total_s, before_kg - mass_kg, pressure_Pa),
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

  /** Cylinders that feed the machine, fullest first. */
  private sources(needed_kg: number): { liquid_kg: number; steel_kg: number }[] {
    const { context, receivers, supply } = this.inputs;
    const { cylinders } = context.request;
    const stock = cylinders.filter(({ id }) => supply?.cylinderIds.includes(id));
    const own = receivers
      ? Array.from({ length: receivers.needed }, () => ({
          liquid_kg: (needed_kg / receivers.needed) * (1 - HEEL_SHARE),
          steel_kg: tareOf(cylinders, receivers.eligibleIds),
        }))
      : [];
    const all = [
      ...own,
      ...stock.map(({ contents_kg, tare_kg }) => ({ liquid_kg: contents_kg, steel_kg: tare_kg })),
    ];
    return all.length > 0 ? all : [{ liquid_kg: needed_kg, steel_kg: needed_kg / 2 }];
  }

  private sourceCount(): number {
    const { receivers, supply } = this.inputs;
    return (
      (receivers?.needed ?? 0) + (supply?.cylinderIds.length ?? 0) + ((supply?.toBuy_kg ?? 0) > 0 ? 1 : 0)
    );
  }

  private isLargeCylinder(): boolean {
    const { context, receivers, supply } = this.inputs;
    if (receivers) return receivers.class_waterCapacity_kg > LARGE_CYLINDER_KG;
    return context.request.cylinders.some(
      ({ id, waterCapacity_kg }) => supply?.cylinderIds[0] === id && waterCapacity_kg > LARGE_CYLINDER_KG,
    );
  }

  private add(segment: CurveSegment): void {
    this.phases.push(segment.phase);
    this.segments.push(segment);
    this.pressure_Pa = segment.points.at(-1)!.pressure_Pa;
  }
}

function point(share: number, moved_kg: number, pressure_Pa: number): CurveSegment['points'][number] {
  return { share, moved_kg, pressure_Pa };
}
