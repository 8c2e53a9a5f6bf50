import { formatQuantity } from '@brimline/quantities';
import type { ChargeCurve, ChargeMark, ChargePoint, PhaseEstimate } from './estimate.ts';

/** What a phase does to the pounds: nothing, out to cylinders, in from cylinders, or away for good. */
export type Movement = 'none' | 'out' | 'in' | 'lost';

export interface CurveSegment {
  readonly phase: PhaseEstimate;
  readonly movement: Movement;
  /** Shares of the phase's span from 0 to 1, with the mass moved so far and the pressure in the machine. */
  readonly points: readonly {
    readonly share: number;
    readonly moved_kg: number;
    readonly pressure_Pa: number;
  }[];
  /** Liquid that fills the hoses while the phase runs. */
  readonly transit_kg?: number;
}

export interface CurveCylinder {
  readonly id: string;
  readonly limit_kg: number;
  readonly start_kg: number;
  /** What stays behind when it is emptied. */
  readonly heel_kg: number;
}

interface CurveRequest {
  readonly nameplate_kg: number;
  readonly before_kg: number;
  readonly cylinders: readonly CurveCylinder[];
  readonly segments: readonly CurveSegment[];
  readonly freezing: ChargeCurve['freezing'];
  /** Saturation temperature at a pressure; null where the refrigerant's table does not reach. */
  readonly saturationAt: (pressure_Pa: number) => number | null;
}

/**
 * Lays the phases end to end and follows every kilogram: what leaves the chiller is in transit, in a cylinder, or
 * lost and named; what enters comes from a cylinder. Cylinders are filled in order and emptied in the same order.
 */
export function chargeCurve(request: CurveRequest): ChargeCurve {
  const tracer = new PoundsTracer(request);
  const steps: ChargeCurve['steps'][number][] = [];
  let from_s = 0;
  for (const segment of request.segments) {
    const to_s = from_s + segment.phase.planned_s;
    tracer.follow(segment, from_s, to_s);
    const { id, title, manner } = segment.phase;
    steps.push({ phaseId: id, title, manner, from_s, to_s });
    from_s = to_s;
  }
  return {
    nameplate_kg: request.nameplate_kg,
    cylinders: request.cylinders.map(({ id, limit_kg }) => ({ id, limit_kg })),
    points: tracer.points,
    steps,
    marks: tracer.marks,
    freezing: request.freezing,
  };
}

/** Less than a gram in the machine says nothing of its pressure. */
const NO_REFRIGERANT_KG = 1e-3;

class PoundsTracer {
  readonly points: ChargePoint[] = [];
  readonly marks: ChargeMark[] = [];
  private chiller_kg: number;
  private cylinder_kg: number[];
  private connected: number | null = null;

  private readonly cylinders: readonly CurveCylinder[];

  constructor(private readonly request: CurveRequest) {
    this.cylinders = request.cylinders;
    this.chiller_kg = request.before_kg;
    this.cylinder_kg = request.cylinders.map(({ start_kg }) => start_kg);
  }

  follow(segment: CurveSegment, from_s: number, to_s: number): void {
    const start_kg = this.chiller_kg;
    const before = [...this.cylinder_kg];
    this.connected = null;
    for (const { share, moved_kg, pressure_Pa } of segment.points) {
      const time_s = from_s + share * (to_s - from_s);
      const isUnderWay = share > 0 && share < 1;
      const transit_kg = isUnderWay ? Math.min(segment.transit_kg ?? 0, moved_kg) : 0;
      this.chiller_kg = chillerAfter(segment.movement, start_kg, moved_kg, transit_kg);
      this.cylinder_kg = this.cylindersAfter(segment.movement, before, moved_kg, transit_kg);
      this.markSwap(segment.movement, before, time_s);
      this.points.push({
        time_s,
        chiller_kg: this.chiller_kg,
        transit_kg,
        cylinder_kg: [...this.cylinder_kg],
        pressure_Pa,
        ...this.saturation(pressure_Pa),
      });
    }
    this.markLoss(segment, to_s);
  }

  private saturation(pressure_Pa: number): { readonly saturation_K?: number } {
    if (this.chiller_kg < NO_REFRIGERANT_KG) return {};
    const saturation_K = this.request.saturationAt(pressure_Pa);
    return saturation_K === null ? {} : { saturation_K };
  }

  private cylindersAfter(
    movement: Movement,
    before: readonly number[],
    moved_kg: number,
    transit_kg: number,
  ): number[] {
    if (movement === 'out') return fill(this.cylinders, before, moved_kg - transit_kg);
    return movement === 'in' ? drain(this.cylinders, before, moved_kg) : [...before];
  }

  /** A swap shows where the filling or emptying passes on to the next cylinder. */
  private markSwap(movement: Movement, before: readonly number[], time_s: number): void {
    if (movement !== 'out' && movement !== 'in') return;
    const active = this.cylinder_kg.findLastIndex(
      (mass_kg, index) => Math.abs(mass_kg - before[index]!) > 1e-9,
    );
    if (active >= 0 && this.connected !== null && active > this.connected) {
      this.marks.push({ time_s, kind: 'cylinder swap', text: this.cylinders[active]!.id, mass_kg: null });
    }
    if (active >= 0) this.connected = active;
  }

  private markLoss({ movement, points }: CurveSegment, time_s: number): void {
    const mass_kg = points.at(-1)?.moved_kg ?? 0;
    if (movement !== 'lost' || mass_kg <= 0) return;
    const text = `${formatQuantity(mass_kg, 'mass', 'lb', 1)} stays as vapour and is not recovered`;
    this.marks.push({ time_s, kind: 'not recovered', text, mass_kg });
  }
}

function chillerAfter(movement: Movement, start_kg: number, moved_kg: number, transit_kg: number): number {
  if (movement === 'none') return start_kg;
  return movement === 'in' ? start_kg + moved_kg - transit_kg : start_kg - moved_kg;
}

function fill(cylinders: readonly CurveCylinder[], before: readonly number[], mass_kg: number): number[] {
  let left_kg = mass_kg;
  return before.map((held_kg, index) => {
    const taken_kg = Math.max(0, Math.min(left_kg, cylinders[index]!.limit_kg - held_kg));
    left_kg -= taken_kg;
    return held_kg + taken_kg;
  });
}

function drain(cylinders: readonly CurveCylinder[], before: readonly number[], mass_kg: number): number[] {
  let left_kg = mass_kg;
  return before.map((held_kg, index) => {
    const given_kg = Math.max(0, Math.min(left_kg, held_kg - cylinders[index]!.heel_kg));
    left_kg -= given_kg;
    return held_kg - given_kg;
  });
}
