import { OutOfDomainError, requireNotNegative, requirePositive } from '@brimline/quantities';
import { type Tube, tubeCoefficients } from './conductance.ts';
import { type Gas, GASES } from './gases.ts';

export interface PumpDownInput {
  readonly volume_m3: number;
  readonly speed_m3_s: number;
  /** Lowest pressure that the pump holds on a closed inlet. */
  readonly ultimate_Pa: number;
  readonly from_Pa: number;
  readonly to_Pa: number;
  /** Leak and outgassing. */
  readonly gasLoad_Pa_m3_s?: number;
}

/** Pressure at which a pump and a gas load hold each other: P = P_u + Q/S [Pa abs]. */
export function floorPressure(ultimate_Pa: number, speed_m3_s: number, gasLoad_Pa_m3_s: number): number {
  requirePositive('speed [m3/s]', speed_m3_s);
  return ultimate_Pa + gasLoad_Pa_m3_s / speed_m3_s;
}

/**
 * Time for a pump of constant speed to take a dry volume from one pressure to another:
 *
 *   t = (V/S) ln[ (P0 - P_floor)/(P - P_floor) ],  P_floor = P_u + Q/S
 *
 * @param input volume [m3], speed at the vessel [m3/s], pressures [Pa abs], gas load [Pa m3/s]
 * @returns time [s]
 * @throws OutOfDomainError unless floor < target <= start and volume and speed are above 0
 * @validity constant speed; a hose makes it fall at low pressure, see `evacuation`
 * @source mass balance; the form with ultimate pressure and gas load: Umrath et al., Fundamentals of Vacuum Technology
 * @example pumpDownTime({ volume_m3: 2, speed_m3_s: 0.0037756, ultimate_Pa: 2.666, from_Pa: 101325, to_Pa: 66.66 }) // => 3903
 */
export function pumpDownTime(input: PumpDownInput): number {
  const { volume_m3, speed_m3_s, ultimate_Pa, from_Pa, to_Pa, gasLoad_Pa_m3_s = 0 } = input;
  requirePositive('volume [m3]', volume_m3);
  requireNotNegative('ultimate pressure [Pa abs]', ultimate_Pa);
  requireNotNegative('gas load [Pa m3/s]', gasLoad_Pa_m3_s);
  const floor_Pa = floorPressure(ultimate_Pa, speed_m3_s, gasLoad_Pa_m3_s);
  if (!(to_Pa > floor_Pa && to_Pa <= from_Pa && Number.isFinite(from_Pa))) {
    throw new OutOfDomainError(
      'target [Pa abs]',
      to_Pa,
      `above the floor of ${floor_Pa} and not above the start of ${from_Pa}`,
    );
  }
  return (volume_m3 / speed_m3_s) * Math.log((from_Pa - floor_Pa) / (to_Pa - floor_Pa));
}

/** Where Knudsen's transition factor settles as the pressure rises. */
const SLIP_IN_VISCOUS = 192 / 237;

/**
 * Time through one hose, in closed form: the pump term and the hose term of a line whose far end is at high vacuum:
 *
 *   t = (V/S0) ln[(P0 - Pf)/(P - Pf)] + (V/b) ln[1 + 2 b/(a P)],
 *   a = pi d^4/(128 eta l),  b = (192/237) c pi d^3/(12 l)
 *
 * @param input volume [m3], pump speed [m3/s], pressures [Pa abs], gas load [Pa m3/s], hose bore and length [m], temperature [K]
 * @returns time [s], some per cent above fine integration
 * @throws OutOfDomainError as `pumpDownTime`
 * @validity laminar, dry; the gas load counts at the pump only, so keep it small
 * @source derived from `tubeConductance` with the pump end at zero pressure
 * @example pumpDownTimeThroughHose({ volume_m3: 2, speed_m3_s: 0.0037756, ultimate_Pa: 2.6664, from_Pa: 101325, to_Pa: 66.661, bore_m: 0.019, length_m: 3 }) // => 4872.3
 */
export function pumpDownTimeThroughHose(
  input: PumpDownInput & Tube & { readonly temperature_K?: number; readonly gas?: Gas },
): number {
  const { volume_m3, to_Pa, temperature_K = 293.15, gas = GASES.air } = input;
  const { viscous_m3_s_Pa: a, molecular_m3_s } = tubeCoefficients(input, gas, temperature_K);
  const b = molecular_m3_s * SLIP_IN_VISCOUS;
  return pumpDownTime(input) + (volume_m3 / b) * Math.log1p((2 * b) / (a * to_Pa));
}
