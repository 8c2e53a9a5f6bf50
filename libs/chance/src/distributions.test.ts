import { describe, expect, it } from 'vitest';
import * as chance from './distributions.ts';
import { percentileExclusive, percentileInclusive } from './percentiles.ts';
import { SeededRandom } from './random.ts';

const points = { low: 6, likely: 10, high: 24 };
const sum = [
  [8, 0.3],
  [14, 0.5],
  [6, 0.2],
].map(([mean, variation]) => chance.lognormalFromMean(mean!, variation!));
// NIST/SEMATECH e-Handbook 7.2.6.2, read: twelve resistivities.
const NIST = [
  95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.061, 95.1591, 95.1195, 95.1065, 95.0925, 95.199, 95.1682,
].toSorted();

describe('durations', () => {
  it.each([
    // Published worked example of a management-science text (three-point): mean 9, variance 4.
    ['three-point mean', chance.threePointMoments({ low: 5, likely: 8, high: 17 }).mean, 9],
    [
      'three-point variance',
      chance.threePointMoments({ low: 5, likely: 8, high: 17 }).standardDeviation ** 2,
      4,
    ],
    // The rest: computed independently with scipy 1.17.1.
    ['beta alpha', chance.betaShape(points).alpha, 1.888889],
    ['beta beta', chance.betaShape(points).beta, 4.111111],
    ['beta mean', chance.betaMoments(points).mean, 11.66667],
    ['beta true spread', chance.betaMoments(points).standardDeviation, 3.15977],
    ['triangular mean', chance.triangularMoments(points).mean, 13.33333],
    ['triangular spread', chance.triangularMoments(points).standardDeviation, 3.85861],
    ['triangular P80', chance.triangularQuantile(points, 0.8), 16.9007],
    ['lognormal sigma', chance.lognormalFromPercentiles(10, 18).sigma, 0.458652],
    ['lognormal mean', chance.lognormalMean(chance.lognormalFromPercentiles(10, 18)), 11.10912],
    ['lognormal P80', chance.lognormalQuantile(chance.lognormalFromPercentiles(10, 18), 0.8), 14.71102],
    ['lognormal P50 from mean', Math.exp(chance.lognormalFromMean(12, 0.4).mu), 11.14172],
    ['lognormal P80 from mean', chance.lognormalQuantile(chance.lognormalFromMean(12, 0.4), 0.8), 15.40872],
    ['P80 of a sum, moments matched', chance.lognormalQuantile(chance.lognormalOfSum(sum), 0.8), 33.7518],
    ['correlated spread', chance.correlatedSpread(3, 4, 0.5), 6.082763],
    ['normal probability', chance.normalProbability(4 / Math.sqrt(5)), 0.96318],
    ['P80 of a normal path', 24 + Math.sqrt(5) * chance.normalQuantile(0.8), 25.8819],
    // NIST prints 95.1981 by its rule; the inclusive figure computed independently with numpy.
    ['NIST 90th percentile', percentileExclusive(NIST, 0.9), 95.1981],
    ['inclusive 90th percentile', percentileInclusive(NIST, 0.9), 95.19568],
  ])('%s', (_, value, expected) => {
    expect(Math.abs(value / expected - 1)).toBeLessThan(2e-5);
  });

  it('draws a sum whose P80 is that of simulation, below the sum of the P80s', () => {
    // Computed independently with numpy, two million draws: 33.2; the P80s add up to 35.3959.
    const random = new SeededRandom(11);
    const totals = Float64Array.from({ length: 100_000 }, () =>
      sum.reduce((total, { mu, sigma }) => total + Math.exp(mu + sigma * random.nextNormal()), 0),
    ).toSorted();
    expect(Math.abs(percentileInclusive(totals, 0.8) - 33.2)).toBeLessThan(0.2);
    expect(sum.reduce((total, law) => total + chance.lognormalQuantile(law, 0.8), 0)).toBeCloseTo(35.3959, 3);
  });

  it('refuses points out of order', () => {
    expect(() => chance.threePointMoments({ low: 5, likely: 4, high: 17 })).toThrow(/low <= likely/);
    expect(() => chance.lognormalFromSpread({ low: 0, likely: 4, high: 17 })).toThrow(/above 0/);
  });
});

describe('the seeded generator', () => {
  it('is uniform, normal and the same for one seed', () => {
    const draws = 200_000;
    const random = new SeededRandom(5);
    let [mean, square] = [0, 0];
    for (let draw = 0; draw < draws; draw += 1) {
      const z = random.nextNormal();
      mean += z / draws;
      square += (z * z) / draws;
    }
    expect(Math.abs(mean)).toBeLessThan(0.01);
    expect(Math.abs(square - 1)).toBeLessThan(0.02);
    const many = new Float64Array(100_001);
    random.fillNormals(many);
    const sum_z = many.reduce((total, z) => total + z, 0);
    expect(Math.abs(sum_z / many.length)).toBeLessThan(0.015);
    expect(Math.abs(many.reduce((total, z) => total + z * z, 0) / many.length - 1)).toBeLessThan(0.03);
    // Neighbours come from one turn: they must not hang together.
    expect(
      Math.abs(many.reduce((total, z, at) => total + z * (many[at ^ 1] ?? 0), 0) / many.length),
    ).toBeLessThan(0.015);
    const counts = new Float64Array(16);
    for (let draw = 0; draw < draws; draw += 1) counts[random.nextBelow(16)]! += 1;
    // Chi-squared with 15 degrees of freedom exceeds 37.7 once in a thousand (from memory of the table).
    expect(counts.reduce((chi, count) => chi + (count - draws / 16) ** 2 / (draws / 16), 0)).toBeLessThan(
      37.7,
    );
    expect(new SeededRandom(5).nextUint32()).toBe(new SeededRandom(5).nextUint32());
    expect(new SeededRandom(5).split(1).nextUint32()).not.toBe(new SeededRandom(5).split(2).nextUint32());
  });
});
