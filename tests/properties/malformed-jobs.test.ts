import { join } from 'node:path';
import fc from 'fast-check';
import { type FileProblem, readFirm } from '@brimline/contracts';
import { estimateJob } from '@brimline/estimating';
import { refrigerantNames } from '@brimline/refrigerants';
import { describe, expect, it } from 'vitest';
import { request } from '../support/estimate-requests.ts';
import { sampleFiles } from '../support/sample-firm.ts';

const FILES = sampleFiles();
const JOB = join('jobs', '1105.json');

/** Values that no field of the kind may have. */
const BAD = {
  mass: ['-4 lb', '0 kg', '12', 'twelve pounds', '3 psig', 7, null, {}, '1e999 lb', 'NaN kg'],
  time: ['-1 h', '4 fortnights', 'soon', 8, []],
  length: ['-2 m', '0 ft', '3 kg', true],
  when: ['2026-13-01T07:00', 'tomorrow', '2026-11-02', 20261102, '2026-02-30T08:00'],
  choice: ['recharge everything', '', 3, null, ['top-up']],
  flag: ['yes', 1, 'true'],
  count: [0, -1, 1.5, '2', 99],
  temperature: ['400 degF', '-300 degC', 'warm', 20],
  share: ['-3 %', '45 %', '0.05', 0.05],
  tags: ['RM-01', [], ['RM-99'], [7]],
} as const;

const FIELDS: readonly (readonly [path: string, kind: keyof typeof BAD])[] = [
  ['missing', 'mass'],
  ['moisture', 'mass'],
  ['openWork', 'time'],
  ['oilHeatUp', 'time'],
  ['notBefore', 'when'],
  ['due', 'when'],
  ['scope', 'choice'],
  ['evacuation', 'choice'],
  ['chiller', 'choice'],
  ['circuits', 'count'],
  ['known.presentCharge', 'mass'],
  ['known.internalVolume', 'length'],
  ['known.hoseRun', 'length'],
  ['known.ambient', 'temperature'],
  ['known.trapped', 'share'],
  ['setup.method', 'choice'],
  ['setup.coresRemoved', 'flag'],
  ['setup.warmWater', 'flag'],
  ['setup.circuitOrder', 'choice'],
  ['setup.cylinderCapacity', 'mass'],
  ['setup.machineIds', 'tags'],
  ['idleReading.temperature', 'temperature'],
  ['leakRecord.use', 'choice'],
  ['leakRecord.additions', 'tags'],
  ['sameVisitAs', 'choice'],
  ['priority', 'count'],
];

/** Zero moisture, work and heat-up are allowed. */
const isAllowed = (path: string, value: unknown): boolean =>
  (path === 'moisture' && value === '0 kg') || (path === 'evacuation' && value === 'deep');

function withValue(path: string, value: unknown): { readonly name: string; readonly text: string }[] {
  return FILES.map(({ name, text }) => {
    if (name !== JOB) return { name, text };
    const job = JSON.parse(text) as Record<string, unknown>;
    const [outer, inner] = path.split('.') as [string, string | undefined];
    if (inner === undefined) job[outer] = value;
    else {
      const whole = {
        idleReading: { pressure: '20 psig', temperature: '60 degF' },
        leakRecord: { use: 'comfort cooling', additions: [{ on: '2026-03-01', added: '5 lb' }] },
      }[outer];
      job[outer] = { ...whole, [inner]: value };
    }
    return { name, text: JSON.stringify(job) };
  });
}

describe('two hundred malformed jobs', () => {
  it('each get an error that names file, field, value and what is allowed', () => {
    const cases = fc
      .constantFrom(...FIELDS)
      .chain(([path, kind]) => fc.constantFrom(...BAD[kind]).map((value: unknown) => ({ path, value })))
      .filter(({ path, value }) => !isAllowed(path, value));
    fc.assert(
      fc.property(cases, ({ path, value }) => {
        const result = readFirm(withValue(path, value), { refrigerants: refrigerantNames() });
        expect(result.ok).toBe(false);
        if (result.ok) return;
        const own: FileProblem[] = result.problems.filter(({ file }) => file === JOB);
        const outer = path.split('.')[0]!;
        const named = own.find(({ field }) => field.startsWith(outer));
        expect(named, JSON.stringify(result.problems)).toBeDefined();
        expect(named!.allowed).not.toBe('');
        expect(named!.value).not.toBe('');
      }),
      { numRuns: 200, seed: 3 },
    );
  });
});

describe('a request that no file could make', () => {
  it.each([
    ['job.openWork', { job: { openWork_s: Number.NaN } }],
    ['job.moisture', { job: { moisture_kg: -1 } }],
    ['job.circuits', { job: { circuits: 3 } }],
    ['job.evacuationTarget', { job: { evacuationTarget_Pa: 0 } }],
    ['job.known.hoseRun', { job: { known: { hoseRun_m: -2 } } }],
    ['job.known.trapped', { job: { known: { trappedShare: 0.9 } } }],
    ['chiller.nameplateCharge', { chiller: { nameplateCharge_kg: -5 } }],
    ['certainty', { request: { certainty: 1 } }],
    ['samples', { request: { samples: 10 } }],
  ] as const)('is refused with the field %s, its value and what is allowed', (path, changes) => {
    const result = estimateJob(request('1101', changes));
    if (result.ok) throw new Error('this may not be estimated');
    const problem = result.problems.find((one) => one.path === path);
    expect(problem?.code).toBe('bad-value');
    expect(problem?.message).toMatch(/^(NaN|-?\d[\d.]*)( \S+)* is not allowed; expected /);
  });
});
