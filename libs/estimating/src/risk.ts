import { lognormalFromSpread, percentileInclusive, SeededRandom } from '@brimline/chance';
import { OutOfDomainError } from '@brimline/quantities';
import type { GearUse, Percentiles, PhaseEstimate, Spread } from './estimate.ts';
import { type CostPercentiles, type Driver, type Risk, SHARED_CAUSES, type TestLoop } from './risk-facts.ts';
import { LOOP_LOADINGS, loadingsOf } from './shared-causes.ts';
import type { Worth } from './worth.ts';

const CAUSES = SHARED_CAUSES.length;
const MOST_FAILURES = 3;

/** What is drawn: a span with its clocks for each second, and how often. */
export interface Drawn {
  readonly label: string;
  readonly kind: Driver['kind'];
  readonly mu: number;
  readonly sigma: number;
  readonly median_s: number;
  readonly loadings: readonly number[];
  readonly crew: number;
  readonly gearUnits: number;
  readonly cost_minor_s: number;
  /** 1 for a phase; the chance of a failure for a test. */
  readonly probability: number;
}

export interface RiskRequest {
  readonly phases: readonly PhaseEstimate[];
  readonly loops: readonly TestLoop[];
  readonly isVolumeMeasured: boolean;
  /** Null: no cost. */
  readonly worth: Worth | null;
  /** Cost that hangs on no span: refrigerant. */
  readonly fixed_minor: number;
  /** Cylinders that hold gas from recovery to recharge. */
  readonly cylindersHeld: number;
}

function lognormalOf({ low_s, likely_s, high_s }: Spread): Pick<Drawn, 'mu' | 'sigma' | 'median_s'> {
  if (low_s === high_s) return { mu: Math.log(likely_s), sigma: 0, median_s: likely_s };
  const law = lognormalFromSpread({ low: low_s, likely: likely_s, high: high_s });
  return { ...law, median_s: Math.exp(law.mu) };
}

function costOfSecond(
  worth: Worth | null,
  crew: number,
  gear: readonly GearUse[],
  cylinders: number,
): number {
  if (!worth) return 0;
  const perHour = gear.reduce(
    (sum, { kind, count }) => sum + count * (worth.gearHour_minor[kind] ?? 0),
    crew * worth.personHour_minor + cylinders * worth.cylinderHour_minor,
  );
  return perHour / 3600;
}

/** The phases and the tests that may fail, as variables to draw. */
export function drawnOf({ phases, loops, isVolumeMeasured, worth, cylindersHeld }: RiskRequest): Drawn[] {
  let isHeld = false;
  return [
    ...phases.map(({ title, kind, elapsed, crew, gear }): Drawn => {
      isHeld ||= kind === 'liquid recovery' || kind === 'vapour recovery';
      return {
        label: title,
        kind: 'phase',
        ...lognormalOf(elapsed),
        loadings: loadingsOf(kind, isVolumeMeasured),
        crew,
        gearUnits: gear.reduce((sum, { count }) => sum + count, 0),
        cost_minor_s: costOfSecond(worth, crew, gear, isHeld ? cylindersHeld : 0),
        probability: 1,
      };
    }),
    ...loops.map((loop): Drawn => ({
      label: `${loop.test} fails`,
      kind: 'repeated test',
      ...lognormalOf(loop.each),
      loadings: LOOP_LOADINGS,
      crew: loop.crew,
      gearUnits: loop.gearUnits,
      cost_minor_s: costOfSecond(worth, loop.crew, loop.gear, cylindersHeld),
      probability: loop.probability,
    })),
  ];
}

/** Sums over the draws, for what drives the spread. */
class Moments {
  private count = 0;
  private total = 0;
  private square = 0;
  private readonly part: Float64Array;
  private readonly cross: Float64Array;
  private readonly partSquare: Float64Array;

  constructor(parts: number) {
    this.part = new Float64Array(parts);
    this.cross = new Float64Array(parts);
    this.partSquare = new Float64Array(parts);
  }

  add(parts: Float64Array, total: number): void {
    this.count += 1;
    this.total += total;
    this.square += total * total;
    for (let index = 0; index < parts.length; index += 1) {
      const value = parts[index]!;
      this.part[index]! += value;
      this.partSquare[index]! += value * value;
      this.cross[index]! += value * total;
    }
  }

  private get variance(): number {
    return this.square / this.count - (this.total / this.count) ** 2;
  }

  get mean(): number {
    return this.total / this.count;
  }

  private covariance(index: number): number {
    return this.cross[index]! / this.count - (this.part[index]! / this.count) * this.mean;
  }

  /** Covariance of a part with the total over the variance of the total: over all parts these add up to 1. */
  shareOf(index: number): number {
    return this.variance > 0 ? this.covariance(index) / this.variance : 0;
  }

  squaredCorrelation(index: number): number {
    const own = this.partSquare[index]! / this.count - (this.part[index]! / this.count) ** 2;
    return this.variance > 0 && own > 0 ? this.covariance(index) ** 2 / (own * this.variance) : 0;
  }
}

/** One draw of every span of a job, in place. */
class JobDraw {
  readonly causes = new Float64Array(CAUSES);
  readonly elapsed_s: Float64Array;
  readonly attended_s: Float64Array;
  totalElapsed_s = 0;
  totalAttended_s = 0;
  gear_s = 0;
  cost_minor = 0;
  private readonly own: Float64Array;

  constructor(
    private readonly drawn: readonly Drawn[],
    private readonly random: SeededRandom,
  ) {
    this.elapsed_s = new Float64Array(drawn.length);
    this.attended_s = new Float64Array(drawn.length);
    this.own = new Float64Array(drawn.filter(({ sigma }) => sigma > 0).length);
  }

  next(): void {
    this.random.fillNormals(this.causes);
    this.random.fillNormals(this.own);
    this.totalElapsed_s = 0;
    this.totalAttended_s = 0;
    this.gear_s = 0;
    this.cost_minor = 0;
    let free = 0;
    for (let index = 0; index < this.drawn.length; index += 1) {
      const one = this.drawn[index]!;
      const own = one.sigma > 0 ? this.own[free++]! : 0;
      const times = one.probability === 1 ? 1 : this.failures(one.probability);
      const span_s = times === 0 ? 0 : times * this.span(one, own);
      const attended_s = span_s * one.crew;
      this.elapsed_s[index] = span_s;
      this.attended_s[index] = attended_s;
      this.totalElapsed_s += span_s;
      this.totalAttended_s += attended_s;
      this.gear_s += span_s * one.gearUnits;
      this.cost_minor += span_s * one.cost_minor_s;
    }
  }

  private failures(probability: number): number {
    let failed = 0;
    while (failed < MOST_FAILURES && this.random.nextUnit() < probability) failed += 1;
    return failed;
  }

  private span({ mu, sigma, median_s, loadings }: Drawn, own: number): number {
    if (sigma === 0) return median_s;
    let deviate = loadings[CAUSES]! * own;
    for (let cause = 0; cause < CAUSES; cause += 1) deviate += loadings[cause]! * this.causes[cause]!;
    return Math.exp(mu + sigma * deviate);
  }
}

const sumOf = (values: Float64Array): number => {
  let sum = 0;
  for (const value of values) sum += value;
  return sum;
};

/**
 * Percentiles of elapsed, attended and gear time and of cost, by drawing every phase and every test that may fail and
 * adding up each draw. Phases that share a cause move together; fixed spans are constants. Percentiles are never added.
 *
 * @param samples draws, 200 or more; the standard error of P80 is 0.9 percentile points at 2,000
 * @throws OutOfDomainError for fewer draws
 */
export function sampleRisk(request: RiskRequest, seed: number, samples: number): Risk {
  if (!(samples >= 200)) throw new OutOfDomainError('samples', samples, '200 or more');
  const drawn = drawnOf(request);
  const draw = new JobDraw(drawn, new SeededRandom(seed));
  const totals = [0, 1, 2, 3].map(() => new Float64Array(samples));
  const [elapsed, attended, gear, cost] = totals as [Float64Array, Float64Array, Float64Array, Float64Array];
  const [byPhase, byPerson, byCause] = [
    new Moments(drawn.length),
    new Moments(drawn.length),
    new Moments(CAUSES),
  ];
  for (let at = 0; at < samples; at += 1) {
    draw.next();
    const { totalElapsed_s, totalAttended_s } = draw;
    elapsed[at] = totalElapsed_s;
    attended[at] = totalAttended_s;
    gear[at] = draw.gear_s;
    cost[at] = draw.cost_minor + request.fixed_minor;
    byPhase.add(draw.elapsed_s, totalElapsed_s);
    byPerson.add(draw.attended_s, totalAttended_s);
    byCause.add(draw.causes, totalElapsed_s);
  }
  return {
    distribution: 'lognormal, low and high as P5 and P95; fixed spans constant',
    percentileRule: 'inclusive, rank 1 + (N - 1) p',
    seed,
    samples,
    elapsed: percentilesOf(elapsed),
    attended: percentilesOf(attended),
    gear: percentilesOf(gear),
    cost: request.worth ? costPercentiles(request.worth.currency, cost) : null,
    mean_s: byPhase.mean,
    drivers: driversOf(drawn, byPhase, byPerson),
    causes: SHARED_CAUSES.map((cause, index) => ({
      cause,
      elapsedShare: byCause.squaredCorrelation(index),
    })).toSorted((a, b) => b.elapsedShare - a.elapsedShare),
    loops: request.loops,
  };
}

function driversOf(drawn: readonly Drawn[], elapsed: Moments, attended: Moments): Driver[] {
  return drawn
    .map(({ label, kind }, index) => ({
      label,
      kind,
      elapsedShare: elapsed.shareOf(index),
      attendedShare: attended.shareOf(index),
    }))
    .filter(({ elapsedShare, attendedShare }) => elapsedShare !== 0 || attendedShare !== 0)
    .toSorted((a, b) => b.elapsedShare - a.elapsedShare);
}

function percentilesOf(totals_s: Float64Array): Percentiles {
  const sorted = totals_s.toSorted();
  return {
    p50_s: percentileInclusive(sorted, 0.5),
    p80_s: percentileInclusive(sorted, 0.8),
    p90_s: percentileInclusive(sorted, 0.9),
  };
}

function costPercentiles(currency: string, totals_minor: Float64Array): CostPercentiles {
  const sorted = totals_minor.toSorted();
  const at = (probability: number): number => Math.round(percentileInclusive(sorted, probability));
  return {
    currency,
    p50_minor: at(0.5),
    p80_minor: at(0.8),
    p90_minor: at(0.9),
    mean_minor: Math.round(sumOf(sorted) / sorted.length),
  };
}
