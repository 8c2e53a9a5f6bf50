import {
  MOLAR_GAS_CONSTANT_J_MOL_K,
  requireNotNegative,
  requirePositive,
  requireWithin,
} from '@brimline/quantities';
import { GASES } from './gases.ts';

/**
 * Compressibility of nitrogen: Z = 1 + (B + C rho) rho with virial coefficients at room temperature, solved for the
 * density. B = -6.2e-6 m3/mol and C = 1.55e-9 m6/mol2 near 293 K, B rising 1.9e-7 a kelvin.
 */
const SECOND_VIRIAL_M3_MOL = -6.2e-6;
const SECOND_VIRIAL_SLOPE = 1.9e-7;
const THIRD_VIRIAL = 1.55e-9;

/**
 * Density of nitrogen gas.
 *
 * @param pressure_Pa pressure [Pa abs]
 * @param temperature_K temperature [K]
 * @returns density [kg/m3]
 * @throws OutOfDomainError outside 250 to 330 K and 0 to 25 MPa
 * @validity 250 to 330 K, up to 25 MPa, within 1 %
 * @source virial equation; coefficients from memory, checked against the nitrogen Helmholtz equation at three states
 */
export function nitrogenDensity(pressure_Pa: number, temperature_K: number): number {
  requireWithin('pressure [Pa abs]', pressure_Pa, 0, 25e6);
  requireWithin('temperature [K]', temperature_K, 250, 330);
  const second = SECOND_VIRIAL_M3_MOL + SECOND_VIRIAL_SLOPE * (temperature_K - 293.15);
  const ideal_mol_m3 = pressure_Pa / (MOLAR_GAS_CONSTANT_J_MOL_K * temperature_K);
  let density_mol_m3 = ideal_mol_m3;
  for (let turn = 0; turn < 60; turn += 1) {
    const next = ideal_mol_m3 / (1 + (second + THIRD_VIRIAL * density_mol_m3) * density_mol_m3);
    const change = next - density_mol_m3;
    density_mol_m3 += change / 2;
    if (Math.abs(change) < 1e-10 * density_mol_m3) break;
  }
  return density_mol_m3 * GASES.nitrogen.molarMass_kg_mol;
}

export interface NitrogenUse {
  readonly mass_kg: number;
  readonly cylinders: number;
}

/** A regulator needs this much above the test pressure: assumed, medium confidence. */
const REGULATOR_DROP_PA = 5e5;

/**
 * Nitrogen to raise a volume to a test pressure, and the cylinders that give it.
 *
 * @param input volume [m3], test and start pressure [Pa abs], temperature [K], cylinder volume [m3] and fill [Pa abs]
 * @returns mass [kg] and whole cylinders
 * @throws OutOfDomainError unless a full cylinder stands above the test pressure
 * @source mass balance with real-gas density
 */
export function nitrogenUse(input: {
  readonly volume_m3: number;
  readonly testPressure_Pa: number;
  readonly startPressure_Pa: number;
  readonly temperature_K: number;
  readonly cylinderVolume_m3: number;
  readonly fillPressure_Pa: number;
}): NitrogenUse {
  const { volume_m3, testPressure_Pa, startPressure_Pa, temperature_K, cylinderVolume_m3, fillPressure_Pa } =
    input;
  requirePositive('volume [m3]', volume_m3);
  requireWithin(
    'test pressure [Pa abs]',
    testPressure_Pa,
    startPressure_Pa,
    fillPressure_Pa - REGULATOR_DROP_PA,
  );
  const mass_kg =
    volume_m3 *
    (nitrogenDensity(testPressure_Pa, temperature_K) - nitrogenDensity(startPressure_Pa, temperature_K));
  const fromEach_kg =
    cylinderVolume_m3 *
    (nitrogenDensity(fillPressure_Pa, temperature_K) -
      nitrogenDensity(testPressure_Pa + REGULATOR_DROP_PA, temperature_K));
  return { mass_kg, cylinders: Math.ceil(mass_kg / fromEach_kg - 1e-9) };
}

/** Absolute pressure of a closed volume at another temperature: P2 = P1 T2/T1 [Pa abs]. */
export function holdPressure(pressure_Pa: number, from_K: number, to_K: number): number {
  requirePositive('temperature [K]', from_K);
  return (pressure_Pa * to_K) / from_K;
}

/**
 * Smallest leak that a hold can see: Q = V (gauge step + P dT/T)/t.
 *
 * @returns gas load [Pa m3/s]
 * @throws OutOfDomainError unless the time is above 0 and the temperature error not negative
 * @source error propagation on the ideal gas law
 */
export function smallestLeakSeen(input: {
  readonly volume_m3: number;
  readonly time_s: number;
  readonly gaugeStep_Pa: number;
  readonly pressure_Pa: number;
  readonly temperatureError_K: number;
  readonly temperature_K: number;
}): number {
  requirePositive('time [s]', input.time_s);
  requireNotNegative('temperature error [K]', input.temperatureError_K);
  const byHeat_Pa = (input.pressure_Pa * input.temperatureError_K) / input.temperature_K;
  return (input.volume_m3 * (input.gaugeStep_Pa + byHeat_Pa)) / input.time_s;
}

/**
 * Leak of a refrigerant through the channel that leaked nitrogen in a test, laminar and viscous:
 *
 *   ratio of pV flows = (eta_N2/eta_ref) (P1^2 - P0^2)_ref / (P1^2 - P0^2)_N2
 *
 * @returns pV flow of the refrigerant over that of the nitrogen [-]
 * @throws OutOfDomainError unless both systems stand above the outside pressure
 * @source Poiseuille's law for a gas
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
