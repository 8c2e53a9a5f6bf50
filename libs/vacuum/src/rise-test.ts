import {
  OutOfDomainError,
  PASCALS_PER_MICRON,
  requireNotNegative,
  requirePositive,
} from '@brimline/quantities';
import { fitRise, LEAST_READINGS, type RiseFit, type RiseReading } from './rise-fit.ts';
import { waterPressure } from './water.ts';

export type RiseVerdict = 'tight' | 'leak' | 'moisture' | 'undecided';

export interface RiseCriteria {
  readonly volume_m3: number;
  /** Rise that still passes. */
  readonly allowedRise_Pa: number;
  /** Time that the test must last; a shorter one proves nothing. */
  readonly leastTime_s?: number;
  /** Pressure that must not be passed, whatever the rise. */
  readonly highest_Pa?: number;
  /** Error of a reading; one micron unless given. */
  readonly gaugeError_Pa?: number;
  /** With it, a pressure above that of water at room temperature is known for a leak. */
  readonly ambient_K?: number;
}

export interface RiseFinding {
  readonly verdict: RiseVerdict;
  readonly rise_Pa: number;
  /** Gas load that goes on for ever: of the straight part, not of the moisture. */
  readonly leakRate_Pa_m3_s: number;
  readonly leakRateLow_Pa_m3_s: number;
  readonly leakRateHigh_Pa_m3_s: number;
  /** Null with fewer than five readings. */
  readonly fit: RiseFit | null;
}

/** Slope that goes on over the mean slope: above, a leak; below, moisture. Assumed, medium confidence. */
const LEAK_SHARE = 0.5;
const MOISTURE_SHARE = 0.2;

/**
 * Gas load from a rise: Q = V dP/dt.
 *
 * @param volume_m3 isolated volume [m3]
 * @param rise_Pa rise [Pa]
 * @param time_s time [s]
 * @returns gas load [Pa m3/s]
 * @throws OutOfDomainError unless volume and time are above 0
 * @validity constant temperature
 * @source mass balance
 * @example leakRate(2, 13.33224, 3600) // => 0.0074068
 */
export function leakRate(volume_m3: number, rise_Pa: number, time_s: number): number {
  requirePositive('volume [m3]', volume_m3);
  requirePositive('time [s]', time_s);
  return (volume_m3 * rise_Pa) / time_s;
}

export interface Moisture {
  /** Where the pressure would level without a leak: saturation at the wet spot, or lower. */
  readonly level_Pa: number;
  readonly timeConstant_s: number;
}

/**
 * Rise of an isolated system with a leak and a wet spot: P0 + (Q/V) t + (Pv - P0)(1 - exp(-t/tau)).
 *
 * @param start_Pa first pressure [Pa abs]
 * @param time_s time [s]
 * @param leakSlope_Pa_s leak rate over volume [Pa/s]
 * @param moisture level [Pa abs] and time constant [s], or null when dry
 * @returns pressure [Pa abs]
 * @throws OutOfDomainError unless the time constant is above 0 and time not negative
 * @validity pressure far below that outside, so that the leak is constant
 * @source mass balance; exponential approach
 * @example risePressure(40, 900, 0, { level_Pa: 611, timeConstant_s: 1800 }) // => 264.67
 */
export function risePressure(
  start_Pa: number,
  time_s: number,
  leakSlope_Pa_s: number,
  moisture: Moisture | null,
): number {
  requireNotNegative('time [s]', time_s);
  if (moisture) requirePositive('time constant [s]', moisture.timeConstant_s);
  const wet = moisture ? (moisture.level_Pa - start_Pa) * -Math.expm1(-time_s / moisture.timeConstant_s) : 0;
  return start_Pa + leakSlope_Pa_s * time_s + wet;
}

/**
 * The same at several times, for a drawing or a forecast of a test under way.
 *
 * @param input start [Pa abs], volume [m3], leak rate [Pa m3/s], moisture or null, times [s]
 * @returns a reading for each time [s, Pa abs]
 * @throws OutOfDomainError unless the volume is above 0; as `risePressure`
 * @validity as `risePressure`
 * @source `risePressure`
 */
export function riseCurve(input: {
  readonly start_Pa: number;
  readonly volume_m3: number;
  readonly leakRate_Pa_m3_s: number;
  readonly moisture: Moisture | null;
  readonly times_s: readonly number[];
}): readonly RiseReading[] {
  requirePositive('volume [m3]', input.volume_m3);
  const slope_Pa_s = input.leakRate_Pa_m3_s / input.volume_m3;
  return input.times_s.map((time_s) => ({
    time_s,
    pressure_Pa: risePressure(input.start_Pa, time_s, slope_Pa_s, input.moisture),
  }));
}

/**
 * Judges a rise test. Within the limits and long enough it is tight. Beyond them a rise that goes on straight is a leak,
 * one that levels off is moisture, and what the readings can't tell apart is undecided: go on reading.
 *
 * @param readings pressures in time order, three or more; five or more are fitted [s, Pa abs]
 * @param criteria volume [m3], allowed rise [Pa], least time [s], highest pressure [Pa abs], gauge error [Pa]
 * @returns verdict, rise [Pa], leak rate with its limits [Pa m3/s] and the fit
 * @throws OutOfDomainError unless there are three readings in time order and the volume is above 0
 * @validity constant temperature; moisture that evaporates very slowly looks like a leak
 * @source rise goes on: leak; rise levels off: moisture, service literature; the shares assumed, medium confidence
 */
export function judgeRise(readings: readonly RiseReading[], criteria: RiseCriteria): RiseFinding {
  requireReadings(readings);
  const { volume_m3, gaugeError_Pa = PASCALS_PER_MICRON } = criteria;
  requirePositive('volume [m3]', volume_m3);
  requireNotNegative('allowed rise [Pa]', criteria.allowedRise_Pa);
  const [first, last] = [readings[0]!, readings.at(-1)!];
  const rise_Pa = last.pressure_Pa - first.pressure_Pa;
  const time_s = last.time_s - first.time_s;
  const fit = readings.length < LEAST_READINGS ? null : fitRise(readings, gaugeError_Pa);
  const slopes = fit ?? lastSlopes(readings, gaugeError_Pa);
  const isWithin =
    rise_Pa <= criteria.allowedRise_Pa && last.pressure_Pa <= (criteria.highest_Pa ?? Infinity);
  const isLongEnough = time_s >= (criteria.leastTime_s ?? 0);
  const passed: RiseVerdict = isLongEnough ? 'tight' : 'undecided';
  return {
    verdict: isWithin ? passed : causeOf(slopes, rise_Pa / time_s, isTooHighForWater(last, criteria)),
    rise_Pa,
    leakRate_Pa_m3_s: volume_m3 * slopes.slope_Pa_s,
    leakRateLow_Pa_m3_s: volume_m3 * slopes.slopeLow_Pa_s,
    leakRateHigh_Pa_m3_s: volume_m3 * slopes.slopeHigh_Pa_s,
    fit,
  };
}

type Slopes = Pick<RiseFit, 'slope_Pa_s' | 'slopeLow_Pa_s' | 'slopeHigh_Pa_s'>;

/** The slope between the last two of a few readings, give or take the gauge error of both. */
function lastSlopes(readings: readonly RiseReading[], gaugeError_Pa: number): Slopes {
  const [before, last] = readings.slice(-2) as [RiseReading, RiseReading];
  const time_s = last.time_s - before.time_s;
  const slope_Pa_s = Math.max(0, (last.pressure_Pa - before.pressure_Pa) / time_s);
  const error = (2 * gaugeError_Pa) / time_s;
  return { slope_Pa_s, slopeLow_Pa_s: Math.max(0, slope_Pa_s - error), slopeHigh_Pa_s: slope_Pa_s + error };
}

function causeOf(slopes: Slopes, meanSlope_Pa_s: number, cannotBeWater: boolean): RiseVerdict {
  if (cannotBeWater || slopes.slopeLow_Pa_s > LEAK_SHARE * meanSlope_Pa_s) return 'leak';
  return slopes.slopeHigh_Pa_s < MOISTURE_SHARE * meanSlope_Pa_s ? 'moisture' : 'undecided';
}

function isTooHighForWater(last: RiseReading, { ambient_K }: RiseCriteria): boolean {
  return ambient_K !== undefined && last.pressure_Pa > waterPressure(ambient_K);
}

function requireReadings(readings: readonly RiseReading[]): void {
  const isOrdered = readings.every(
    ({ time_s, pressure_Pa }, index) =>
      Number.isFinite(pressure_Pa) &&
      Number.isFinite(time_s) &&
      (index === 0 || time_s > readings[index - 1]!.time_s),
  );
  if (readings.length < 3 || !isOrdered) {
    throw new OutOfDomainError('readings', readings.length, 'three or more, in time order');
  }
}
