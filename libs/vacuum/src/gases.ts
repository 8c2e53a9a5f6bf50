import { MOLAR_GAS_CONSTANT_J_MOL_K, OutOfDomainError, requirePositive } from '@brimline/quantities';

export interface Gas {
  readonly molarMass_kg_mol: number;
  /** Dynamic viscosity at 20 degC, low pressure. */
  readonly viscosity_Pa_s: number;
}

/** Molar masses and viscosities at 20 degC: from memory of standard tables. */
export const GASES = {
  air: { molarMass_kg_mol: 0.0289647, viscosity_Pa_s: 18.2e-6 },
  nitrogen: { molarMass_kg_mol: 0.0280134, viscosity_Pa_s: 17.6e-6 },
  'water vapour': { molarMass_kg_mol: 0.0180153, viscosity_Pa_s: 9.7e-6 },
  helium: { molarMass_kg_mol: 0.0040026, viscosity_Pa_s: 19.6e-6 },
} as const satisfies Record<string, Gas>;
export type GasName = keyof typeof GASES;

/** @throws OutOfDomainError unless the gas is held */
export function gasNamed(name: string): Gas {
  const found = (GASES as Readonly<Record<string, Gas>>)[name];
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
 * @source kinetic theory, any text
 * @example meanMolecularSpeed(GASES.air, 293.15) // => 462.9
 */
export function meanMolecularSpeed(gas: Gas, temperature_K: number): number {
  requirePositive('temperature [K]', temperature_K);
  return Math.sqrt((8 * MOLAR_GAS_CONSTANT_J_MOL_K * temperature_K) / (Math.PI * gas.molarMass_kg_mol));
}
