import { requirePositive, requireWithin } from '@brimline/quantities';
import { nitrogenDensity } from './nitrogen-density.ts';

export interface NitrogenUse {
  readonly mass_kg: number;
  /** Whole cylinders to bring. */
  readonly cylinders: number;
  /** What one full cylinder gives before its pressure is too low for the regulator. */
  readonly fromEach_kg: number;
}

/** A regulator needs this much above the test pressure: assumed, medium confidence. */
export const REGULATOR_DROP_PA = 5e5;

/**
 * Nitrogen to raise a volume to a test pressure, and the cylinders that give it. A cylinder gives what it holds above
 * the final test pressure, which is on the safe side: the first ones could be used further down.
 *
 * @param input volume [m3], test and start pressure [Pa abs], temperature [K], cylinder volume [m3] and fill [Pa abs]
 * @returns mass [kg], whole cylinders, and what each gives [kg]
 * @throws OutOfDomainError unless a full cylinder stands above the test pressure
 * @validity gas at rest temperature before and after, 250 to 330 K
 * @source mass balance with real-gas density
 * @example nitrogenUse({ volume_m3: 2, testPressure_Pa: 1135539, startPressure_Pa: 101325, temperature_K: 293.15, cylinderVolume_m3: 0.0491, fillPressure_Pa: 18.3e6 }).cylinders // => 3
 */
export function nitrogenUse(input: {
  readonly volume_m3: number;
  readonly testPressure_Pa: number;
  readonly startPressure_Pa: number;
  readonly temperature_K: number;
  readonly cylinderVolume_m3: number;
  readonly fillPressure_Pa: number;
}): NitrogenUse {
  const { volume_m3, testPressure_Pa, startPressure_Pa, cylinderVolume_m3, fillPressure_Pa } = input;
  requirePositive('volume [m3]', volume_m3);
  requirePositive('cylinder volume [m3]', cylinderVolume_m3);
  const emptyAt_Pa = testPressure_Pa + REGULATOR_DROP_PA;
  requireWithin(
    'test pressure [Pa abs]',
    testPressure_Pa,
    startPressure_Pa,
    fillPressure_Pa - REGULATOR_DROP_PA,
  );
  const density = (pressure_Pa: number): number => nitrogenDensity(pressure_Pa, input.temperature_K);
  const mass_kg = volume_m3 * (density(testPressure_Pa) - density(startPressure_Pa));
  const fromEach_kg = cylinderVolume_m3 * (density(fillPressure_Pa) - density(emptyAt_Pa));
  if (mass_kg > 0) requirePositive('nitrogen that a cylinder gives [kg]', fromEach_kg);
  return { mass_kg, cylinders: mass_kg > 0 ? Math.ceil(mass_kg / fromEach_kg - 1e-9) : 0, fromEach_kg };
}

/**
 * Time until gas warmed or cooled by filling has come within a difference of the metal: t = tau ln(dT0/dT).
 *
 * @param input.offset_K difference just after filling [K]
 * @param input.allowed_K difference that the hold can bear [K]
 * @param input.timeConstant_s time constant of the gas against its walls [s]
 * @returns time [s]
 * @throws OutOfDomainError unless all are above 0
 * @validity one time constant; measure it on the job, from two readings of the falling pressure
 * @source exponential approach; typical rest of 30 to 60 min assumed, medium confidence
 * @example settlingTime({ offset_K: 10, allowed_K: 0.3, timeConstant_s: 600 }) // => 2104
 */
export function settlingTime(input: {
  readonly offset_K: number;
  readonly allowed_K: number;
  readonly timeConstant_s: number;
}): number {
  const { offset_K, allowed_K, timeConstant_s } = input;
  requirePositive('difference after filling [K]', offset_K);
  requirePositive('difference allowed [K]', allowed_K);
  requirePositive('time constant [s]', timeConstant_s);
  return Math.max(0, timeConstant_s * Math.log(offset_K / allowed_K));
}
