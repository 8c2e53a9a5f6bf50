import { refusal, type Result, requirePositive, success } from '@brimline/quantities';
import {
  bubblePressure,
  dewPressure,
  type Refrigerant,
  vapourDensity,
  vapourViscosityEstimate,
} from '@brimline/refrigerants';
import { suctionLine, suctionThroughHose } from './gas-flow.ts';
import type { HosePiece } from './hose-path.ts';
import type { Limit, TransferProblem } from './notes.ts';
import { machineDisplacement, type MachineRating, stallPressure } from './recovery-machine.ts';
import { tightestPiece } from './tightest-piece.ts';
import { vapourIsotherm } from './vapour-space.ts';

/** The condenser stands this much above the air: assumed, medium confidence. */
const CONDENSER_RISE_K = 5;
/** Intervals of Simpson's rule in ln(density): against 20 times as many the time changes by less than 0.1 %. */
const INTERVALS = 16;

export interface VapourRecoveryInput {
  readonly refrigerant: Refrigerant;
  readonly volume_m3: number;
  /** Of the vessel's walls and so of the gas. */
  readonly temperature_K: number;
  readonly endPressure_Pa: number;
  /** Saturation at the temperature unless given. */
  readonly startPressure_Pa?: number;
  readonly machines: readonly MachineRating[];
  /** Suction hose of each machine; no loss unless given. */
  readonly path?: readonly HosePiece[];
  readonly dischargePressure_Pa?: number;
}

export interface VapourPoint {
  readonly time_s: number;
  readonly mass_kg: number;
  readonly pressure_Pa: number;
}

export interface VapourRecovery {
  readonly time_s: number;
  readonly start_kg: number;
  readonly left_kg: number;
  readonly limitedBy: Limit;
  readonly curve: readonly VapourPoint[];
}

/**
 * Time to draw a volume of vapour down to a pressure. The walls keep the gas warm; the machines have constant
 * displacement, lose what re-expands in their clearance, and suck through their hoses:
 *
 *   t = integral of V d(rho) / m(rho),  in ln(rho) by Simpson's rule
 *
 * @param input refrigerant, volume [m3], temperature [K], end pressure [Pa abs], machines [kg/s], hose [m]
 * @returns time [s], masses [kg], the curve and what limits; or why the pressure can't be reached
 * @throws OutOfDomainError unless the volume is above 0; outside the refrigerant's table
 * @validity no liquid left; oil gives up refrigerant more slowly (10 to 30 % more time: assumed, low confidence)
 * @source mass balance; clearance as `clearanceEfficiency`; hose as `gasFlow`
 */
export function vapourRecovery(input: VapourRecoveryInput): Result<VapourRecovery, TransferProblem> {
  const { refrigerant: r, volume_m3, temperature_K, endPressure_Pa } = input;
  requirePositive('volume [m3]', volume_m3);
  const startPressure_Pa = Math.min(input.startPressure_Pa ?? Infinity, dewPressure(r, temperature_K));
  const discharge_Pa =
    input.dischargePressure_Pa ??
    bubblePressure(r, Math.min(temperature_K + CONDENSER_RISE_K, r.tableMaximum_K));
  const problem = whyUnreachable(input, discharge_Pa);
  if (problem) return refusal(problem);
  const start = vapourDensity(r, temperature_K, startPressure_Pa);
  const end = vapourDensity(r, temperature_K, endPressure_Pa);
  if (end >= start) {
    const point = { time_s: 0, mass_kg: start * volume_m3, pressure_Pa: startPressure_Pa };
    return success({
      time_s: 0,
      start_kg: point.mass_kg,
      left_kg: point.mass_kg,
      limitedBy: machineLimit(),
      curve: [point],
    });
  }
  const drawn = drawnAt(input, discharge_Pa);
  const curve = curveOf(input, start, end, drawn);
  return success({
    time_s: curve.at(-1)!.time_s,
    start_kg: start * volume_m3,
    left_kg: end * volume_m3,
    limitedBy: limitAt(input, drawn(end)),
    curve,
  });
}

const machineLimit = (): Limit => ({ code: 'machine-vapour-rate', text: "the machine's vapour rate" });

function whyUnreachable(
  { machines, endPressure_Pa }: VapourRecoveryInput,
  discharge_Pa: number,
): TransferProblem | null {
  const lowest_Pa = Math.max(
    ...machines.map((rating) => {
      const { clearance, finalVacuum_Pa } = machineDisplacement(rating);
      return Math.max(finalVacuum_Pa, stallPressure(clearance, discharge_Pa));
    }),
  );
  if (endPressure_Pa > lowest_Pa) return null;
  return {
    code: 'below-final-vacuum',
    path: 'machines',
    message: `the machine stalls at ${(lowest_Pa / 1000).toFixed(1)} kPa absolute; ${(endPressure_Pa / 1000).toFixed(1)} kPa is asked`,
  };
}

interface Drawn {
  readonly massFlow_kg_s: number;
  readonly ratio: number;
  readonly pressure_Pa: number;
}

function drawnAt(input: VapourRecoveryInput, discharge_Pa: number): (density: number) => Drawn {
  const { refrigerant: r, temperature_K, path = null } = input;
  const isotherm = vapourIsotherm(r, temperature_K);
  const viscosity_Pa_s = vapourViscosityEstimate(r, temperature_K).value_Pa_s;
  const lines = input.machines.map((rating) =>
    suctionLine(machineDisplacement(rating), path, viscosity_Pa_s),
  );
  const ratios = lines.map(() => 1);
  return (density_kg_m3) => {
    const pressure_Pa = isotherm.pressure(density_kg_m3);
    let massFlow_kg_s = 0;
    let ratio = 1;
    for (const [index, line] of lines.entries()) {
      const suction = suctionThroughHose(line, { pressure_Pa, density_kg_m3 }, discharge_Pa, ratios[index]);
      ratios[index] = suction.ratio;
      massFlow_kg_s += suction.massFlow_kg_s;
      ratio = Math.min(ratio, suction.ratio);
    }
    return { massFlow_kg_s, ratio, pressure_Pa };
  };
}

function curveOf(
  { volume_m3 }: VapourRecoveryInput,
  start: number,
  end: number,
  drawn: (density: number) => Drawn,
): VapourPoint[] {
  const step = Math.log(start / end) / INTERVALS;
  const at = (node: number) => {
    const density = start * Math.exp(-node * step);
    const { massFlow_kg_s, pressure_Pa } = drawn(density);
    return { density, pressure_Pa, slowness: (volume_m3 * density) / massFlow_kg_s };
  };
  let left = at(0);
  let time_s = 0;
  const curve: VapourPoint[] = [{ time_s, mass_kg: left.density * volume_m3, pressure_Pa: left.pressure_Pa }];
  for (let node = 1; node <= INTERVALS; node += 1) {
    const [middle, right] = [at(node - 0.5), at(node)];
    time_s += (step / 6) * (left.slowness + 4 * middle.slowness + right.slowness);
    curve.push({ time_s, mass_kg: right.density * volume_m3, pressure_Pa: right.pressure_Pa });
    left = right;
  }
  return curve;
}

/** At the end, where most of the time goes: the hose when it takes more than half of the suction pressure. */
function limitAt(
  { path, refrigerant: r, temperature_K }: VapourRecoveryInput,
  { massFlow_kg_s, ratio }: Drawn,
): Limit {
  if (!path || ratio > 0.5) return machineLimit();
  const viscosity_Pa_s = vapourViscosityEstimate(r, temperature_K).value_Pa_s;
  return tightestPiece(path, massFlow_kg_s, { density_kg_m3: 1, viscosity_Pa_s });
}
