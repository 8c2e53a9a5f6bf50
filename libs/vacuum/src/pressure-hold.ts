import { requireNotNegative, requirePositive } from '@brimline/quantities';
import { GASES } from './gases.ts';

export interface HoldReading {
  readonly pressure_Pa: number;
  /** Mean temperature of the metal, from two points at least. */
  readonly temperature_K: number;
}

/**
 * Pressure of a closed volume at another temperature: P2 = P1 T2/T1.
 *
 * @param pressure_Pa first pressure [Pa abs]
 * @param from_K first temperature [K]
 * @param to_K second temperature [K]
 * @returns second pressure [Pa abs]
 * @throws OutOfDomainError unless all are above 0
 * @validity no leak; ideal gas, within 0.1 % for nitrogen up to 4 MPa and 20 K
 * @source ideal gas law
 * @example holdPressure(1135539, 298.15, 288.15) // => 1097453
 */
export function holdPressure(pressure_Pa: number, from_K: number, to_K: number): number {
  requirePositive('pressure [Pa abs]', pressure_Pa);
  requirePositive('first temperature [K]', from_K);
  requirePositive('second temperature [K]', to_K);
  return (pressure_Pa * to_K) / from_K;
}

/**
 * Pressure lost to leaks alone in a hold: dP = P1 - P2 T1/T2, at the first temperature.
 *
 * @param first pressure [Pa abs] and temperature [K] at the start
 * @param last pressure [Pa abs] and temperature [K] at the end
 * @returns drop with the temperature taken out [Pa]
 * @throws OutOfDomainError unless all are above 0
 * @validity as `holdPressure`
 * @source ideal gas law
 * @example correctedDrop({ pressure_Pa: 1135539, temperature_K: 298.15 }, { pressure_Pa: 1090000, temperature_K: 288.15 }) // => 7711.9
 */
export function correctedDrop(first: HoldReading, last: HoldReading): number {
  return first.pressure_Pa - holdPressure(last.pressure_Pa, last.temperature_K, first.temperature_K);
}

export interface HoldLimits {
  readonly volume_m3: number;
  readonly time_s: number;
  /** Smallest step that the gauge shows. */
  readonly gaugeStep_Pa: number;
  readonly temperatureError_K: number;
}

/**
 * Smallest leak that a hold can see: Q = V (gauge step + P dT/T)/t.
 *
 * @param input volume [m3], time [s], gauge step [Pa], pressure [Pa abs], temperature and its error [K]
 * @returns leak [Pa m3/s]
 * @throws OutOfDomainError unless volume, time, pressure and temperature are above 0
 * @validity errors added up, not squared
 * @source error propagation on the ideal gas law
 * @example smallestLeakSeen({ volume_m3: 2, time_s: 86400, gaugeStep_Pa: 1723.7, pressure_Pa: 1135539, temperatureError_K: 0.3, temperature_K: 298.15 }) // => 0.06635
 */
export function smallestLeakSeen(input: HoldLimits & HoldReading): number {
  const { volume_m3, time_s } = input;
  requirePositive('volume [m3]', volume_m3);
  requirePositive('time [s]', time_s);
  return (volume_m3 * smallestDrop(input)) / time_s;
}

function smallestDrop(input: Omit<HoldLimits, 'volume_m3' | 'time_s'> & HoldReading): number {
  const { gaugeStep_Pa, pressure_Pa, temperatureError_K, temperature_K } = input;
  requirePositive('pressure [Pa abs]', pressure_Pa);
  requirePositive('temperature [K]', temperature_K);
  requireNotNegative('gauge step [Pa]', gaugeStep_Pa);
  requireNotNegative('temperature error [K]', temperatureError_K);
  return gaugeStep_Pa + (pressure_Pa * temperatureError_K) / temperature_K;
}

export interface HoldFinding {
  readonly correctedDrop_Pa: number;
  readonly leakRate_Pa_m3_s: number;
  /** Below this the hold says nothing. */
  readonly smallestLeak_Pa_m3_s: number;
  /** A drop beyond what gauge and temperature explain is a leak; a rise beyond it means a bad reading. */
  readonly verdict: 'no leak seen' | 'leak' | 'bad reading';
}

/**
 * Judges a pressure hold: the drop with the temperature taken out, against what gauge and thermometer can tell.
 *
 * @param first reading after the gas has come to rest [Pa abs, K]
 * @param last reading at the end [Pa abs, K]
 * @param limits volume [m3], time [s], gauge step [Pa], temperature error [K]
 * @returns drop [Pa], leak rate and smallest leak [Pa m3/s], verdict
 * @throws OutOfDomainError unless all but the errors are above 0
 * @validity "no leak seen" is no proof of tightness: see the smallest leak
 * @source `correctedDrop`, `smallestLeakSeen`
 */
export function judgeHold(first: HoldReading, last: HoldReading, limits: HoldLimits): HoldFinding {
  const smallestLeak_Pa_m3_s = smallestLeakSeen({ ...first, ...limits });
  const correctedDrop_Pa = correctedDrop(first, last);
  const leakRate_Pa_m3_s = (limits.volume_m3 * correctedDrop_Pa) / limits.time_s;
  const isSeen = Math.abs(leakRate_Pa_m3_s) > smallestLeak_Pa_m3_s;
  const seen = leakRate_Pa_m3_s > 0 ? 'leak' : 'bad reading';
  return {
    correctedDrop_Pa,
    leakRate_Pa_m3_s,
    smallestLeak_Pa_m3_s,
    verdict: isSeen ? seen : 'no leak seen',
  };
}

/**
 * Leak of a refrigerant through the channel that leaked nitrogen in a test, laminar and viscous:
 *
 *   ratio of pV flows = (eta_N2/eta_ref) (P1^2 - P0^2)_ref / (P1^2 - P0^2)_N2
 *
 * @param input pressures inside in the test and in service, and outside [Pa abs]; viscosity of the vapour [Pa s]
 * @returns pV flow of the refrigerant over that of the nitrogen [-]
 * @throws OutOfDomainError unless both systems stand above the outside pressure
 * @validity long laminar channel, gas on both sides
 * @source Poiseuille's law for a gas
 * @example refrigerantLeakRatio({ nitrogen_Pa: 1135539, refrigerant_Pa: 645800, refrigerantViscosity_Pa_s: 11.7e-6, outside_Pa: 101325 }) // => 0.47837
 */
export function refrigerantLeakRatio(input: {
  readonly nitrogen_Pa: number;
  readonly refrigerant_Pa: number;
  readonly refrigerantViscosity_Pa_s: number;
  readonly outside_Pa: number;
}): number {
  const { nitrogen_Pa, refrigerant_Pa, refrigerantViscosity_Pa_s, outside_Pa } = input;
  requirePositive('excess of nitrogen pressure [Pa]', nitrogen_Pa - outside_Pa);
  requirePositive('excess of refrigerant pressure [Pa]', refrigerant_Pa - outside_Pa);
  requirePositive('viscosity [Pa s]', refrigerantViscosity_Pa_s);
  const squares = (refrigerant_Pa ** 2 - outside_Pa ** 2) / (nitrogen_Pa ** 2 - outside_Pa ** 2);
  return (GASES.nitrogen.viscosity_Pa_s / refrigerantViscosity_Pa_s) * squares;
}
