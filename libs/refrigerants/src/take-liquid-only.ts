import type { Refrigerant } from './refrigerant.ts';

/**
 * Must it leave the cylinder as liquid, because the vapour above it has another composition?
 * So for every zeotropic blend (ASHRAE 34 numbers them in the 400 series), however small its glide;
 * pure fluids and azeotropes (500 series) may be taken either way.
 *
 * @param r refrigerant [-]
 * @returns true for a zeotropic blend [-]
 * @source numbering: ASHRAE 34, from memory; charging zeotropes as liquid: common practice, no source
 */
export function takeLiquidOnly(r: Refrigerant): boolean {
  return r.isBlend && /^R-4\d\d/u.test(r.name);
}
