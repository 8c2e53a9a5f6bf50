import {
  KELVIN_AT_ZERO_CELSIUS,
  KILOGRAMS_PER_POUND,
  METRES_PER_INCH,
  requireNotNegative,
  requirePositive,
} from '@brimline/quantities';
import { liquidDensity, type Refrigerant } from '@brimline/refrigerants';
import {
  FILL_GUIDELINE,
  FILLING_DENSITIES,
  NOT_LIQUID_FULL,
  OLDER_FILL_GUIDELINE,
} from './data/cylinder-filling.ts';
import { type Cited, cited } from './rule-facts.ts';

export const FILL_RULES = ['tighter', 'guideline', 'regulation', 'older guideline'] as const;
export type FillRule = (typeof FILL_RULES)[number];

export interface CylinderFill extends Cited {
  readonly net_kg: number;
  readonly gross_kg: number;
  /** The rule that set the limit. */
  readonly rule: 'guideline' | 'regulation' | 'older guideline' | 'stamp';
}

/** The unit of specific gravity: 1000 kg/m3, as the guideline's own figures are made. */
const WATER_KG_M3 = 1000;

/**
 * Mass allowed by the guideline: net = 0.80 x WC x SG(77 degF).
 *
 * @param waterCapacity_kg mass of water that the cylinder holds [kg]
 * @param specificGravity liquid density at 77 degF over 1000 kg/m3 [-]
 * @returns net mass [kg]
 * @throws OutOfDomainError unless both are above 0
 * @source AHRI Guideline K, 2004 on
 */
export function guidelineNet(waterCapacity_kg: number, specificGravity: number): number {
  requirePositive('water capacity [kg]', waterCapacity_kg);
  requirePositive('specific gravity', specificGravity);
  return FILL_GUIDELINE.share * waterCapacity_kg * specificGravity;
}

function densityAt(r: Refrigerant, temperature_C: number): number {
  return liquidDensity(r, temperature_C + KELVIN_AT_ZERO_CELSIUS);
}

/** Volume of a cylinder by its water capacity [m3]. */
function cylinderVolume(waterCapacity_kg: number): number {
  return (waterCapacity_kg / KILOGRAMS_PER_POUND) * NOT_LIQUID_FULL.waterVolume_in3_lb * METRES_PER_INCH ** 3;
}

type Limit = Omit<CylinderFill, 'gross_kg'>;

function guideline(r: Refrigerant, waterCapacity_kg: number): Limit {
  const gravity = densityAt(r, FILL_GUIDELINE.temperature_C) / WATER_KG_M3;
  const flammable = r.safetyGroup === 'A2L' || r.safetyGroup === 'A3';
  const outside = flammable ? ['Outside the guideline, which covers non-flammable refrigerants only.'] : [];
  return {
    net_kg: guidelineNet(waterCapacity_kg, gravity),
    rule: 'guideline',
    ...cited(FILL_GUIDELINE, ...outside),
  };
}

function regulation(r: Refrigerant, waterCapacity_kg: number): Limit {
  const percent = FILLING_DENSITIES.percentOfWaterCapacity[r.name];
  if (percent !== undefined) {
    return {
      net_kg: (percent / 100) * waterCapacity_kg,
      rule: 'regulation',
      ...cited(FILLING_DENSITIES, `Filling density ${percent} % for ${r.name}.`),
    };
  }
  const density = densityAt(r, NOT_LIQUID_FULL.temperature_C);
  return {
    net_kg: cylinderVolume(waterCapacity_kg) * density,
    rule: 'regulation',
    ...cited(NOT_LIQUID_FULL),
  };
}

function olderGuideline(waterCapacity_kg: number): Limit {
  return {
    net_kg: OLDER_FILL_GUIDELINE.share * waterCapacity_kg,
    rule: 'older guideline',
    ...cited(OLDER_FILL_GUIDELINE),
  };
}

function limitBy(rule: FillRule, r: Refrigerant, waterCapacity_kg: number): Limit {
  if (rule === 'guideline') return guideline(r, waterCapacity_kg);
  if (rule === 'regulation') return regulation(r, waterCapacity_kg);
  if (rule === 'older guideline') return olderGuideline(waterCapacity_kg);
  const [soft, hard] = [guideline(r, waterCapacity_kg), regulation(r, waterCapacity_kg)];
  return soft.net_kg <= hard.net_kg ? soft : hard;
}

/**
 * Most refrigerant that a cylinder may hold: the tighter of guideline and law, and of its own stamp if lower.
 *
 * @param input refrigerant, water capacity [kg], tare [kg], rule to go by (tighter when absent), stamped limit [kg]
 * @returns net and gross mass [kg], which rule decides and its citation
 * @throws OutOfDomainError unless the capacity is above 0 and the tare 0 or above
 * @source AHRI Guideline K; 49 CFR 173.304a(a)(2) Table 1; 49 CFR 173.304(b)
 * @example cylinderFillLimit({ refrigerant: refrigerant('R-134a'), waterCapacity_kg: 21.64, tare_kg: 12.7 }).net_kg
 *   // => 20.89
 */
export function cylinderFillLimit(input: {
  readonly refrigerant: Refrigerant;
  readonly waterCapacity_kg: number;
  readonly tare_kg: number;
  readonly rule?: FillRule;
  readonly stampedNet_kg?: number;
}): CylinderFill {
  requirePositive('water capacity [kg]', input.waterCapacity_kg);
  requireNotNegative('tare [kg]', input.tare_kg);
  const limit = limitBy(input.rule ?? 'tighter', input.refrigerant, input.waterCapacity_kg);
  const stamp = input.stampedNet_kg ?? Number.POSITIVE_INFINITY;
  if (stamp >= limit.net_kg) return { ...limit, gross_kg: input.tare_kg + limit.net_kg };
  requirePositive('stamped limit [kg]', stamp);
  return {
    ...limit,
    net_kg: stamp,
    gross_kg: input.tare_kg + stamp,
    rule: 'stamp',
    citation: 'stamp or label of the cylinder',
  };
}

/**
 * Share of the cylinder that liquid fills at 131 degF, if at 77 degF it fills the given share.
 *
 * @param r refrigerant [-]
 * @param shareAt77F share of the volume at 77 degF [-]
 * @returns share at 131 degF, must stay below 1 [-]
 * @throws OutOfDomainError unless the share is above 0
 * @source conservation of mass; liquid density from the refrigerant's equation of state
 */
export function liquidShareAt131F(r: Refrigerant, shareAt77F: number): number {
  requirePositive('share filled at 77 degF', shareAt77F);
  const cold = densityAt(r, FILL_GUIDELINE.temperature_C);
  return (shareAt77F * cold) / densityAt(r, NOT_LIQUID_FULL.temperature_C);
}

/**
 * Least number of equal cylinders for a mass: n = ceil(mass / net). The last one is filled in part.
 *
 * @param mass_kg refrigerant to hold [kg]
 * @param net_kg limit of each cylinder [kg]
 * @returns number [-]
 * @throws OutOfDomainError unless the limit is above 0 and the mass 0 or above
 * @source arithmetic; one refrigerant a cylinder: common practice, no source
 */
export function cylindersNeeded(mass_kg: number, net_kg: number): number {
  requireNotNegative('mass [kg]', mass_kg);
  requirePositive('fill limit [kg]', net_kg);
  return Math.ceil(mass_kg / net_kg - 1e-9);
}
