import { MOLAR_GAS_CONSTANT_J_MOL_K, requireWithin } from '@brimline/quantities';
import { GASES } from './gases.ts';

/** Z = 1 + B r + C r2 + D r3 with r in mol/m3 and B, C running with the temperature above 20 degC, in hundreds of K. */
const REFERENCE_K = 293.15;
const B = [-5.5463e-6, 2.0359e-5, -7.8397e-6] as const;
const C = [1.2002e-9, -1.6052e-10] as const;
const D = 4.6917e-14;
const TOLERANCE = 1e-12;

/**
 * Density of nitrogen gas, with its compressibility: p = r R T (1 + B r + C r2 + D r3).
 *
 * @param pressure_Pa pressure [Pa abs]
 * @param temperature_K temperature [K]
 * @returns density [kg/m3]
 * @throws OutOfDomainError outside 250 to 330 K and 0 to 25 MPa
 * @validity 250 to 330 K, up to 25 MPa: within 0.08 % of the reference equation
 * @source fitted here to R. Span et al., J. Phys. Chem. Ref. Data 29 (2000) 1361, whose coefficients were read in the CoolProp library
 * @example nitrogenDensity(20e6, 293.15) // => 218.5
 */
export function nitrogenDensity(pressure_Pa: number, temperature_K: number): number {
  requireWithin('pressure [Pa abs]', pressure_Pa, 0, 25e6);
  requireWithin('temperature [K]', temperature_K, 250, 330);
  const warmer = (temperature_K - REFERENCE_K) / 100;
  const b = B[0] + (B[1] + B[2] * warmer) * warmer;
  const c = C[0] + C[1] * warmer;
  const ideal_mol_m3 = pressure_Pa / (MOLAR_GAS_CONSTANT_J_MOL_K * temperature_K);
  let r = ideal_mol_m3;
  for (let turn = 0; turn < 20; turn += 1) {
    const excess = r * (1 + r * (b + r * (c + r * D))) - ideal_mol_m3;
    const slope = 1 + r * (2 * b + r * (3 * c + r * 4 * D));
    r -= excess / slope;
    if (Math.abs(excess) <= TOLERANCE * ideal_mol_m3) break;
  }
  return r * GASES.nitrogen.molarMass_kg_mol;
}

/**
 * Compressibility factor of nitrogen: Z = p M/(rho R T).
 *
 * @param pressure_Pa pressure [Pa abs]
 * @param temperature_K temperature [K]
 * @returns compressibility [-]
 * @throws OutOfDomainError outside 250 to 330 K and 0 to 25 MPa
 * @validity as `nitrogenDensity`
 * @source definition; `nitrogenDensity`
 * @example nitrogenCompressibility(20e6, 293.15) // => 1.052
 */
export function nitrogenCompressibility(pressure_Pa: number, temperature_K: number): number {
  if (pressure_Pa === 0) return 1;
  const ideal_kg_m3 =
    (pressure_Pa * GASES.nitrogen.molarMass_kg_mol) / (MOLAR_GAS_CONSTANT_J_MOL_K * temperature_K);
  return ideal_kg_m3 / nitrogenDensity(pressure_Pa, temperature_K);
}
