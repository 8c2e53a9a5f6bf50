import { OutOfDomainError, requirePositive } from '@brimline/quantities';

/** Lanczos approximation, g = 7, nine terms; relative error near 1e-15. @source C. Lanczos 1964, coefficients from memory */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

function logGamma(x: number): number {
  const shifted = x - 1;
  const sum = LANCZOS.reduce(
    (total, term, index) => total + (index === 0 ? term : term / (shifted + index)),
    0,
  );
  const t = shifted + 7.5;
  return 0.5 * Math.log(2 * Math.PI) + (shifted + 0.5) * Math.log(t) - t + Math.log(sum);
}

/** Continued fraction of the incomplete beta function, by Lentz's method. */
function betaFraction(x: number, a: number, b: number): number {
  const tiny = 1e-300;
  const guard = (value: number): number => (Math.abs(value) < tiny ? tiny : value);
  let c = 1;
  let d = 1 / guard(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m <= 500; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    let change = 1;
    for (const term of [even, odd]) {
      d = 1 / guard(1 + term * d);
      c = guard(1 + term / c);
      change = d * c;
      fraction *= change;
    }
    if (Math.abs(change - 1) < 1e-15) break;
  }
  return fraction;
}

function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x));
  return x < (a + 1) / (a + b + 2)
    ? (front * betaFraction(x, a, b)) / a
    : 1 - (front * betaFraction(1 - x, b, a)) / b;
}

/**
 * Probability that a variable with Student's t distribution stays below a value:
 *
 *   P = 1 - I(v/(v + t²); v/2, 1/2)/2 for t above 0, and by symmetry below
 *
 * @param degrees degrees of freedom v, whole or not [-]
 * @source M. Abramowitz and I. Stegun 1964, 26.7.1, from memory
 */
export function studentProbability(t: number, degrees: number): number {
  requirePositive('degrees of freedom', degrees);
  const tail = incompleteBeta(degrees / (degrees + t * t), degrees / 2, 0.5) / 2;
  return t > 0 ? 1 - tail : tail;
}

/**
 * Value that such a variable stays below with a probability, by bisection.
 *
 * @throws OutOfDomainError unless the probability lies above 0 and below 1
 * @example studentQuantile(0.95, 9) // => 1.833
 */
export function studentQuantile(probability: number, degrees: number): number {
  if (!(probability > 0 && probability < 1))
    throw new OutOfDomainError('probability', probability, 'above 0 and below 1');
  if (probability > 0.5) return -studentQuantile(1 - probability, degrees);
  let low = -1;
  while (studentProbability(low, degrees) > probability) low *= 2;
  let high = 0;
  while (high - low > 1e-12 * Math.max(1, -low)) {
    const middle = (low + high) / 2;
    if (studentProbability(middle, degrees) < probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
