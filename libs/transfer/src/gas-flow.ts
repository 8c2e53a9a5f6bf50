import { requireNotNegative, requirePositive } from '@brimline/quantities';
import { throatArea, throatResistance } from './flashing-flow.ts';
import { type HosePiece, requirePath } from './hose-path.ts';
import { type Displacement, efficiencyUnchecked } from './recovery-machine.ts';
import { rootBetween } from './root-between.ts';

export interface GasFlow {
  readonly massFlow_kg_s: number;
  readonly choked: boolean;
}

/** Pressure ratio at which isothermal flow with N velocity heads chokes: r^2 (N + 1 - 2 ln r) = 1. */
export function chokingRatio(resistance: number): number {
  if (resistance <= 0) return 1;
  let ratio = 1 / Math.sqrt(resistance + 1);
  for (let turn = 0; turn < 20; turn += 1) {
    const bracket = resistance + 1 - 2 * Math.log(ratio);
    const change = (ratio * ratio * bracket - 1) / (2 * ratio * (bracket - 1));
    ratio -= change;
    if (Math.abs(change) < 1e-12) break;
  }
  return ratio;
}

/** G^2/(P1 rho1) of isothermal flow down to a pressure ratio that is not below the choking one. */
function fluxSquare(ratio: number, resistance: number): number {
  return ratio >= 1 ? 0 : (1 - ratio * ratio) / (resistance - 2 * Math.log(ratio));
}

/**
 * Flow of a gas through a hose path, isothermal, with choking:
 *
 *   (m/A)^2 = P1 rho1 (1 - r^2)/(N - 2 ln r),  r = P2/P1, not below the ratio where the flow is greatest
 *
 * All losses refer to the smallest area; short hoses are nearer to adiabatic, which passes up to 10 % more when choked.
 *
 * @param input.path pieces [m]
 * @param input.upstreamPressure_Pa in the vessel that is left [Pa abs]
 * @param input.upstreamDensity_kg_m3 of the gas there [kg/m3]
 * @param input.viscosity_Pa_s dynamic viscosity of the gas [Pa s]
 * @param input.downstreamPressure_Pa at the far end, 0 allowed [Pa abs]
 * @returns mass flow [kg/s] and whether it is choked
 * @throws OutOfDomainError unless pressures, density and viscosity are above 0 (downstream: 0 or above)
 * @validity perfect-gas compressibility along the hose; pressures above a few hundred pascal, where the gas is a continuum
 * @source isothermal pipe flow with friction, any gas-dynamics text (A. H. Shapiro 1953, chapter 6), from memory
 */
export function gasFlow(input: {
  readonly path: readonly HosePiece[];
  readonly upstreamPressure_Pa: number;
  readonly upstreamDensity_kg_m3: number;
  readonly viscosity_Pa_s: number;
  readonly downstreamPressure_Pa: number;
}): GasFlow {
  requirePath(input.path);
  requirePositive('upstream pressure [Pa abs]', input.upstreamPressure_Pa);
  requirePositive('upstream density [kg/m3]', input.upstreamDensity_kg_m3);
  requirePositive('viscosity [Pa s]', input.viscosity_Pa_s);
  requireNotNegative('downstream pressure [Pa abs]', input.downstreamPressure_Pa);
  return gasFlowUnchecked(input);
}

export function gasFlowUnchecked(input: Parameters<typeof gasFlow>[0]): GasFlow {
  const { path, upstreamPressure_Pa, upstreamDensity_kg_m3, viscosity_Pa_s } = input;
  const wanted = input.downstreamPressure_Pa / upstreamPressure_Pa;
  if (wanted >= 1) return { massFlow_kg_s: 0, choked: false };
  const area = throatArea(path);
  const scale = area * Math.sqrt(upstreamPressure_Pa * upstreamDensity_kg_m3);
  const resistanceAt = throatResistance(path, viscosity_Pa_s, area);
  let massFlow_kg_s = 0.2 * scale;
  let choked = false;
  // The resistance hangs on the flow only through the friction factor: the repetition settles within a few turns.
  for (let turn = 0; turn < 12; turn += 1) {
    const resistance = resistanceAt(massFlow_kg_s);
    const critical = chokingRatio(resistance);
    choked = wanted < critical;
    const next = scale * Math.sqrt(fluxSquare(Math.max(wanted, critical), resistance));
    const change = Math.abs(next - massFlow_kg_s);
    massFlow_kg_s = next;
    if (change < 1e-6 * next) break;
  }
  return { massFlow_kg_s, choked };
}

/** What a machine draws through its hose from vapour of a pressure and density, and the pressure ratio over the hose. */
export interface Suction {
  readonly massFlow_kg_s: number;
  /** Pressure at the machine over pressure in the vessel. */
  readonly ratio: number;
}

/** A machine with the hose on its suction side, worked out for a gas. */
export interface SuctionLine {
  readonly machine: Displacement;
  /** Null where nothing is lost between vessel and machine. */
  readonly hose: { readonly area_m2: number; readonly resistance: (massFlow_kg_s: number) => number } | null;
}

export function suctionLine(
  machine: Displacement,
  path: readonly HosePiece[] | null,
  viscosity_Pa_s: number,
): SuctionLine {
  if (path === null) return { machine, hose: null };
  const area_m2 = throatArea(path);
  return { machine, hose: { area_m2, resistance: throatResistance(path, viscosity_Pa_s, area_m2) } };
}

/** The resistance changes little with the flow: a rough turn and a fine one settle it. */
const SUCTION_TOLERANCES = [1e-2, 1e-7];

/**
 * Balance of hose and machine: the suction pressure at which the hose passes what the machine takes in.
 * The gas keeps its temperature, and its density falls with the pressure as a perfect gas's. `near`: a ratio close to
 * the answer, such as that of a gas a little denser.
 */
export function suctionThroughHose(
  { machine, hose }: SuctionLine,
  gas: { readonly pressure_Pa: number; readonly density_kg_m3: number },
  dischargePressure_Pa: number,
  near = 1,
): Suction {
  const overall = dischargePressure_Pa / gas.pressure_Pa;
  const full = machine.displacement_m3_s * gas.density_kg_m3;
  const taken = (ratio: number): number =>
    ratio <= 0 ? 0 : full * ratio * efficiencyUnchecked(machine.clearance, overall / ratio);
  const unhindered = taken(1);
  if (hose === null || unhindered <= 0) return { massFlow_kg_s: unhindered, ratio: 1 };
  const scale = hose.area_m2 * Math.sqrt(gas.pressure_Pa * gas.density_kg_m3);
  let suction: Suction = { massFlow_kg_s: taken(near) || unhindered, ratio: near };
  for (const tolerance of SUCTION_TOLERANCES) {
    const resistance = hose.resistance(suction.massFlow_kg_s);
    const critical = chokingRatio(resistance);
    const most = scale * Math.sqrt(fluxSquare(critical, resistance));
    const passed = (ratio: number): number =>
      ratio <= critical ? most : scale * Math.sqrt(fluxSquare(ratio, resistance));
    const excess = (ratio: number): number => taken(ratio) - passed(ratio);
    const ratio = ratioNear(excess, suction.ratio, tolerance, -most, unhindered);
    suction = { massFlow_kg_s: taken(ratio), ratio };
  }
  return suction;
}

/** How far to both sides of a ratio its successor is first looked for. */
const RATIO_REACH = 0.03;

/** Root of a rising function on 0 to 1 whose ends are known, first looked for near a ratio. */
function ratioNear(
  excess: (ratio: number) => number,
  near: number,
  tolerance: number,
  atNone: number,
  atFull: number,
): number {
  const [low, high] = [Math.max(0, near - RATIO_REACH), Math.min(1, near + RATIO_REACH)];
  const atLow = low === 0 ? atNone : excess(low);
  if (atLow >= 0) return rootBetween(excess, 0, low, tolerance, atNone, atLow);
  const atHigh = high === 1 ? atFull : excess(high);
  if (atHigh >= 0) return rootBetween(excess, low, high, tolerance, atLow, atHigh);
  return rootBetween(excess, high, 1, tolerance, atHigh, atFull);
}
