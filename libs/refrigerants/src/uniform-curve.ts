/**
 * A smooth curve through points at equal steps: piecewise cubic Hermite, slopes from five-point differences,
 * so the error falls with the fourth power of the step. Blank points (NaN) stay blank; none is bridged.
 */
export interface UniformCurve {
  readonly first: number;
  readonly step: number;
  /** Index of the last interval. */
  readonly lastInterval: number;
  /** Value and slope times step of each point, side by side. */
  readonly knots: Float64Array;
}

const ONE_SIDED = [
  [-25, 48, -36, 16, -3],
  [-3, -10, 18, -6, 1],
  [1, -8, 0, 8, -1],
] as const;

/** Weights of the five-point difference at the given place among five neighbours. */
function differenceWeights(place: number): readonly number[] {
  const mirrored = 4 - place;
  if (place <= 2) return ONE_SIDED[place as 0 | 1 | 2];
  return ONE_SIDED[mirrored as 0 | 1].map((weight) => -weight).reverse();
}

/** Change of the value over one step at a point; the five nearest points that hold a value count. */
function slopePerStep(values: Float64Array, index: number, firstHeld: number, lastHeld: number): number {
  const start = Math.min(Math.max(index - 2, firstHeld), lastHeld - 4);
  const weights = differenceWeights(index - start);
  return weights.reduce((sum, weight, offset) => sum + weight * (values[start + offset] ?? NaN), 0) / 12;
}

/**
 * Curve through the values, first one at `first`, each next one a `step` further.
 * Blanks may stand at the ends only; at least five values are needed.
 */
export function uniformCurve(first: number, step: number, values: Float64Array): UniformCurve {
  const firstHeld = values.findIndex((value) => !Number.isNaN(value));
  const lastHeld = values.findLastIndex((value) => !Number.isNaN(value));
  const knots = new Float64Array(2 * values.length).fill(NaN);
  for (let index = firstHeld; index <= lastHeld; index += 1) {
    knots[2 * index] = values[index] ?? NaN;
    knots[2 * index + 1] = slopePerStep(values, index, firstHeld, lastHeld);
  }
  return { first, step, lastInterval: values.length - 2, knots };
}

/** Where the curve's last point stands. */
export function curveEnd(curve: UniformCurve): number {
  return curve.first + (curve.lastInterval + 1) * curve.step;
}

/** Value at x. The caller has checked that x lies on the curve; beyond its ends the value is meaningless. */
export function curveValue(curve: UniformCurve, x: number): number {
  const position = (x - curve.first) / curve.step;
  const interval = Math.min(Math.max(Math.floor(position), 0), curve.lastInterval);
  return intervalValue(curve.knots, interval, position - interval);
}

function intervalValue(knots: Float64Array, interval: number, t: number): number {
  const k = 2 * interval;
  const v0 = knots[k] as number;
  const s0 = knots[k + 1] as number;
  const v1 = knots[k + 2] as number;
  const s1 = knots[k + 3] as number;
  const rise = v1 - v0;
  return v0 + t * (s0 + t * (3 * rise - 2 * s0 - s1 + t * (s0 + s1 - 2 * rise)));
}

function intervalSlope(knots: Float64Array, interval: number, t: number): number {
  const k = 2 * interval;
  const s0 = knots[k + 1] as number;
  const s1 = knots[k + 3] as number;
  const rise = (knots[k + 2] as number) - (knots[k] as number);
  return s0 + t * (2 * (3 * rise - 2 * s0 - s1) + 3 * t * (s0 + s1 - 2 * rise));
}

/** Interval of a rising curve that holds the value, by halving. */
function intervalOf(curve: UniformCurve, value: number): number {
  let low = 0;
  let high = curve.lastInterval;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((curve.knots[2 * middle] as number) <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}

/**
 * Where a rising curve reaches the value: Newton on the interval's own cubic, so the inverse agrees
 * with `curveValue` to rounding. The caller has checked that the value lies between the curve's ends.
 */
export function curveInverse(curve: UniformCurve, value: number): number {
  const interval = intervalOf(curve, value);
  const v0 = curve.knots[2 * interval] as number;
  const v1 = curve.knots[2 * interval + 2] as number;
  let t = (value - v0) / (v1 - v0);
  for (let turn = 0; turn < 8; turn += 1) {
    const change =
      (intervalValue(curve.knots, interval, t) - value) / intervalSlope(curve.knots, interval, t);
    t -= change;
    if (Math.abs(change) < 1e-14) break;
  }
  return curve.first + (interval + t) * curve.step;
}
