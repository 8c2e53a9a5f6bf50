import type { Chiller, Firm, Job, Site } from '@brimline/firm';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Draft, draftOf, factText, firmOf, storedJob } from './draft.ts';
import { FACT_NAMES, FACTS } from './facts.ts';

/** Invented; only what the form reads matters. */
const CHILLER = {
  id: 'C',
  siteId: 'S',
  refrigerant: 'R-134a',
  nameplateCharge_kg: 100,
  cooling: 'air-cooled',
  evaporator: 'flooded',
  internalVolume_m3: null,
  circuits: 1,
  liquidPort_m: 0.0127,
  vapourPort_m: 0.01905,
  waterFlow: true,
} as unknown as Chiller;
const JOB = {
  id: 'J',
  chillerId: 'C',
  scope: 'recover and recharge',
  notBefore: '2026-03-02T07:00',
  openWork_s: 7200,
  missing_kg: null,
  moisture_kg: null,
  setup: {},
} as unknown as Job;
const SITE = {
  id: 'S',
  ambient_K: Array.from({ length: 12 }, (_, month) => 280 + month),
} as unknown as Site;
const FIRM = { chillers: [CHILLER], jobs: [JOB], sites: [SITE] } as unknown as Firm;
const STORED = storedJob(FIRM, 'J')!;
const DRAFT = draftOf(STORED);
const typed = (facts: Draft['typed']): Draft => ({ ...DRAFT, typed: facts });

describe('the draft of a trial', () => {
  it('untouched gives the stored job, bit for bit', () => {
    const read = firmOf(FIRM, STORED, DRAFT);
    expect(read).toMatchObject({ ok: true, value: { chillers: [CHILLER], jobs: [JOB] } });
    // March is the third month.
    expect(read.ok && read.value.sites[0]!.ambient_K[2]).toBe(282);
  });

  it('shows stored values in the units of the page, and typed ones as they were typed', () => {
    // 100 kg / 0.45359237 kg/lb = 220.46 lb: computed independently by hand.
    expect(factText(STORED, DRAFT, 'nameplateCharge', 'us')).toBe('220 lb');
    expect(factText(STORED, DRAFT, 'nameplateCharge', 'si')).toBe('100.0 kg');
    expect(factText(STORED, typed({ nameplateCharge: '7 oz' }), 'nameplateCharge', 'si')).toBe('7 oz');
    expect(factText(STORED, DRAFT, 'internalVolume', 'us')).toBe('');
  });

  it('names every fact that can’t be read, at once', () => {
    const read = firmOf(FIRM, STORED, typed({ nameplateCharge: '0 lb', liquidPort: 'wide', openWork: '' }));
    expect(!read.ok && read.problems.map(({ fact }) => fact)).toEqual([
      'nameplateCharge',
      'liquidPort',
      'openWork',
    ]);
  });

  it('asks a top-up for what is missing, and nothing else does', () => {
    const topUp = firmOf(FIRM, STORED, { ...DRAFT, scope: 'top-up' });
    expect(!topUp.ok && topUp.problems.map(({ fact }) => fact)).toEqual(['missing']);
    const full = firmOf(FIRM, STORED, { ...DRAFT, scope: 'top-up', typed: { missing: '10 kg' } });
    expect(full.ok && full.value.jobs[0]!.missing_kg).toBe(10);
  });

  it('never lets a number through that is not finite and allowed, whatever is typed', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...FACT_NAMES),
        fc.oneof(
          fc.string(),
          fc
            .tuple(fc.double(), fc.constantFrom('kg', 'lb', 'm3', 'mm', 'degF', 'h'))
            .map(([n, u]) => `${n} ${u}`),
        ),
        (fact, text) => {
          const read = firmOf(FIRM, STORED, typed({ [fact]: text }));
          if (!read.ok) return;
          const { chillers, jobs, sites } = read.value;
          const values = [chillers[0]!.nameplateCharge_kg, chillers[0]!.liquidPort_m, jobs[0]!.openWork_s];
          for (const value of [...values, ...sites[0]!.ambient_K]) expect(Number.isFinite(value)).toBe(true);
          expect(chillers[0]!.nameplateCharge_kg).toBeGreaterThan(FACTS.nameplateCharge.least.value_SI);
        },
      ),
      { seed: 11, numRuns: 500 },
    );
  });
});
