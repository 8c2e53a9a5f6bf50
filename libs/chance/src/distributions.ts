import { OutOfDomainError } from '@brimline/quantities';

/** Low, likely and high, in any unit. */
export interface ThreePoint {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

export interface Moments {
  readonly mean: number;
  readonly standardDeviation: number;
}

export interface Lognormal {
  /** Mean and standard deviation of the logarithm. */
  readonly mu: number;
  readonly sigma: number;
}

function requireThreePoint({ low, likely, high }: ThreePoint): void {
  if (!(low <= likely && likely <= high && Number.isFinite(high - low))) {
    throw new OutOfDomainError('three-point estimate', `${low}, ${likely}, ${high}`, 'low <= likely <= high');
  }
}

/**
 * Classic three-point moments: mean = (a + lambda m + b)/(lambda + 2), standard deviation = (b - a)/6.
 *
 * @param lambda weight of the likely value, 4 by convention [-]
 * @returns mean and standard deviation in the unit of the points
 * @throws OutOfDomainError unless low <= likely <= high and lambda > 0
 * @source D. G. Malcolm et al., Operations Research 7 (1959) 646, from memory
 */
export function threePointMoments(points: ThreePoint, lambda = 4): Moments {
  requireThreePoint(points);
  if (!(lambda > 0)) throw new OutOfDomainError('lambda', lambda, 'above 0');
  const { low, likely, high } = points;
  return { mean: (low + lambda * likely + high) / (lambda + 2), standardDeviation: (high - low) / 6 };
}

/** Shape parameters of the beta distribution behind a three-point estimate, with weight 4. */
export function betaShape(points: ThreePoint): { readonly alpha: number; readonly beta: number } {
  requireThreePoint(points);
  const width = points.high - points.low;
  if (width === 0) throw new OutOfDomainError('width of a three-point estimate', 0, 'above 0');
  return {
    alpha: 1 + (4 * (points.likely - points.low)) / width,
    beta: 1 + (4 * (points.high - points.likely)) / width,
  };
}

/** Mean and true standard deviation of the beta distribution of a three-point estimate. */
export function betaMoments(points: ThreePoint): Moments {
  const { alpha, beta } = betaShape(points);
  const sum = alpha + beta;
  const width = points.high - points.low;
  return {
    mean: points.low + (width * alpha) / sum,
    standardDeviation: width * Math.sqrt((alpha * beta) / (sum * sum * (sum + 1))),
  };
}

/** Mean and standard deviation of the triangular distribution. */
export function triangularMoments(points: ThreePoint): Moments {
  requireThreePoint(points);
  const { low: a, likely: m, high: b } = points;
  return {
    mean: (a + m + b) / 3,
    standardDeviation: Math.sqrt((a * a + m * m + b * b - a * m - a * b - m * b) / 18),
  };
}

/** Value that a triangular variable stays below with a probability from 0 to 1. */
export function triangularQuantile(points: ThreePoint, probability: number): number {
  requireThreePoint(points);
  requireProbability(probability);
  const { low: a, likely: m, high: b } = points;
  const rising = (m - a) / (b - a || 1);
  return probability <= rising
    ? a + Math.sqrt(probability * (b - a) * (m - a))
    : b - Math.sqrt((1 - probability) * (b - a) * (b - m));
}

/** Standard normal deviate of 90 % and of 95 %. */
const Z90 = 1.2815515655446004;
const Z95 = 1.6448536269514722;

/** @source sigma = ln(P90/P50)/1.2816 */
export function lognormalFromPercentiles(p50: number, p90: number): Lognormal {
  if (!(p50 > 0 && p90 >= p50)) throw new OutOfDomainError('P50 and P90', `${p50}, ${p90}`, '0 < P50 <= P90');
  return { mu: Math.log(p50), sigma: Math.log(p90 / p50) / Z90 };
}

/** @source sigma^2 = ln(1 + CV^2), mu = ln(mean) - sigma^2/2 */
export function lognormalFromMean(mean: number, coefficientOfVariation: number): Lognormal {
  if (!(mean > 0 && coefficientOfVariation >= 0)) {
    throw new OutOfDomainError(
      'mean and variation',
      `${mean}, ${coefficientOfVariation}`,
      'mean above 0, variation 0 or above',
    );
  }
  const sigma = Math.sqrt(Math.log(1 + coefficientOfVariation ** 2));
  return { mu: Math.log(mean) - (sigma * sigma) / 2, sigma };
}

/**
 * Lognormal whose P5 and P95 are the low and high of an estimate. Its median is the geometric mean of the two; the
 * likely value is not used but to check the order, so a skew that is not lognormal is lost.
 */
export function lognormalFromSpread(points: ThreePoint): Lognormal {
  requireThreePoint(points);
  if (!(points.low > 0)) throw new OutOfDomainError('low', points.low, 'above 0');
  return {
    mu: (Math.log(points.low) + Math.log(points.high)) / 2,
    sigma: Math.log(points.high / points.low) / (2 * Z95),
  };
}

export const lognormalMean = ({ mu, sigma }: Lognormal): number => Math.exp(mu + (sigma * sigma) / 2);

export function lognormalQuantile({ mu, sigma }: Lognormal, probability: number): number {
  return Math.exp(mu + sigma * normalQuantile(probability));
}

/** One lognormal with the mean and variance of a sum of independent ones (Fenton and Wilkinson). */
export function lognormalOfSum(parts: readonly Lognormal[]): Lognormal {
  let mean = 0;
  let variance = 0;
  for (const part of parts) {
    mean += lognormalMean(part);
    variance += lognormalMean(part) ** 2 * Math.expm1(part.sigma * part.sigma);
  }
  return lognormalFromMean(mean, Math.sqrt(variance) / mean);
}

/** Standard deviation of a sum of two variables with a correlation. */
export function correlatedSpread(first: number, second: number, correlation: number): number {
  return Math.sqrt(first * first + second * second + 2 * correlation * first * second);
}

/** Probability that a standard normal variable stays below z. @source W. J. Cody's rational form of erfc is not used: series and continued fraction, from memory */
export function normalProbability(z: number): number {
  const x = Math.abs(z);
  const tail = x < 2.5 ? 0.5 - seriesFromCentre(x) : tailFraction(x);
  return z > 0 ? 1 - tail : tail;
}

function seriesFromCentre(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 1; n < 60 && Math.abs(term) > 1e-17; n += 1) {
    term *= (-x * x) / (2 * n);
    sum += term / (2 * n + 1);
  }
  return sum / Math.sqrt(2 * Math.PI);
}

function tailFraction(x: number): number {
  let fraction = x;
  for (let n = 60; n >= 1; n -= 1) fraction = x + n / fraction;
  return Math.exp((-x * x) / 2) / (Math.sqrt(2 * Math.PI) * fraction);
}

/** Inverse of `normalProbability`, by halving and Newton's steps. */
export function normalQuantile(probability: number): number {
  requireProbability(probability);
  if (probability === 0 || probability === 1)
    throw new OutOfDomainError('probability', probability, 'above 0 and below 1');
  let z = 0;
  for (let step = 0; step < 100; step += 1) {
    const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
    const change = (normalProbability(z) - probability) / density;
    z -= Math.max(-0.5, Math.min(0.5, change));
    if (Math.abs(change) < 1e-13) break;
  }
  return z;
}

function requireProbability(probability: number): void {
  if (!(probability >= 0 && probability <= 1))
    throw new OutOfDomainError('probability', probability, '0 to 1');
}
