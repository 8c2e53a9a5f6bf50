import {
  formatNumber,
  PASCALS_PER_MICRON,
  refusal,
  type Result,
  requireNotNegative,
  requirePositive,
  success,
} from '@brimline/quantities';
import { effectiveSpeed, type PumpOnHose } from './effective-speed.ts';
import { dryingPlateau } from './water.ts';

/** Simpson intervals in ln(pressure). */
const INTERVALS = 40;
/** Real jobs against dry, tight ones: dissolved gas, adsorbed water, blind pockets. Assumed, low confidence, 1.2 to 3. */
export const REAL_TO_DRY = 1.5;
/** Heat to water left in the system: assumed, low confidence. */
export const WATER_HEAT_W_K = 20;

export interface EvacuationInput {
  readonly volume_m3: number;
  readonly pumps: readonly PumpOnHose[];
  readonly from_Pa: number;
  readonly to_Pa: number;
  readonly temperature_K: number;
  readonly gasLoad_Pa_m3_s?: number;
  readonly water_kg?: number;
  readonly waterHeat_W_K?: number;
}

export interface EvacuationPoint {
  readonly time_s: number;
  readonly pressure_Pa: number;
}

export interface Evacuation {
  readonly time_s: number;
  /** Time spent on water, part of the whole. */
  readonly drying_s: number;
  readonly plateau_Pa: number | null;
  readonly iceWarning: boolean;
  readonly limitedBy: { readonly code: 'hose' | 'pump' | 'water'; readonly text: string };
  readonly curve: readonly EvacuationPoint[];
}

export interface VacuumProblem {
  readonly code: 'target-below-floor';
  readonly path: string;
  readonly message: string;
}

/**
 * Evacuation of a volume by pumps on hoses: dry pump-down by integration in ln(P), with the plateau on which water
 * dries in between:
 *
 *   V dP/dt = -S(P) P + Q;  t_dry = integral of V/(S(P) - Q/P) d(ln P);  t_water = m_w / rate
 *
 * @param input volume [m3], pumps, pressures [Pa abs], temperature [K], gas load [Pa m3/s], water [kg]
 * @returns time [s] with its parts and curve, or why the target can't be reached
 * @throws OutOfDomainError unless volume is above 0 and start above target
 * @validity tight system; multiply by `REAL_TO_DRY` for real jobs
 * @source mass balance; `effectiveSpeed`, `dryingPlateau`
 */
export function evacuation(input: EvacuationInput): Result<Evacuation, VacuumProblem> {
  const { volume_m3, pumps, from_Pa, to_Pa, temperature_K, gasLoad_Pa_m3_s = 0, water_kg = 0 } = input;
  requirePositive('volume [m3]', volume_m3);
  requirePositive('target [Pa abs]', to_Pa);
  requireNotNegative('water [kg]', water_kg);
  const speedAt = (pressure_Pa: number): number => effectiveSpeed(pumps, pressure_Pa);
  const net = (pressure_Pa: number): number => speedAt(pressure_Pa) - gasLoad_Pa_m3_s / pressure_Pa;
  if (net(to_Pa) <= 0) return refusal(belowFloor(to_Pa));
  const drying =
    water_kg > 0 ? dryingPlateau(speedAt, input.waterHeat_W_K ?? WATER_HEAT_W_K, temperature_K) : null;
  const drying_s = drying ? water_kg / drying.rate_kg_s : 0;
  const dry = dryCurve(volume_m3, from_Pa, to_Pa, net);
  const dry_s = dry.at(-1)!.time_s;
  const curve = drying ? withPlateau(dry, drying.plateau_Pa, drying_s) : dry;
  return success({
    time_s: dry_s + drying_s,
    drying_s,
    plateau_Pa: drying?.plateau_Pa ?? null,
    iceWarning: drying?.freezes ?? false,
    limitedBy: limitOf(pumps, to_Pa, dry_s, drying_s),
    curve,
  });
}

function belowFloor(to_Pa: number): VacuumProblem {
  const micron = formatNumber(to_Pa / PASCALS_PER_MICRON, 0);
  return {
    code: 'target-below-floor',
    path: 'pumps',
    message: `${micron} micron lies below what pumps, hoses and gas load together hold`,
  };
}

function dryCurve(
  volume_m3: number,
  from_Pa: number,
  to_Pa: number,
  net: (pressure_Pa: number) => number,
): EvacuationPoint[] {
  const step = Math.max(0, Math.log(from_Pa / to_Pa)) / INTERVALS;
  const slowness = (pressure_Pa: number): number => volume_m3 / net(pressure_Pa);
  let time_s = 0;
  let left = slowness(from_Pa);
  const curve: EvacuationPoint[] = [{ time_s, pressure_Pa: from_Pa }];
  for (let node = 1; node <= INTERVALS; node += 1) {
    const pressure_Pa = from_Pa * Math.exp(-node * step);
    const right = slowness(pressure_Pa);
    time_s += (step / 6) * (left + 4 * slowness(from_Pa * Math.exp(-(node - 0.5) * step)) + right);
    curve.push({ time_s, pressure_Pa });
    left = right;
  }
  return curve;
}

function withPlateau(
  dry: readonly EvacuationPoint[],
  plateau_Pa: number,
  drying_s: number,
): EvacuationPoint[] {
  const before = dry.filter(({ pressure_Pa }) => pressure_Pa > plateau_Pa);
  const reached_s = before.at(-1)?.time_s ?? 0;
  const after = dry.filter(({ pressure_Pa }) => pressure_Pa <= plateau_Pa);
  return [
    ...before,
    { time_s: reached_s, pressure_Pa: plateau_Pa },
    { time_s: reached_s + drying_s, pressure_Pa: plateau_Pa },
    ...after.map(({ time_s, pressure_Pa }) => ({ time_s: time_s + drying_s, pressure_Pa })),
  ];
}

function limitOf(
  pumps: readonly PumpOnHose[],
  to_Pa: number,
  dry_s: number,
  drying_s: number,
): Evacuation['limitedBy'] {
  if (drying_s > dry_s) return { code: 'water', text: 'the water left in the system' };
  const bare = effectiveSpeed(
    pumps.map((pump) => ({ ...pump, hose: null, coresLeftIn: 0 })),
    to_Pa,
  );
  const hosed = effectiveSpeed(pumps, to_Pa);
  return hosed < bare / 2
    ? { code: 'hose', text: 'the vacuum hose' }
    : { code: 'pump', text: "the pump's speed" };
}

/** Share of the first gas left after pulls to P_i with breaks to P_b: product of P_i/P_b. */
export function dilutionAfterPulls(
  pulls: readonly { readonly pull_Pa: number; readonly break_Pa: number }[],
): number {
  return pulls.reduce((share, { pull_Pa, break_Pa }) => share * (pull_Pa / break_Pa), 1);
}
