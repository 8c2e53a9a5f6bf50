import { OutOfDomainError, requireNotNegative, requirePositive } from '@brimline/quantities';
import {
  type ApertureCoefficients,
  apertureCoefficients,
  apertureConductanceAt,
  conductanceAt,
  type Tube,
  type TubeCoefficients,
  tubeCoefficients,
} from './conductance.ts';
import { type Gas, GASES, massOfThroughput } from './gases.ts';
import { turbulenceFactor, viscousReynoldsFactor } from './turbulence.ts';

/** A pump with its own hose on its own port; no hose means bolted on. */
export interface PumpOnHose {
  readonly speed_m3_s: number;
  readonly ultimate_Pa: number;
  readonly hose: Tube | null;
  /** Valve cores left in the line. */
  readonly coresLeftIn?: number;
}

export interface Flow {
  /** Air unless given: on the safe side for water vapour. */
  readonly gas?: Gas;
  readonly temperature_K?: number;
  /** Whether the hose flow may turn turbulent; true unless given. */
  readonly turbulent?: boolean;
}

/** Open area past a valve core left in: assumed, low confidence, 3 to 8 mm2. */
export const CORE_AREA_M2 = 5e-6;
const ROOM_K = 293.15;
const MOST_TURNS = 60;
const TOLERANCE = 1e-9;

/**
 * Speed of a pump at its own inlet: S = S0 (1 - Pu/P), none at or below the ultimate pressure.
 *
 * @param pump full speed [m3/s] and ultimate pressure [Pa abs]
 * @param pressure_Pa pressure at the inlet [Pa abs]
 * @returns speed [m3/s]
 * @throws OutOfDomainError unless the pressure is above 0
 * @validity rotary vane pump, ballast closed
 * @source standard simplification; assumed, medium confidence
 * @example pumpSpeed({ speed_m3_s: 0.004, ultimate_Pa: 2 }, 20) // => 0.0036
 */
export function pumpSpeed(pump: Pick<PumpOnHose, 'speed_m3_s' | 'ultimate_Pa'>, pressure_Pa: number): number {
  requirePositive('pressure [Pa abs]', pressure_Pa);
  return Math.max(0, pump.speed_m3_s * (1 - pump.ultimate_Pa / pressure_Pa));
}

/**
 * Speed at the vessel of pumps on hoses. For each, the inlet pressure at which the hose passes what the pump takes:
 *
 *   C((P + Pp)/2) (P - Pp) = S0 (Pp - Pu);  S = S0 (Pp - Pu)/P
 *
 * @param pumps pumps with speed [m3/s], ultimate pressure [Pa abs] and hose [m]
 * @param pressure_Pa pressure in the vessel [Pa abs]
 * @param flow gas, temperature [K] and whether the flow may turn turbulent; air at 293.15 unless given
 * @returns speed at the vessel [m3/s]; 0 at or below the ultimate pressure
 * @throws OutOfDomainError unless the pressure, speeds, bores and lengths are above 0
 * @validity straight hoses; flow choked at the end of a hose not modelled
 * @source mass balance; conductance by Knudsen, turbulence by `turbulenceFactor`
 * @example effectiveSpeed([{ speed_m3_s: 0.0037756, ultimate_Pa: 2.6664, hose: { bore_m: 0.019, length_m: 3 } }], 66.661) // => 0.0016353
 */
export function effectiveSpeed(pumps: readonly PumpOnHose[], pressure_Pa: number, flow: Flow = {}): number {
  requirePositive('pressure [Pa abs]', pressure_Pa);
  return speedAtVessel(pumpLines(pumps, flow), pressure_Pa);
}

/** Equal pumps on equal lines, with everything worked out that does not depend on the pressure. */
export interface PumpLine {
  readonly count: number;
  readonly speed_m3_s: number;
  readonly ultimate_Pa: number;
  readonly tube: TubeCoefficients | null;
  readonly core: ApertureCoefficients | null;
  readonly cores: number;
  /** Reynolds number for each m3/s of laminar conductance and each Pa across it; 0 keeps the flow laminar. */
  readonly reynolds_s_m3_Pa: number;
}

/** @throws OutOfDomainError unless there is a pump and speeds, bores and lengths are above 0 */
export function pumpLines(pumps: readonly PumpOnHose[], flow: Flow): readonly PumpLine[] {
  if (pumps.length === 0) throw new OutOfDomainError('pumps', 0, 'one or more');
  const kinds: { readonly pump: PumpOnHose; count: number }[] = [];
  for (const pump of pumps) {
    const same = kinds.find((kind) => isSame(kind.pump, pump));
    if (same) same.count += 1;
    else kinds.push({ pump, count: 1 });
  }
  return kinds.map(({ pump, count }) => lineOf(pump, count, flow));
}

function isSame(one: PumpOnHose, other: PumpOnHose): boolean {
  return (
    one.speed_m3_s === other.speed_m3_s &&
    one.ultimate_Pa === other.ultimate_Pa &&
    one.hose?.bore_m === other.hose?.bore_m &&
    one.hose?.length_m === other.hose?.length_m &&
    one.coresLeftIn === other.coresLeftIn
  );
}

function lineOf(pump: PumpOnHose, count: number, flow: Flow): PumpLine {
  const { gas = GASES.air, temperature_K = ROOM_K, turbulent = true } = flow;
  const { speed_m3_s, ultimate_Pa, hose, coresLeftIn: cores = 0 } = pump;
  requirePositive('pump speed [m3/s]', speed_m3_s);
  requireNotNegative('ultimate pressure [Pa abs]', ultimate_Pa);
  requireNotNegative('cores left in', cores);
  return {
    count,
    speed_m3_s,
    ultimate_Pa,
    tube: hose ? tubeCoefficients(hose, gas, temperature_K) : null,
    core: cores > 0 ? apertureCoefficients(CORE_AREA_M2, gas, temperature_K) : null,
    cores,
    reynolds_s_m3_Pa:
      hose && turbulent
        ? viscousReynoldsFactor(hose.bore_m, gas, temperature_K) * massOfThroughput(1, gas, temperature_K)
        : 0,
  };
}

export function speedAtVessel(lines: readonly PumpLine[], pressure_Pa: number): number {
  let speed_m3_s = 0;
  for (const line of lines) speed_m3_s += line.count * lineSpeed(line, pressure_Pa);
  return speed_m3_s;
}

/** In series with the conductance at the mean pressure: S = S0 C/(S0 + C) (1 - Pu/P). */
function lineSpeed(line: PumpLine, pressure_Pa: number): number {
  const { speed_m3_s, ultimate_Pa } = line;
  if (pressure_Pa <= ultimate_Pa) return 0;
  const ownSpeed_m3_s = speed_m3_s * (1 - ultimate_Pa / pressure_Pa);
  if (!line.tube && !line.core) return ownSpeed_m3_s;
  const conductance_m3_s = balancedConductance(line, pressure_Pa);
  return (ownSpeed_m3_s * conductance_m3_s) / (speed_m3_s + conductance_m3_s);
}

/**
 * Conductance at the mean of vessel and inlet pressure, with the inlet at Pp = (C P + S0 Pu)/(C + S0): secant steps
 * inside a bracket that shrinks round the one root.
 */
function balancedConductance(line: PumpLine, pressure_Pa: number): number {
  const { speed_m3_s, ultimate_Pa } = line;
  let low = ultimate_Pa;
  let high = pressure_Pa;
  let before = Number.NaN;
  let excessBefore = Number.NaN;
  let inlet_Pa = firstInlet(line, pressure_Pa);
  for (let turn = 0; turn < MOST_TURNS; turn += 1) {
    const conductance_m3_s = lineConductance(line, pressure_Pa, inlet_Pa);
    const next =
      (conductance_m3_s * pressure_Pa + speed_m3_s * ultimate_Pa) / (conductance_m3_s + speed_m3_s);
    const excess = next - inlet_Pa;
    if (Math.abs(excess) < TOLERANCE * pressure_Pa) return conductance_m3_s;
    if (excess > 0) low = inlet_Pa;
    else high = inlet_Pa;
    const secant = inlet_Pa - (excess * (inlet_Pa - before)) / (excess - excessBefore);
    before = inlet_Pa;
    excessBefore = excess;
    if (secant > low && secant < high) inlet_Pa = secant;
    else inlet_Pa = next > low && next < high ? next : (low + high) / 2;
  }
  return lineConductance(line, pressure_Pa, inlet_Pa);
}

/** Inlet pressure for laminar flow with the transition factor fixed: a quadratic. */
function firstInlet({ tube, speed_m3_s, ultimate_Pa }: PumpLine, pressure_Pa: number): number {
  if (!tube) return (ultimate_Pa + pressure_Pa) / 2;
  const { viscous_m3_s_Pa: a } = tube;
  const molecular = conductanceAt(tube, pressure_Pa * 0.75) - a * pressure_Pa * 0.75;
  const b = molecular + speed_m3_s;
  const c = (a * pressure_Pa * pressure_Pa) / 2 + molecular * pressure_Pa + speed_m3_s * ultimate_Pa;
  return (2 * c) / (b + Math.sqrt(b * b + 2 * a * c));
}

function lineConductance(line: PumpLine, pressure_Pa: number, inlet_Pa: number): number {
  const mean_Pa = (pressure_Pa + inlet_Pa) / 2;
  let resistance = 0;
  if (line.tube) {
    const laminar_m3_s = line.tube.viscous_m3_s_Pa * mean_Pa;
    const reynolds = line.reynolds_s_m3_Pa * laminar_m3_s * (pressure_Pa - inlet_Pa);
    resistance += 1 / conductanceAt(line.tube, mean_Pa, turbulenceFactor(reynolds));
  }
  if (line.core) resistance += line.cores / apertureConductanceAt(line.core, mean_Pa);
  return 1 / resistance;
}
