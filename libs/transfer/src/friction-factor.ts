import { requireNotNegative, requirePositive } from '@brimline/quantities';
import { rootBetween } from './root-between.ts';

/** Below this Reynolds number flow in a round tube is laminar. */
const LAMINAR_LIMIT = 2000;

/**
 * Darcy friction factor at any Reynolds number, laminar to fully rough, in one smooth formula:
 *
 *   f = 8 [(8/Re)^12 + (A + B)^-1.5]^(1/12),  A = [2.457 ln(1/((7/Re)^0.9 + 0.27 e/D))]^16,  B = (37530/Re)^16
 *
 * @param reynolds Reynolds number [-]
 * @param relativeRoughness wall roughness over bore, e/D [-]
 * @returns Darcy friction factor, four times Fanning's [-]
 * @throws OutOfDomainError unless Re > 0 and e/D >= 0
 * @validity all Re; within 2.3 % of Colebrook for Re above 4000 and e/D up to 0.002
 * @source S. W. Churchill, Chemical Engineering 84 (1977) no. 24, 91, from memory; checked against a published worked value
 * @example frictionFactorChurchill(1e5, 1e-4) // => 0.018462625
 */
export function frictionFactorChurchill(reynolds: number, relativeRoughness: number): number {
  requirePositive('Reynolds number', reynolds);
  requireNotNegative('relative roughness', relativeRoughness);
  return churchillUnchecked(reynolds, relativeRoughness);
}

/** The same without the checks, for loops whose inputs have been checked. */
export function churchillUnchecked(reynolds: number, relativeRoughness: number): number {
  const logarithm = 2.457 * Math.log(1 / ((7 / reynolds) ** 0.9 + 0.27 * relativeRoughness));
  const a = sixteenthPower(logarithm);
  const b = sixteenthPower(37530 / reynolds);
  const laminar = 8 / reynolds;
  const laminar4 = laminar * laminar * laminar * laminar;
  const turbulent = 1 / ((a + b) * Math.sqrt(a + b));
  return 8 * Math.cbrt(Math.sqrt(Math.sqrt(laminar4 * laminar4 * laminar4 + turbulent)));
}

function sixteenthPower(x: number): number {
  const x2 = x * x;
  const x4 = x2 * x2;
  const x8 = x4 * x4;
  return x8 * x8;
}

/**
 * Darcy friction factor of laminar flow in a round tube, f = 64/Re.
 *
 * @param reynolds Reynolds number [-]
 * @returns Darcy friction factor [-]
 * @throws OutOfDomainError unless 0 < Re <= 2300
 * @validity Re below about 2300
 * @source Hagen and Poiseuille, exact
 * @example frictionFactorLaminar(1500) // => 0.042666667
 */
export function frictionFactorLaminar(reynolds: number): number {
  requirePositive('Reynolds number', reynolds);
  return 64 / reynolds;
}

/**
 * Darcy friction factor of turbulent flow, the reference that the explicit formulas approach:
 *
 *   1/sqrt(f) = -2 log10( (e/D)/3.7 + 2.51/(Re sqrt(f)) )
 *
 * @param reynolds Reynolds number [-]
 * @param relativeRoughness wall roughness over bore, e/D [-]
 * @returns Darcy friction factor [-]
 * @throws OutOfDomainError unless Re >= 2000 and e/D >= 0
 * @validity Re above 4000
 * @source C. F. Colebrook, J. Inst. Civ. Eng. 11 (1939) 133, from memory; checked against a published worked value
 * @example frictionFactorColebrook(1e5, 1e-4) // => 0.018513866
 */
export function frictionFactorColebrook(reynolds: number, relativeRoughness: number): number {
  requirePositive('Reynolds number over the laminar limit', reynolds - LAMINAR_LIMIT + 1e-9);
  requireNotNegative('relative roughness', relativeRoughness);
  const excess = (x: number) => x + 2 * Math.log10(relativeRoughness / 3.7 + (2.51 * x) / reynolds);
  const inverseRoot = rootBetween(excess, 0.5, 40, 1e-13);
  return 1 / inverseRoot ** 2;
}

/**
 * Darcy friction factor of turbulent flow, explicit:
 *
 *   1/sqrt(f) = -1.8 log10( ((e/D)/3.7)^1.11 + 6.9/Re )
 *
 * @param reynolds Reynolds number [-]
 * @param relativeRoughness wall roughness over bore, e/D [-]
 * @returns Darcy friction factor [-]
 * @throws OutOfDomainError unless Re > 0 and e/D >= 0
 * @validity Re above 4000, within about 2 % of Colebrook
 * @source S. E. Haaland, J. Fluids Eng. 105 (1983) 89, from memory; checked against a published worked value
 * @example frictionFactorHaaland(1e5, 1e-4) // => 0.018265053
 */
export function frictionFactorHaaland(reynolds: number, relativeRoughness: number): number {
  requirePositive('Reynolds number', reynolds);
  requireNotNegative('relative roughness', relativeRoughness);
  return 1 / (1.8 * Math.log10((relativeRoughness / 3.7) ** 1.11 + 6.9 / reynolds)) ** 2;
}

/**
 * Darcy friction factor of turbulent flow, explicit:
 *
 *   f = 0.25 / [log10( (e/D)/3.7 + 5.74/Re^0.9 )]^2
 *
 * @param reynolds Reynolds number [-]
 * @param relativeRoughness wall roughness over bore, e/D [-]
 * @returns Darcy friction factor [-]
 * @throws OutOfDomainError unless Re > 0 and e/D >= 0
 * @validity 5e3 < Re < 1e8
 * @source P. K. Swamee and A. K. Jain, J. Hydraulics Div. ASCE 102 (1976) 657, from memory; checked against a published worked value
 * @example frictionFactorSwameeJain(1e5, 1e-4) // => 0.018452424
 */
export function frictionFactorSwameeJain(reynolds: number, relativeRoughness: number): number {
  requirePositive('Reynolds number', reynolds);
  requireNotNegative('relative roughness', relativeRoughness);
  return 0.25 / Math.log10(relativeRoughness / 3.7 + 5.74 / reynolds ** 0.9) ** 2;
}
