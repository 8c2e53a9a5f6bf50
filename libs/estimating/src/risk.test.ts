import { lognormalFromMean, lognormalQuantile, normalQuantile } from '@brimline/chance';
import { describe, expect, it } from 'vitest';
import type { PhaseKind, Spread } from './estimate.ts';
import { phase } from './phase-draft.ts';
import { totalAt, totalOf } from './ranking-cost.ts';
import { drawnOf, type RiskRequest, sampleRisk } from './risk.ts';

const HOUR = 3600;

/** The spread of a lognormal duration with a mean and a coefficient of variation. */
function spread(mean_h: number, variation: number): Spread {
  const law = lognormalFromMean(mean_h * HOUR, variation);
  const at = (probability: number): number => lognormalQuantile(law, probability);
  return { low_s: at(0.05), likely_s: at(0.5), high_s: at(0.95) };
}

function step(kind: PhaseKind, elapsed: Spread, part: string) {
  const reason = { label: '', value: 0, unit: 'h', formula: '', inputs: [], limitedBy: null, source: '' };
  return phase({ kind, elapsed, part, manner: 'attended', crew: 2, reason });
}

const request = (kinds: readonly PhaseKind[], spreads: readonly Spread[]): RiskRequest => ({
  phases: spreads.map((one, index) => step(kinds[index]!, one, `${index}`)),
  loops: [],
  isVolumeMeasured: true,
  worth: null,
  fixed_minor: 0,
  cylindersHeld: 0,
});

const PARTS = [spread(8, 0.3), spread(14, 0.5), spread(6, 0.2)];
/** No two of these share a cause. */
const APART = ['warm up', 'evacuation', 'rig up'] as const;
const TOGETHER = ['rig up', 'start-up check', 'rig down and records'] as const;

describe('percentiles of a job', () => {
  it('are those of the sum, not the sum of those', () => {
    const { elapsed, attended, drivers } = sampleRisk(request(APART, PARTS), 5, 50_000);
    // Computed independently with numpy, two million draws: P80 33.2 h; adding the P80s gives 35.4 h.
    expect(elapsed.p80_s / HOUR).toBeGreaterThan(33);
    expect(elapsed.p80_s / HOUR).toBeLessThan(33.4);
    expect(attended.p80_s).toBeCloseTo(2 * elapsed.p80_s, 3);
    // Shares of the variance of independent parts: 7^2 of 2.4^2 + 7^2 + 1.2^2 (own sum) is 0.872.
    expect(drivers[0]!.label).toBe('evacuation, 1');
    expect(Math.abs(drivers[0]!.elapsedShare - 0.872)).toBeLessThan(0.03);
  });

  it('spread more where phases share a cause', () => {
    const width = (kinds: readonly PhaseKind[]): number => {
      const { elapsed } = sampleRisk(request(kinds, PARTS), 5, 20_000);
      return elapsed.p90_s - elapsed.p50_s;
    };
    expect(width(TOGETHER)).toBeGreaterThan(width(APART) * 1.03);
  });

  it('are met by the quick figure that ranks ways', () => {
    for (const kinds of [APART, TOGETHER]) {
      const asked = request(kinds, PARTS);
      const drawn = sampleRisk(asked, 9, 50_000).elapsed.p80_s;
      const quick = totalAt(
        totalOf(drawnOf(asked), () => 1),
        normalQuantile(0.8),
      );
      expect(Math.abs(quick / drawn - 1)).toBeLessThan(0.03);
    }
  });

  it('keep fixed spans fixed, repeat failed tests as often as they fail, and refuse too few draws', () => {
    const fixed = { low_s: HOUR, likely_s: HOUR, high_s: HOUR };
    const asked = request(['rise test'], [fixed]);
    expect(sampleRisk(asked, 1, 200).elapsed.p90_s).toBeCloseTo(HOUR, 6);
    const loop = {
      test: 'rise test' as const,
      probability: 0.25,
      each: fixed,
      crew: 1,
      gearUnits: 0,
      gear: [],
      repeats: [],
      source: 'invented for this test',
    };
    // Failures up to three: 0.25 + 0.0625 + 0.015625 expected (own sum).
    const failing = { ...asked, loops: [loop] };
    const { mean_s } = sampleRisk(failing, 1, 50_000);
    expect(Math.abs(mean_s / HOUR - 1.328)).toBeLessThan(0.02);
    expect(totalOf(drawnOf(failing), () => 1).mean / HOUR).toBeCloseTo(1.328125, 9);
    expect(() => sampleRisk(asked, 1, 100)).toThrow(/200 or more/);
  });
});
