import {
  type Result,
  requireNotNegative,
  requirePositive,
  requireWithin,
  success,
  refusal,
} from '@brimline/quantities';
import { type Drying, dryingPlateau, WATER_HEAT_W_K } from './drying.ts';
import { type PumpLine, pumpLines, type PumpOnHose, speedAtVessel } from './effective-speed.ts';
import { cautionsOf, type EvacuationCaution, type EvacuationLimit, limitOf } from './evacuation-limits.ts';
import { type Gas } from './gases.ts';
import { belowFloor, floorOf, type VacuumProblem } from './vacuum-floor.ts';

/** Real jobs against dry, tight ones: dissolved gas, adsorbed water, blind pockets. Assumed, low confidence, 1.2 to 3. */
export const REAL_TO_DRY = 1.5;
const HOUR_S = 3600;
/** Width of a Simpson interval in ln(P - floor), and how many there may be. */
const WIDTH = 0.3;
const [LEAST_INTERVALS, MOST_INTERVALS] = [4, 60];

export interface EvacuationInput {
  readonly volume_m3: number;
  readonly pumps: readonly PumpOnHose[];
  readonly from_Pa: number;
  readonly to_Pa: number;
  readonly temperature_K: number;
  /** Leak and steady outgassing. */
  readonly gasLoad_Pa_m3_s?: number;
  /** Outgassing of oil and walls after one hour of pumping; it falls as 1/t. */
  readonly outgassingAtOneHour_Pa_m3_s?: number;
  readonly water_kg?: number;
  readonly waterHeat_W_K?: number;
  readonly gas?: Gas;
  /** Whether the hose flow may turn turbulent; true unless given. */
  readonly turbulent?: boolean;
}

export interface EvacuationPoint {
  readonly time_s: number;
  readonly pressure_Pa: number;
}

export interface EvacuationStages {
  /** From the start to the plateau of the water, or all the way when dry. */
  readonly pumpDown_s: number;
  readonly drying_s: number;
  /** From the plateau to the target. */
  readonly finish_s: number;
}

export interface Evacuation {
  readonly time_s: number;
  readonly stages: EvacuationStages;
  /** Time spent on water, part of the whole. */
  readonly drying_s: number;
  readonly plateau_Pa: number | null;
  /** Where the gauge would come to rest: ultimate pressure and gas load. */
  readonly floor_Pa: number;
  readonly iceWarning: boolean;
  readonly cautions: readonly EvacuationCaution[];
  readonly limitedBy: EvacuationLimit;
  readonly curve: readonly EvacuationPoint[];
}

/**
 * Evacuation of a volume by pumps on hoses: dry pump-down by integration in ln(P - P_floor), with the plateau on which
 * water dries in between:
 *
 *   V dP/dt = -S(P) P + Q + Q_1h (1 h/t);  t_water = m_w / rate
 *
 * Where water freezes on a plateau below the target, the gauge passes the target while there is ice left; the time
 * counts until it is gone.
 *
 * @param input volume [m3], pumps, pressures [Pa abs], temperature [K], gas loads [Pa m3/s], water [kg] and its heat [W/K]
 * @returns time [s] with its parts and curve, or why the target can't be reached
 * @throws OutOfDomainError unless volume, speeds and target are above 0 and the start is not below the target
 * @validity multiply the dry time by `REAL_TO_DRY` for real jobs
 * @source mass balance; `effectiveSpeed`, `dryingPlateau`
 */
export function evacuation(input: EvacuationInput): Result<Evacuation, VacuumProblem> {
  const { pumps, from_Pa, to_Pa, temperature_K, gasLoad_Pa_m3_s = 0, water_kg = 0 } = input;
  requireSense(input);
  const lines = pumpLines(pumps, input);
  const floor_Pa = floorOf(lines, gasLoad_Pa_m3_s);
  if (to_Pa <= floor_Pa) return refusal(belowFloor(lines, gasLoad_Pa_m3_s, to_Pa, floor_Pa));
  const heat_W_K = input.waterHeat_W_K ?? WATER_HEAT_W_K;
  const speedAt = (pressure_Pa: number): number => speedAtVessel(lines, pressure_Pa);
  const drying =
    water_kg > 0 ? dryingPlateau({ speedAt, heat_W_K, ambient_K: temperature_K, gasLoad_Pa_m3_s }) : null;
  const course = new Course(input, lines, floor_Pa);
  if (drying) course.dry(water_kg, drying);
  else course.pumpTo(to_Pa);
  const { stages, time_s, curve } = course;
  return success({
    time_s,
    stages,
    drying_s: stages.drying_s,
    plateau_Pa: drying?.plateau_Pa ?? null,
    floor_Pa,
    iceWarning: drying?.freezes ?? false,
    cautions: cautionsOf(drying, to_Pa),
    limitedBy: limitOf(lines, { from_Pa, to_Pa, ...course.shares, drying_s: stages.drying_s }),
    curve,
  });
}

function requireSense(input: EvacuationInput): void {
  requirePositive('volume [m3]', input.volume_m3);
  requirePositive('target [Pa abs]', input.to_Pa);
  requireWithin('start [Pa abs]', input.from_Pa, input.to_Pa, 1e7);
  requirePositive('temperature [K]', input.temperature_K);
  requireNotNegative('water [kg]', input.water_kg ?? 0);
  requireNotNegative('gas load [Pa m3/s]', input.gasLoad_Pa_m3_s ?? 0);
  requireNotNegative('outgassing at one hour [Pa m3/s]', input.outgassingAtOneHour_Pa_m3_s ?? 0);
}

/** Where the evacuation stands, as it is followed from stage to stage. */
class Course {
  time_s = 0;
  stages: EvacuationStages = { pumpDown_s: 0, drying_s: 0, finish_s: 0 };
  readonly curve: EvacuationPoint[];
  /** Dry time as it is, with pumps bolted on, and with no gas load. */
  readonly shares = { dry_s: 0, bare_s: 0, tight_s: 0 };
  private pressure_Pa: number;

  constructor(
    private readonly input: EvacuationInput,
    private readonly lines: readonly PumpLine[],
    private readonly floor_Pa: number,
  ) {
    this.pressure_Pa = input.from_Pa;
    this.curve = [{ time_s: 0, pressure_Pa: input.from_Pa }];
  }

  dry(water_kg: number, { plateau_Pa, rate_kg_s }: Drying): void {
    if (plateau_Pa < this.pressure_Pa) this.pumpTo(plateau_Pa);
    else this.mark(plateau_Pa);
    const { pumpDown_s } = this.stages;
    const drying_s = water_kg / rate_kg_s;
    this.time_s += drying_s;
    this.mark(plateau_Pa);
    const dried_s = this.time_s;
    if (this.input.to_Pa < plateau_Pa) this.pumpTo(this.input.to_Pa);
    this.stages = { pumpDown_s, drying_s, finish_s: this.time_s - dried_s };
  }

  private mark(pressure_Pa: number): void {
    this.pressure_Pa = pressure_Pa;
    this.curve.push({ time_s: this.time_s, pressure_Pa });
  }

  pumpTo(to_Pa: number): void {
    const { floor_Pa } = this;
    const span = Math.log((this.pressure_Pa - floor_Pa) / (to_Pa - floor_Pa));
    const count = Math.min(MOST_INTERVALS, Math.max(LEAST_INTERVALS, Math.ceil(span / WIDTH)));
    const above_Pa = this.pressure_Pa - floor_Pa;
    const halfStep = Math.exp(-span / count / 2);
    let left = this.slowness(above_Pa);
    let excess_Pa = above_Pa;
    for (let node = 1; node <= count; node += 1) {
      const middle = this.slowness(excess_Pa * halfStep);
      excess_Pa = node === count ? to_Pa - floor_Pa : excess_Pa * halfStep * halfStep;
      const right = this.slowness(excess_Pa);
      const weight = (this.input.volume_m3 * span) / count / 6;
      this.advance(weight * (left.real + 4 * middle.real + right.real), left.net_Pa_m3_s, right.net_Pa_m3_s);
      this.shares.bare_s += weight * (left.bare + 4 * middle.bare + right.bare);
      this.shares.tight_s += weight * (left.tight + 4 * middle.tight + right.tight);
      this.mark(floor_Pa + excess_Pa);
      left = right;
    }
    this.stages = { ...this.stages, pumpDown_s: this.time_s };
  }

  /** Seconds for each m3 and each unit of ln(P - P_floor), and what the pumps take beyond the gas load. */
  private slowness(excess_Pa: number): { real: number; bare: number; tight: number; net_Pa_m3_s: number } {
    const pressure_Pa = this.floor_Pa + excess_Pa;
    const load = this.input.gasLoad_Pa_m3_s ?? 0;
    const taken = speedAtVessel(this.lines, pressure_Pa) * pressure_Pa;
    let bolted = 0;
    for (const { count, speed_m3_s, ultimate_Pa } of this.lines) {
      bolted += count * speed_m3_s * Math.max(0, pressure_Pa - ultimate_Pa);
    }
    const net_Pa_m3_s = taken - load;
    return {
      real: excess_Pa / net_Pa_m3_s,
      bare: excess_Pa / (bolted - load),
      tight: excess_Pa / taken,
      net_Pa_m3_s,
    };
  }

  /** Adds a step that would take dry_s without outgassing. */
  private advance(dry_s: number, before_Pa_m3_s: number, after_Pa_m3_s: number): void {
    const gassing = (this.input.outgassingAtOneHour_Pa_m3_s ?? 0) * HOUR_S;
    const step_s =
      gassing === 0
        ? dry_s
        : gassingStep(this.time_s, dry_s, gassing / before_Pa_m3_s, gassing / after_Pa_m3_s);
    this.time_s += step_s;
    this.shares.dry_s += step_s;
  }
}

const NEWTON_TURNS = 4;

/**
 * Length of a step when gas comes off as K/t: with R = K over what the pumps take beyond the steady load,
 * t1 - t0 - R ln(t1/t0) = dt_dry. The first guess has R/t at the end of the step, which is above the root of a convex
 * function, so that Newton's steps come down to it; from t0 = 0 it stands.
 */
function gassingStep(start_s: number, dry_s: number, before_s: number, after_s: number): number {
  const b = start_s - after_s - dry_s;
  const first_s = start_s + (-b + Math.sqrt(b * b + 4 * dry_s * start_s)) / 2;
  if (start_s === 0) return first_s;
  const mean_s = (before_s + after_s) / 2;
  let end_s = first_s;
  for (let turn = 0; turn < NEWTON_TURNS && end_s > mean_s; turn += 1) {
    const excess_s = end_s - start_s - mean_s * Math.log(end_s / start_s) - dry_s;
    end_s -= excess_s / (1 - mean_s / end_s);
  }
  return end_s > start_s ? end_s - start_s : first_s - start_s;
}

/** Share of the first gas left after pulls to P_i with breaks to P_b: product of P_i/P_b. */
export function dilutionAfterPulls(
  pulls: readonly { readonly pull_Pa: number; readonly break_Pa: number }[],
): number {
  return pulls.reduce((share, { pull_Pa, break_Pa }) => share * (pull_Pa / break_Pa), 1);
}
