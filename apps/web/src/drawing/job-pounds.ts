import type { ChargeCurve } from '@brimline/estimating';

/**
 * The curve with only those pounds that the job moves: of a cylinder that comes from stock, what it gives. What it
 * keeps belongs to no job, and would lift the brim above the job's own account.
 */
export function jobPounds(curve: ChargeCurve): ChargeCurve {
  const kept = curve.cylinders.map((_, index) => keptInStock(curve, index));
  if (kept.every((mass_kg) => mass_kg === 0)) return curve;
  const points = curve.points.map((point) => ({
    ...point,
    cylinder_kg: point.cylinder_kg.map((mass_kg, index) => mass_kg - kept[index]!),
  }));
  return { ...curve, points };
}

/** Which cylinders come full or part full and are never filled on the job. */
export function stockCylinders(curve: ChargeCurve): readonly number[] {
  return curve.cylinders.flatMap((_, index) => {
    const masses = curve.points.map(({ cylinder_kg }) => cylinder_kg[index] ?? 0);
    const first = masses[0] ?? 0;
    return first > 0 && masses.every((mass_kg) => mass_kg <= first) ? [index] : [];
  });
}

function keptInStock(curve: ChargeCurve, index: number): number {
  return stockCylinders(curve).includes(index) ? (curve.points.at(-1)?.cylinder_kg[index] ?? 0) : 0;
}

/** What comes from stock cylinders, as the curve shows it at its start. */
export function fromStock_kg(curve: ChargeCurve): number {
  const start = curve.points[0];
  return stockCylinders(curve).reduce((sum, index) => sum + (start?.cylinder_kg[index] ?? 0), 0);
}
