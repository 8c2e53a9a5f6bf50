import { OutOfDomainError, requirePositive } from '@brimline/quantities';

export interface RiseReading {
  readonly time_s: number;
  readonly pressure_Pa: number;
}

export type RiseVerdict = 'tight' | 'leak' | 'moisture' | 'undecided';

export interface RiseFinding {
  readonly verdict: RiseVerdict;
  readonly rise_Pa: number;
  /** Gas load of the straight last third. */
  readonly leakRate_Pa_m3_s: number;
}

/** Slope of the last third over the mean slope: above, a leak; below, moisture. Assumed, medium confidence. */
const LEAK_SHARE = 0.5;
const MOISTURE_SHARE = 0.2;

/** Gas load from a rise: Q = V dP/dt [Pa m3/s]. */
export function leakRate(volume_m3: number, rise_Pa: number, time_s: number): number {
  requirePositive('volume [m3]', volume_m3);
  requirePositive('time [s]', time_s);
  return (volume_m3 * rise_Pa) / time_s;
}

/**
 * Rise of an isolated system with a leak and a wet spot: P0 + (Q/V) t + (Pv - P0)(1 - exp(-t/tau)).
 *
 * @returns pressure at the time [Pa abs]
 * @source mass balance; moisture as a first-order approach to its saturation pressure
 */
export function risePressure(
  start_Pa: number,
  time_s: number,
  leakSlope_Pa_s: number,
  moisture: { readonly level_Pa: number; readonly timeConstant_s: number } | null,
): number {
  const wet = moisture ? (moisture.level_Pa - start_Pa) * -Math.expm1(-time_s / moisture.timeConstant_s) : 0;
  return start_Pa + leakSlope_Pa_s * time_s + wet;
}

/**
 * Judges a rise test: within the limit it is tight; beyond it, a rise that goes on straight is a leak and one that
 * levels off is moisture.
 *
 * @param readings pressures in time order [s, Pa abs], three or more
 * @param volume_m3 isolated volume [m3]
 * @param allowedRise_Pa rise that still passes [Pa]
 * @returns verdict, rise [Pa] and leak rate [Pa m3/s]
 * @throws OutOfDomainError unless there are three readings in time order
 * @source rise goes on: leak; rise levels off: moisture, service literature; the shares assumed
 */
export function judgeRise(
  readings: readonly RiseReading[],
  volume_m3: number,
  allowedRise_Pa: number,
): RiseFinding {
  const [first, last] = [readings[0], readings.at(-1)];
  const isOrdered = readings.every(
    ({ time_s }, index) => index === 0 || time_s > readings[index - 1]!.time_s,
  );
  if (!first || !last || readings.length < 3 || !isOrdered) {
    throw new OutOfDomainError('readings', readings.length, 'three or more, in time order');
  }
  const rise_Pa = last.pressure_Pa - first.pressure_Pa;
  const lateFrom_s = last.time_s - (last.time_s - first.time_s) / 3;
  const late = readings.filter(({ time_s }) => time_s >= lateFrom_s);
  const before = late.length > 1 ? late[0]! : readings.at(-2)!;
  const lateSlope = (last.pressure_Pa - before.pressure_Pa) / (last.time_s - before.time_s);
  const meanSlope = rise_Pa / (last.time_s - first.time_s);
  return {
    verdict: verdictOf(rise_Pa <= allowedRise_Pa, lateSlope / meanSlope),
    rise_Pa,
    leakRate_Pa_m3_s: volume_m3 * Math.max(0, lateSlope),
  };
}

function verdictOf(isWithin: boolean, share: number): RiseVerdict {
  if (isWithin) return 'tight';
  if (share > LEAK_SHARE) return 'leak';
  return share < MOISTURE_SHARE ? 'moisture' : 'undecided';
}
