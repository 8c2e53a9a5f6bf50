import { requireNotNegative, requirePositive } from '@brimline/quantities';
import { chokedSpeed, type Gas, GASES, meanMolecularSpeed, viscosityOfGas } from './gases.ts';

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
/** Knudsen number at which an aperture stands half way between both: assumed, low confidence. */
const APERTURE_KNUDSEN = 0.1;
/** Factors of Knudsen's formula for the transition: for air, d p in mbar cm, which is Pa m. */
const [SLIP_UP, SLIP_DOWN] = [192, 237];

/** What a tube's conductance depends on, all but the pressure: C = a p + b (1 + 192 x p)/(1 + 237 x p). */
export interface TubeCoefficients {
  readonly viscous_m3_s_Pa: number;
  readonly molecular_m3_s: number;
  readonly reduced_Pa: number;
}

export interface TubeInput extends Tube {
  readonly meanPressure_Pa: number;
  readonly temperature_K: number;
  readonly gas?: Gas;
}

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
 * @example tubeConductance({ bore_m: 0.019, length_m: 3, meanPressure_Pa: 66.66, temperature_K: 293.15 }).conductance_m3_s // => 0.0041335
 */
export function tubeConductance(input: TubeInput): TubeConductance {
  const { bore_m, meanPressure_Pa, temperature_K, gas = GASES.air } = input;
  requireNotNegative('mean pressure [Pa abs]', meanPressure_Pa);
  return {
    conductance_m3_s: conductanceAt(tubeCoefficients(input, gas, temperature_K), meanPressure_Pa),
    regime: regimeOf(knudsenNumber(bore_m, meanPressure_Pa, gas, temperature_K)),
  };
}

/** @throws OutOfDomainError unless bore, length and temperature are above 0 */
export function tubeCoefficients(tube: Tube, gas: Gas, temperature_K: number): TubeCoefficients {
  const { bore_m, length_m } = tube;
  requirePositive('bore [m]', bore_m);
  requirePositive('length [m]', length_m);
  return {
    viscous_m3_s_Pa: (Math.PI * bore_m ** 4) / (128 * viscosityOfGas(gas, temperature_K) * length_m),
    molecular_m3_s: (meanMolecularSpeed(gas, temperature_K) * Math.PI * bore_m ** 3) / (12 * length_m),
    reduced_Pa: bore_m * freePathShare(gas, temperature_K),
  };
}

export function conductanceAt(coefficients: TubeCoefficients, pressure_Pa: number, turbulence = 1): number {
  const { viscous_m3_s_Pa, molecular_m3_s, reduced_Pa } = coefficients;
  const reduced = reduced_Pa * pressure_Pa;
  return (
    viscous_m3_s_Pa * pressure_Pa * turbulence +
    (molecular_m3_s * (1 + SLIP_UP * reduced)) / (1 + SLIP_DOWN * reduced)
  );
}

/** Free path of air at 20 degC over that of the gas, from viscosity, molar mass and temperature. */
function freePathShare(gas: Gas, temperature_K: number): number {
  return (
    (GASES.air.viscosity_Pa_s / viscosityOfGas(gas, temperature_K)) *
    Math.sqrt((gas.molarMass_kg_mol / GASES.air.molarMass_kg_mol) * (REFERENCE_K / temperature_K))
  );
}

function knudsenNumber(bore_m: number, pressure_Pa: number, gas: Gas, temperature_K: number): number {
  return FREE_PATH_PA_M / (pressure_Pa * bore_m * freePathShare(gas, temperature_K));
}

function regimeOf(knudsen: number): Regime {
  if (knudsen < VISCOUS_KNUDSEN) return 'viscous';
  return knudsen > MOLECULAR_KNUDSEN ? 'molecular' : 'transition';
}

/**
 * Molecular conductance of a thin aperture: C = c A / 4.
 *
 * @param area_m2 open area [m2]
 * @param gas molar mass [kg/mol]
 * @param temperature_K temperature [K]
 * @returns conductance [m3/s]
 * @throws OutOfDomainError unless area and temperature are above 0
 * @validity opening thin and much smaller than the free path
 * @source kinetic theory; 11.6 L/s for each cm2 of air at 20 degC
 * @example apertureConductance(1e-4, GASES.air, 293.15) // => 0.011573
 */
export function apertureConductance(area_m2: number, gas: Gas, temperature_K: number): number {
  requirePositive('area [m2]', area_m2);
  return (meanMolecularSpeed(gas, temperature_K) * area_m2) / 4;
}

/** An aperture between its two limits: molecular c/4 and choked, half of each at a Knudsen number of 0.1. */
export interface ApertureCoefficients {
  readonly molecular_m3_s: number;
  readonly choked_m3_s: number;
  readonly half_Pa: number;
}

export function apertureCoefficients(area_m2: number, gas: Gas, temperature_K: number): ApertureCoefficients {
  const bore_m = Math.sqrt((4 * area_m2) / Math.PI);
  return {
    molecular_m3_s: apertureConductance(area_m2, gas, temperature_K),
    choked_m3_s: area_m2 * chokedSpeed(gas, temperature_K),
    half_Pa: knudsenNumber(bore_m, 1, gas, temperature_K) / APERTURE_KNUDSEN,
  };
}

export function apertureConductanceAt(
  { molecular_m3_s, choked_m3_s, half_Pa }: ApertureCoefficients,
  pressure_Pa: number,
): number {
  return (molecular_m3_s * half_Pa + choked_m3_s * pressure_Pa) / (half_Pa + pressure_Pa);
}

/** Conductances one after the other: 1/C = sum of 1/C_i. Any of them 0 closes the line. */
export function inSeries(conductances_m3_s: readonly number[]): number {
  return 1 / conductances_m3_s.reduce((sum, one) => sum + 1 / one, 0);
}

/** Conductances side by side add up. */
export function inParallel(conductances_m3_s: readonly number[]): number {
  return conductances_m3_s.reduce((sum, one) => sum + one, 0);
}

/**
 * Conductance of a tube with its entrance as an aperture in series, so that a short one is not overrated:
 * 1/C = 1/C_tube + 1/C_aperture.
 *
 * @param input as for `tubeConductance`: bore and length [m], mean pressure [Pa abs], temperature [K]
 * @returns conductance [m3/s]
 * @throws OutOfDomainError as `tubeConductance`
 * @validity molecular flow within 12 % at any length; in viscous flow on the safe side
 * @source sum of resistances, S. Dushman 1922, from memory
 * @example shortTubeConductance({ bore_m: 0.02, length_m: 0.02, meanPressure_Pa: 0.01, temperature_K: 293.15 }) // => 0.020762
 */
export function shortTubeConductance(input: TubeInput): number {
  const { bore_m, meanPressure_Pa, temperature_K, gas = GASES.air } = input;
  const entrance = apertureCoefficients((Math.PI / 4) * bore_m ** 2, gas, temperature_K);
  return inSeries([
    tubeConductance(input).conductance_m3_s,
    apertureConductanceAt(entrance, meanPressure_Pa),
  ]);
}
