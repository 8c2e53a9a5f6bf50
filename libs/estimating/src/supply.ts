import type { Cylinder } from '@brimline/firm';
import { byId } from './by-id.ts';
import type { SupplyPlan } from './estimate.ts';

/** New or reclaimed refrigerant from the firm's stock, fullest cylinder first; the rest is to be bought. */
export function planSupply(
  refrigerant: string,
  mass_kg: number,
  cylinders: readonly Cylinder[],
  heelShare: number,
  neededFrom: string,
): SupplyPlan {
  const stock = cylinders
    .filter((cylinder) => cylinder.refrigerant === refrigerant && isSupply(cylinder, neededFrom))
    .toSorted((a, b) => b.contents_kg - a.contents_kg || byId(a, b));
  const taken: Cylinder[] = [];
  let found_kg = 0;
  for (const cylinder of stock) {
    if (found_kg >= mass_kg) break;
    taken.push(cylinder);
    found_kg += cylinder.contents_kg * (1 - heelShare);
  }
  return {
    cylinderIds: taken.map(({ id }) => id),
    inStock_kg: found_kg,
    fromStock_kg: Math.min(found_kg, mass_kg),
    toBuy_kg: Math.max(0, mass_kg - found_kg),
    onePort: taken.some(({ ports }) => ports === 1),
  };
}

function isSupply(cylinder: Cylinder, neededFrom: string): boolean {
  const isThere = cylinder.availableFrom === undefined || cylinder.availableFrom <= neededFrom;
  const isForCharging = cylinder.contentsKind === 'new' || cylinder.contentsKind === 'reclaimed';
  return isThere && isForCharging && cylinder.contents_kg > 0;
}
