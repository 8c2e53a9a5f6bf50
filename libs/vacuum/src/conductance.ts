import { requireNotNegative, requirePositive } from '@brimline/quantities';
import { type Gas, GASES, meanMolecularSpeed } from './gases.ts';

export type Regime = 'viscous' | 'transition' | 'molecular';

export interface Tube {
  readonly bore_m: number;
  readonly length_m: number;
}

export interface TubeConductance {
  readonly conductance_m3_s: number;
  readonly regime: Regime;
}

/** Mean free path of air times pressure at 20 degC: from memory of vacuum handbooks. */
const FREE_PATH_PA_M = 6.6e-3;
const REFERENCE_K = 293.15;
/** Knudsen numbers at which flow is taken as viscous and as molecular. */
const VISCOUS_KNUDSEN = 0.01;
const MOLECULAR_KNUDSEN = 0.5;
/** Factors of Knudsen's formula for the transition, for d p in mbar cm. */
const [SLIP_UP, SLIP_DOWN] = [192, 237];
const MBAR_CM_PER_PA_M = 1;

/**
 * Conductance of a long round tube from viscous through transition to molecular flow:
 *
 *   C = pi d^4 p/(128 eta l) + c pi d^3/(12 l) (1 + 192 d p)/(1 + 237 d p),  d p in mbar cm in the last factor
 *
 * The factor is for air; for another gas d p is scaled by the free path.
 *
 * @param input.bore_m bore [m]
 * @param input.length_m length [m]
 * @param input.meanPressure_Pa mean of the pressures at both ends [Pa abs]
 * @param input.temperature_K temperature [K]
 * @param input.gas gas; air unless given
 * @returns conductance [m3/s] and regime
 * @throws OutOfDomainError unless bore, length and temperature are above 0 and the pressure is not negative
 * @validity laminar, length above ten bores; see `shortTubeConductance`
 * @source M. Knudsen, Annalen der Physik 28 (1909), in the form of Umrath et al., Fundamentals of Vacuum Technology, eq. 1.26, from memory
 * @example tubeConductance({ bore_m: 0.019, length_m: 3, meanPressure_Pa: 66.66, temperature_K: 293.15 }).conductance_m3_s // => 0.004134
 */
export function tubeConductance(
  input: Tube & {
    readonly meanPressure_Pa: number;
    readonly temperature_K: number;
    readonly gas?: Gas;
  },
): TubeConductance {
  const { bore_m, length_m, meanPressure_Pa, temperature_K, gas = GASES.air } = input;
  requirePositive('bore [m]', bore_m);
  requirePositive('length [m]', length_m);
  requireNotNegative('mean pressure [Pa abs]', meanPressure_Pa);
  const speed_m_s = meanMolecularSpeed(gas, temperature_K);
  return {
    conductance_m3_s: conductanceUnchecked(bore_m, length_m, meanPressure_Pa, gas, speed_m_s),
    regime: regimeOf(bore_m, meanPressure_Pa, gas, temperature_K),
  };
}

export function conductanceUnchecked(
  bore_m: number,
  length_m: number,
  pressure_Pa: number,
  gas: Gas,
  speed_m_s: number,
): number {
  const viscous = (Math.PI * bore_m ** 4 * pressure_Pa) / (128 * gas.viscosity_Pa_s * length_m);
  const molecular = (speed_m_s * Math.PI * bore_m ** 3) / (12 * length_m);
  const reduced = bore_m * pressure_Pa * MBAR_CM_PER_PA_M * freePathShare(gas);
  return viscous + (molecular * (1 + SLIP_UP * reduced)) / (1 + SLIP_DOWN * reduced);
}

/** Free path of air over that of the gas, from viscosity and molar mass. */
function freePathShare(gas: Gas): number {
  return (
    (GASES.air.viscosity_Pa_s / gas.viscosity_Pa_s) *
    Math.sqrt(gas.molarMass_kg_mol / GASES.air.molarMass_kg_mol)
  );
}

function regimeOf(bore_m: number, pressure_Pa: number, gas: Gas, temperature_K: number): Regime {
  const freePath_m = (FREE_PATH_PA_M * (temperature_K / REFERENCE_K)) / (pressure_Pa * freePathShare(gas));
  const knudsen = freePath_m / bore_m;
  if (knudsen < VISCOUS_KNUDSEN) return 'viscous';
  return knudsen > MOLECULAR_KNUDSEN ? 'molecular' : 'transition';
}

/**
 * Molecular conductance of a thin aperture: C = c A / 4.
 *
 * @param area_m2 open area [m2]
 * @returns conductance [m3/s]
 * @source kinetic theory; 11.6 L/s for each cm2 of air at 20 degC
 */
export function apertureConductance(area_m2: number, gas: Gas, temperature_K: number): number {
  requirePositive('area [m2]', area_m2);
  return (meanMolecularSpeed(gas, temperature_K) * area_m2) / 4;
}

/** Conductances one after the other: 1/C = sum of 1/C_i. Any of them 0 closes the line. */
export function inSeries(conductances_m3_s: readonly number[]): number {
  return 1 / conductances_m3_s.reduce((sum, one) => sum + 1 / one, 0);
}

/** Conductances side by side add up. */
export function inParallel(conductances_m3_s: readonly number[]): number {
  return conductances_m3_s.reduce((sum, one) => sum + one, 0);
}

/** A tube with its entrance in series, so that a short one is not overrated. */
export function shortTubeConductance(input: Parameters<typeof tubeConductance>[0]): number {
  const { bore_m, temperature_K, gas = GASES.air } = input;
  const aperture = apertureConductance((Math.PI / 4) * bore_m ** 2, gas, temperature_K);
  return inSeries([tubeConductance(input).conductance_m3_s, aperture]);
}
