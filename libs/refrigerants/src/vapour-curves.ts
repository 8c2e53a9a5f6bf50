import type { UniformCurve } from './uniform-curve.ts';
import { uniformCurve } from './uniform-curve.ts';

/** What the vapour's equation needs at one temperature. */
export interface DewCurves {
  readonly lnDewPressure: UniformCurve;
  readonly lnVapourDensity: UniformCurve;
  readonly vapourHeatCapacityRatio: UniformCurve;
  readonly vapourSpeedOfSound: UniformCurve;
  readonly secondVirial: UniformCurve;
}

/** Numbers a point: ln p, ln rho, second and fourth virial terms at the dew point, each with its slope. */
export const VAPOUR_STRIDE = 8;

function pointValue(curve: UniformCurve, index: number): number {
  return curve.knots[2 * index] as number;
}

/**
 * The dew point's dimensionless virial terms, b = B rho and d = D rho^3, at each table point.
 * From Z = 1 + b + c + d and dp/drho|T / (R T) = 1 + 2 b + 3 c + 4 d = w^2 / (cp/cv) / (R T) follows
 * d = (slope - 1 - 2 b) - 3 (Z - 1 - b); c is left to the caller, who has Z.
 */
function dewTerms(curves: DewCurves, gasConstant_J_kgK: number, index: number): readonly [number, number] {
  const rt = gasConstant_J_kgK * (curves.lnDewPressure.first + index * curves.lnDewPressure.step);
  const density = Math.exp(pointValue(curves.lnVapourDensity, index));
  const b = pointValue(curves.secondVirial, index) * density;
  const z = Math.exp(pointValue(curves.lnDewPressure, index)) / (density * rt);
  const speed = pointValue(curves.vapourSpeedOfSound, index);
  const slope = (speed * speed) / (pointValue(curves.vapourHeatCapacityRatio, index) * rt);
  return [b, slope - 1 - 2 * b - 3 * (z - 1 - b)];
}

/** All four curves point by point in one array, so that one look-up reads neighbouring memory. */
export function vapourCurves(curves: DewCurves, gasConstant_J_kgK: number): Float64Array {
  const { first, step, lastInterval } = curves.lnDewPressure;
  const points = lastInterval + 2;
  const terms = Array.from({ length: points }, (_, index) => dewTerms(curves, gasConstant_J_kgK, index));
  const columns = [
    curves.lnDewPressure,
    curves.lnVapourDensity,
    uniformCurve(
      first,
      step,
      Float64Array.from(terms, ([b]) => b),
    ),
    uniformCurve(
      first,
      step,
      Float64Array.from(terms, ([, d]) => d),
    ),
  ];
  const packed = new Float64Array(VAPOUR_STRIDE * points);
  for (const [place, curve] of columns.entries()) {
    for (let index = 0; index < points; index += 1) {
      packed.set(curve.knots.subarray(2 * index, 2 * index + 2), VAPOUR_STRIDE * index + 2 * place);
    }
  }
  return packed;
}
