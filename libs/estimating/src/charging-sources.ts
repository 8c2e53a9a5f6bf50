import { HEEL_SHARE } from './job-context.ts';
import type { PlanInputs } from './plan-inputs.ts';
import type { Feeding } from './pre-charge-phase.ts';
import { tareOf } from './transfer-gear.ts';

/** Cylinders of more water than this are moved and weighed as large ones. */
const LARGE_CYLINDER_KG = 200;

/** Cylinders that feed the machine, those with recovered refrigerant first. */
export function chargingSources({ context, receivers, supply }: PlanInputs, needed_kg: number): Feeding[] {
  const { cylinders } = context.request;
  const stock = cylinders.filter(({ id }) => supply?.cylinderIds.includes(id));
  const steel_kg = receivers ? tareOf(cylinders, receivers.eligibleIds) : 0;
  const own = receivers
    ? Array.from({ length: receivers.needed }, () => ({
        liquid_kg: (needed_kg / receivers.needed) * (1 - HEEL_SHARE),
        steel_kg,
      }))
    : [];
  const all = [
    ...own,
    ...stock.map(({ contents_kg, tare_kg }) => ({ liquid_kg: contents_kg, steel_kg: tare_kg })),
  ];
  return all.length > 0 ? all : [{ liquid_kg: needed_kg, steel_kg: needed_kg / 2 }];
}

/** How many cylinders are emptied one after the other. */
export function sourceCount({ receivers, supply }: PlanInputs): number {
  return (receivers?.needed ?? 0) + (supply?.cylinderIds.length ?? 0) + ((supply?.toBuy_kg ?? 0) > 0 ? 1 : 0);
}

/** Are the cylinders of the job handled with lifting gear? */
export function isLargeCylinder({ context, receivers, supply }: PlanInputs): boolean {
  if (receivers) return receivers.class_waterCapacity_kg > LARGE_CYLINDER_KG;
  return context.request.cylinders.some(
    ({ id, waterCapacity_kg }) => supply?.cylinderIds[0] === id && waterCapacity_kg > LARGE_CYLINDER_KG,
  );
}
