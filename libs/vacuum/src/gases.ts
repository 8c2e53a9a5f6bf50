import { MOLAR_GAS_CONSTANT_J_MOL_K, OutOfDomainError, requirePositive } from '@brimline/quantities';

export interface Gas {
  readonly molarMass_kg_mol: number;
  /** Dynamic viscosity at 20 degC, low pressure. */
  readonly viscosity_Pa_s: number;
  /** Sutherland's constant, for the viscosity at other temperatures. */
  readonly sutherland_K: number;
  /** Ratio of specific heats, for choked flow. */
  readonly heatCapacityRatio: number;
}

/** Molar masses, viscosities at 20 degC, Sutherland's constants and heat ratios: from memory of standard tables. */
export const GASES = {
  air: {
    molarMass_kg_mol: 0.0289647,
    viscosity_Pa_s: 18.2e-6,
    sutherland_K: 110.4,
    heatCapacityRatio: 1.4,
  },
  nitrogen: {
    molarMass_kg_mol: 0.0280134,
    viscosity_Pa_s: 17.6e-6,
    sutherland_K: 107,
    heatCapacityRatio: 1.4,
  },
  'water vapour': {
    molarMass_kg_mol: 0.0180153,
    viscosity_Pa_s: 9.7e-6,
    sutherland_K: 1064,
    heatCapacityRatio: 1.33,
  },
  helium: {
    molarMass_kg_mol: 0.0040026,
    viscosity_Pa_s: 19.6e-6,
    sutherland_K: 79.4,
    heatCapacityRatio: 1.667,
  },
} as const satisfies Record<string, Gas>;
export type GasName = keyof typeof GASES;

const REFERENCE_K = 293.15;

/** @throws OutOfDomainError unless the gas is held */
export function gasNamed(name: string): Gas {
  const found = Object.hasOwn(GASES, name) ? GASES[name as GasName] : undefined;
  if (!found) throw new OutOfDomainError('gas', name, Object.keys(GASES).join(', '));
  return found;
}

/**
 * Mean molecular speed: c = sqrt(8 R T / (pi M)).
 *
 * @param gas molar mass [kg/mol]
 * @param temperature_K temperature [K]
 * @returns speed [m/s]
 * @throws OutOfDomainError unless the temperature is above 0
 * @validity any ideal gas
 * @source kinetic theory, any text
 * @example meanMolecularSpeed(GASES.air, 293.15) // => 462.911
 */
export function meanMolecularSpeed(gas: Gas, temperature_K: number): number {
  requirePositive('temperature [K]', temperature_K);
  return Math.sqrt((8 * MOLAR_GAS_CONSTANT_J_MOL_K * temperature_K) / (Math.PI * gas.molarMass_kg_mol));
}

/**
 * Viscosity of a dilute gas: eta = eta_20 (T/T_20)^1.5 (T_20 + S)/(T + S).
 *
 * @param gas viscosity at 20 degC [Pa s] and Sutherland's constant [K]
 * @param temperature_K temperature [K]
 * @returns viscosity [Pa s]
 * @throws OutOfDomainError unless the temperature is above 0
 * @validity 220 to 400 K, within 2 %; water vapour within 4 %
 * @source W. Sutherland 1893, constants as in F. M. White, Viscous Fluid Flow, from memory
 * @example viscosityOfGas(GASES.air, 273.15) // => 1.7225e-5
 */
export function viscosityOfGas(gas: Gas, temperature_K: number): number {
  requirePositive('temperature [K]', temperature_K);
  const { viscosity_Pa_s, sutherland_K } = gas;
  return (
    (viscosity_Pa_s * (temperature_K / REFERENCE_K) ** 1.5 * (REFERENCE_K + sutherland_K)) /
    (temperature_K + sutherland_K)
  );
}

/**
 * Flow of volume through each square metre of an opening when the flow is choked, at upstream pressure:
 * w = sqrt(k R T/M) (2/(k + 1))^((k + 1)/(2 (k - 1))).
 *
 * @param gas molar mass [kg/mol] and heat ratio [-]
 * @param temperature_K temperature upstream [K]
 * @returns volume flow for each area [m/s]
 * @throws OutOfDomainError unless the temperature is above 0
 * @validity outlet below about half of the inlet pressure; no contraction of the jet
 * @source isentropic flow of an ideal gas, any text; 20 L/s for each cm2 of air in Umrath et al., from memory
 * @example chokedSpeed(GASES.air, 293.15) // => 198.64
 */
export function chokedSpeed(gas: Gas, temperature_K: number): number {
  requirePositive('temperature [K]', temperature_K);
  const { heatCapacityRatio: k, molarMass_kg_mol } = gas;
  const sound = Math.sqrt((k * MOLAR_GAS_CONSTANT_J_MOL_K * temperature_K) / molarMass_kg_mol);
  return sound * (2 / (k + 1)) ** ((k + 1) / (2 * (k - 1)));
}

/**
 * Mass flow that a throughput of gas amounts to: m = Q M/(R T).
 *
 * @param throughput_Pa_m3_s pressure times volume flow [Pa m3/s]
 * @param gas molar mass [kg/mol]
 * @param temperature_K temperature [K]
 * @returns mass flow [kg/s]
 * @throws OutOfDomainError unless the temperature is above 0
 * @validity ideal gas
 * @source ideal gas law
 * @example massOfThroughput(0.0074068, GASES.air, 293.15) // => 8.802e-8
 */
export function massOfThroughput(throughput_Pa_m3_s: number, gas: Gas, temperature_K: number): number {
  requirePositive('temperature [K]', temperature_K);
  return (throughput_Pa_m3_s * gas.molarMass_kg_mol) / (MOLAR_GAS_CONSTANT_J_MOL_K * temperature_K);
}
