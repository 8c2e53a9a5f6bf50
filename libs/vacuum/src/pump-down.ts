import { OutOfDomainError, requireNotNegative, requirePositive } from '@brimline/quantities';

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

/** Coefficients of the air conductance at 20 degC, SI: viscous d^4 p/l and molecular d^3/l with its transition factor. */
const VISCOUS_M3_S = 1349;
const MOLECULAR_M3_S = 121.2 * (192 / 237);

/**
 * Time through one hose, in closed form: the pump term and the hose term of a line whose far end is at high vacuum:
 *
 *   t = (V/S0) ln[(P0 - Pu)/(Pf - Pu)] + (V/b) ln[1 + 2 b/(a Pf)],  a = 1349 d^4/l,  b = 121.2 (192/237) d^3/l
 *
 * @param input volume [m3], pump speed [m3/s], pressures [Pa abs], hose bore and length [m]
 * @returns time [s], some per cent above fine integration
 * @throws OutOfDomainError as `pumpDownTime`
 * @validity air at 20 degC, dry, tight
 * @source derived from `tubeConductance` with the pump end at zero pressure
 */
export function pumpDownTimeThroughHose(
  input: PumpDownInput & { readonly bore_m: number; readonly length_m: number },
): number {
  const { volume_m3, to_Pa, bore_m, length_m } = input;
  requirePositive('bore [m]', bore_m);
  requirePositive('length [m]', length_m);
  const a = (VISCOUS_M3_S * bore_m ** 4) / length_m;
  const b = (MOLECULAR_M3_S * bore_m ** 3) / length_m;
  return pumpDownTime(input) + (volume_m3 / b) * Math.log1p((2 * b) / (a * to_Pa));
}
