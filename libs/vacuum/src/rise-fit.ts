import { OutOfDomainError, requirePositive } from '@brimline/quantities';
import { type LeastSquares, leastSquares } from './least-squares.ts';

export interface RiseReading {
  readonly time_s: number;
  readonly pressure_Pa: number;
}

/** P = start + slope t + moisture (1 - exp(-t/tau)), neither part negative; t from the first reading. */
export interface RiseFit {
  readonly start_Pa: number;
  readonly slope_Pa_s: number;
  /** Slopes that the readings allow as well, with about 95 % confidence. */
  readonly slopeLow_Pa_s: number;
  readonly slopeHigh_Pa_s: number;
  readonly moisture_Pa: number;
  readonly timeConstant_s: number;
  readonly scatter_Pa: number;
}

interface Line {
  readonly start_Pa: number;
  readonly slope_Pa_s: number;
  /** Variance of the slope for a unit variance of the readings, at this time constant. */
  readonly slopeVariance: number;
  /** The same with the time constant free as well, to first order. */
  readonly freeVariance: number;
  readonly moisture_Pa: number;
  readonly timeConstant_s: number;
  readonly squares: number;
}

/** Readings below which start, slope, level and time constant can't be told apart. */
export const LEAST_READINGS = 5;
const GRID = 60;
/** Turns of the golden section, after which a time constant stands to a part in a million. */
const TURNS = 24;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
const HUBER_ROUNDS = 4;
/** Huber's constant: readings further out than this many standard deviations count less. */
const HUBER = 1.345;
const SIGMA_PER_MEDIAN = 1.4826;

/**
 * Least squares over a grid of time constants; for each the rest is linear, with neither part negative. Readings far off
 * the curve are weighted down (Huber), so that one slip of the pen does not make a leak. The best time constant is then
 * sought between the points of the grid. The slopes that are allowed as well are two standard errors to either side of
 * the best, with the time constant free, and those of all time constants whose squares stay within four variances of
 * the best, each with two standard errors of its own.
 *
 * @param readings five or more, in time order [s, Pa abs]
 * @param gaugeError_Pa error of a reading that is there even when the fit is perfect [Pa]
 * @returns start and moisture [Pa], slopes [Pa/s], time constant [s], scatter [Pa]
 * @throws OutOfDomainError for fewer readings or no gauge error
 * @validity time constants from half a reading's interval to the whole span
 * @source least squares; P. J. Huber, Robust Statistics, 1981, from memory
 */
export function fitRise(readings: readonly RiseReading[], gaugeError_Pa: number): RiseFit {
  requirePositive('gauge error [Pa]', gaugeError_Pa);
  if (readings.length < LEAST_READINGS) {
    throw new OutOfDomainError('readings', readings.length, `${LEAST_READINGS} or more`);
  }
  const weights = readings.map(() => 1);
  let lines = gridOf(readings, weights);
  for (let round = 0; round < HUBER_ROUNDS; round += 1) {
    const best = bestOf(lines);
    const off = readings.map((reading) =>
      Math.abs(reading.pressure_Pa - pressureOn(best, reading, readings)),
    );
    const median = off.toSorted((a, b) => a - b)[Math.floor(off.length / 2)]!;
    const limit_Pa = HUBER * Math.max(SIGMA_PER_MEDIAN * median, gaugeError_Pa);
    if (round === 0 && Math.max(...off) <= limit_Pa) break;
    for (const [index, one] of off.entries()) weights[index] = one > limit_Pa ? limit_Pa / one : 1;
    lines = gridOf(readings, weights);
  }
  return withLimits(refined(lines, readings, weights), lines, readings.length, gaugeError_Pa);
}

/** The best line between the neighbours of the grid's best, by golden section in the logarithm of the time constant. */
function refined(lines: readonly Line[], readings: readonly RiseReading[], weights: readonly number[]): Line {
  const at = lines.indexOf(bestOf(lines));
  let low = Math.log(lines[Math.max(0, at - 1)]!.timeConstant_s);
  let high = Math.log(lines[Math.min(GRID, at + 1)]!.timeConstant_s);
  let best = lines[at]!;
  for (let turn = 0; turn < TURNS; turn += 1) {
    const width = GOLDEN * (high - low);
    const [left, right] = [high - width, low + width].map((logTime) =>
      lineFor(readings, weights, Math.exp(logTime)),
    ) as [Line, Line];
    best = bestOf([best, left, right]);
    if (left.squares < right.squares) high = low + width;
    else low = high - width;
  }
  return best;
}

function withLimits(best: Line, lines: readonly Line[], count: number, gaugeError_Pa: number): RiseFit {
  const variance = Math.max(best.squares / Math.max(1, count - 4), gaugeError_Pa ** 2);
  const ownError = 2 * Math.sqrt(best.freeVariance * variance);
  let [low, high] = [best.slope_Pa_s - ownError, best.slope_Pa_s + ownError];
  for (const line of lines) {
    if (line.squares > best.squares + 4 * variance) continue;
    const error = 2 * Math.sqrt(line.slopeVariance * variance);
    low = Math.min(low, line.slope_Pa_s - error);
    high = Math.max(high, line.slope_Pa_s + error);
  }
  const { start_Pa, slope_Pa_s, moisture_Pa, timeConstant_s } = best;
  return {
    start_Pa,
    slope_Pa_s,
    slopeLow_Pa_s: Math.max(0, low),
    slopeHigh_Pa_s: high,
    moisture_Pa,
    timeConstant_s,
    scatter_Pa: Math.sqrt(best.squares / count),
  };
}

function bestOf(lines: readonly Line[]): Line {
  return lines.reduce((best, line) => (line.squares < best.squares ? line : best));
}

function pressureOn(line: Line, reading: RiseReading, readings: readonly RiseReading[]): number {
  const time_s = reading.time_s - readings[0]!.time_s;
  return (
    line.start_Pa + line.slope_Pa_s * time_s - line.moisture_Pa * Math.expm1(-time_s / line.timeConstant_s)
  );
}

function gridOf(readings: readonly RiseReading[], weights: readonly number[]): readonly Line[] {
  const span_s = readings.at(-1)!.time_s - readings[0]!.time_s;
  const shortest_s = span_s / readings.length / 2;
  return Array.from({ length: GRID + 1 }, (_, step) =>
    lineFor(readings, weights, shortest_s * (span_s / shortest_s) ** (step / GRID)),
  );
}

/** The best line for one time constant: with both parts, or where one comes out negative without it. */
function lineFor(readings: readonly RiseReading[], weights: readonly number[], timeConstant_s: number): Line {
  const first = readings[0]!;
  const span_s = readings.at(-1)!.time_s - first.time_s;
  const rows = readings.map(({ time_s, pressure_Pa }) => {
    const since_s = time_s - first.time_s;
    const dried = -Math.expm1(-since_s / timeConstant_s);
    const byTimeConstant = (since_s / timeConstant_s) * (1 - dried);
    return [1, since_s / span_s, dried, byTimeConstant, pressure_Pa - first.pressure_Pa];
  });
  const whole = leastSquares(rows, weights, [0, 1, 2]);
  const slopeVariance = whole.spreads[1]! / span_s ** 2;
  const lineOf = ({ values: [start = 0, slope = 0, moisture = 0], squares }: LeastSquares): Line => ({
    start_Pa: first.pressure_Pa + start,
    slope_Pa_s: slope / span_s,
    slopeVariance,
    freeVariance: moisture > 0 ? freeVarianceOf(rows, weights, span_s) : slopeVariance,
    moisture_Pa: moisture,
    timeConstant_s,
    squares,
  });
  if (whole.values[1]! >= 0 && whole.values[2]! >= 0) return lineOf(whole);
  const parts = [[0, 1], [0, 2], [0]].map((columns) => leastSquares(rows, weights, columns));
  return bestOf(
    parts.filter(({ values }) => values.every((value, at) => at === 0 || value >= 0)).map(lineOf),
  );
}

/** Where the time constant can't be told from the slope, the slope may be anything: the variance has no bound. */
function freeVarianceOf(
  rows: readonly (readonly number[])[],
  weights: readonly number[],
  span_s: number,
): number {
  const variance = leastSquares(rows, weights, [0, 1, 2, 3]).spreads[1]! / span_s ** 2;
  return variance >= 0 ? variance : Infinity;
}
