import { formatNumber, PASCALS_PER_MICRON } from '@brimline/quantities';
import { type PumpLine, speedAtVessel } from './effective-speed.ts';
import { rootBetween } from './root-between.ts';

export type FloorCause = 'pump' | 'hose' | 'gas load';

export interface VacuumProblem {
  readonly code: 'target-below-floor';
  readonly path: string;
  readonly message: string;
  /** What stands in the way: better pumps, a wider hose or a tighter system would help. */
  readonly cause: FloorCause;
  readonly floor_Pa: number;
  readonly target_Pa: number;
}

/** Above this no floor is looked for: the pumps do not keep up with the gas load. */
const HIGHEST_PA = 1e7;
const TOLERANCE_LN = 1e-8;

/** Pressure at which the pumps take just the gas load: S(P) P = Q; without a load the lowest ultimate [Pa abs]. */
export function floorOf(lines: readonly PumpLine[], gasLoad_Pa_m3_s: number): number {
  const ultimate_Pa = Math.min(...lines.map((line) => line.ultimate_Pa));
  if (gasLoad_Pa_m3_s === 0) return ultimate_Pa;
  const spare = (logarithm: number): number => {
    const pressure_Pa = Math.exp(logarithm);
    return Math.log(
      Math.max(speedAtVessel(lines, pressure_Pa) * pressure_Pa, Number.MIN_VALUE) / gasLoad_Pa_m3_s,
    );
  };
  const fastest_m3_s = lines.reduce((sum, line) => sum + line.count * line.speed_m3_s, 0);
  const low = Math.log(ultimate_Pa + gasLoad_Pa_m3_s / fastest_m3_s) - 1e-6;
  const high = Math.log(HIGHEST_PA);
  if (low >= high || spare(high) <= 0) return Infinity;
  return spare(low) >= 0 ? Math.exp(low) : Math.exp(rootBetween(spare, low, high, TOLERANCE_LN));
}

/** Why a target can't be reached, told from the floors without load and without hoses. */
export function belowFloor(
  lines: readonly PumpLine[],
  gasLoad_Pa_m3_s: number,
  target_Pa: number,
  floor_Pa: number,
): VacuumProblem {
  const bolted = lines.map((line) => ({ ...line, tube: null, core: null }));
  const cause = causeOf(target_Pa, floorOf(lines, 0), floorOf(bolted, gasLoad_Pa_m3_s));
  const target = micron(target_Pa);
  const floor = Number.isFinite(floor_Pa)
    ? `it holds ${micron(floor_Pa)}`
    : 'the pumps do not keep up with it';
  const because = {
    pump: `the pump holds ${micron(floor_Pa)} on a closed inlet: change its oil or take a deeper pump`,
    hose: `the gas load comes through too narrow a hose, ${floor}: take a wider, shorter hose, or the cores out`,
    'gas load': `the gas load is too great even with the pumps bolted on, ${floor}: find the leak or dry the system`,
  }[cause];
  const path = { pump: 'pumps', hose: 'pumps.hose', 'gas load': 'gasLoad_Pa_m3_s' }[cause];
  return {
    code: 'target-below-floor',
    path,
    message: `${target} can't be reached: ${because}`,
    cause,
    floor_Pa,
    target_Pa,
  };
}

function causeOf(target_Pa: number, ultimate_Pa: number, bolted_Pa: number): FloorCause {
  if (target_Pa <= ultimate_Pa) return 'pump';
  return target_Pa <= bolted_Pa ? 'gas load' : 'hose';
}

function micron(pressure_Pa: number): string {
  return `${formatNumber(pressure_Pa / PASCALS_PER_MICRON, 0)} micron`;
}
