import { churchillUnchecked } from './friction-factor.ts';
import type { HosePiece } from './hose-path.ts';

interface Stretch {
  readonly reynoldsPerFlow_s_kg: number;
  readonly relativeRoughness: number;
  /** Length over bore and area squared, of all pieces that are alike [1/m4]. */
  weight_m4: number;
}

/**
 * Resistance of a path as a function of the mass flow, sum of (f L/D + K)/A^2 [1/m4]: what does not hang on the flow is
 * worked out once, and pieces that are alike are counted once.
 */
export function pathResistance(
  path: readonly HosePiece[],
  viscosity_Pa_s: number,
): (massFlow_kg_s: number) => number {
  const stretches: Stretch[] = [];
  let fixed_m4 = 0;
  for (const { bore_m, length_m, roughness_m, lossCoefficient } of path) {
    const area_m2 = areaOf(bore_m);
    fixed_m4 += lossCoefficient / (area_m2 * area_m2);
    if (length_m === 0) continue;
    const weight_m4 = length_m / bore_m / (area_m2 * area_m2);
    const reynoldsPerFlow_s_kg = 4 / (Math.PI * bore_m * viscosity_Pa_s);
    const relativeRoughness = roughness_m / bore_m;
    const alike = stretches.find(
      (one) =>
        one.reynoldsPerFlow_s_kg === reynoldsPerFlow_s_kg && one.relativeRoughness === relativeRoughness,
    );
    if (alike) alike.weight_m4 += weight_m4;
    else stretches.push({ reynoldsPerFlow_s_kg, relativeRoughness, weight_m4 });
  }
  return (massFlow_kg_s) => {
    let sum = fixed_m4;
    for (const { reynoldsPerFlow_s_kg, relativeRoughness, weight_m4 } of stretches) {
      sum += churchillUnchecked(massFlow_kg_s * reynoldsPerFlow_s_kg, relativeRoughness) * weight_m4;
    }
    return sum;
  };
}

export function areaOf(bore_m: number): number {
  return (Math.PI / 4) * bore_m * bore_m;
}
