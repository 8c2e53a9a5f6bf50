import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatProblem } from './file-problem.ts';
import { jsonSchemas, readFirm, type SourceFile } from './read-firm.ts';

const REFRIGERANTS = ['R-134a', 'R-22', 'R-123', 'R-1233zd(E)', 'R-410A', 'R-407C', 'R-513A', 'R-454B'];
const FOLDER = 'sample-jobs';

function samples(): SourceFile[] {
  const names = [
    ...readdirSync(FOLDER).filter((name) => name.endsWith('.json')),
    ...readdirSync(join(FOLDER, 'jobs')).map((name) => join('jobs', name)),
  ];
  return names.map((name) => ({ name, text: readFileSync(join(FOLDER, name), 'utf8') }));
}

function changed(file: string, change: (content: Record<string, any>) => void): SourceFile[] {
  return samples().map(({ name, text }) => {
    if (name !== file) return { name, text };
    const content = JSON.parse(text) as Record<string, any>;
    change(content);
    return { name, text: JSON.stringify(content) };
  });
}

function problemsIn(files: SourceFile[]): readonly string[] {
  const result = readFirm(files, { refrigerants: REFRIGERANTS });
  return result.ok ? [] : result.problems.map(formatProblem);
}

describe('the sample jobs', () => {
  it('are read into SI', () => {
    const result = readFirm(samples(), { refrigerants: REFRIGERANTS });
    expect(result.ok ? [] : result.problems.map(formatProblem)).toEqual([]);
    if (!result.ok) return;
    const firm = result.value;
    expect(firm.jobs).toHaveLength(12);
    expect(firm.sites.length).toBeGreaterThanOrEqual(8);
    expect(new Set(firm.sites.map(({ timeZone }) => timeZone)).size).toBe(2);
    // 240 lb: exact by definition of the pound (from memory).
    expect(firm.chillers.find(({ id }) => id === 'CH-11')?.nameplateCharge_kg).toBeCloseTo(108.8621688, 9);
    expect(firm.notice).toMatch(/invented/i);
  });

  it('may say what is known on site, what leaked, and what the firm has measured', () => {
    const job = changed(join('jobs', '1105.json'), (one) => {
      delete one.missing;
      one.known = { internalVolume: '12 ft3', hoseRun: '30 ft', lift: '-2 m', trapped: '4 %' };
      one.leakRecord = { additions: [{ on: '2026-03-01', added: '10 lb' }] };
      one.circuits = 1;
    });
    const files = job.map(({ name, text }) => {
      if (name !== 'rate-card.json') return { name, text };
      const norm = {
        id: 'rigDown',
        low: '20 min',
        likely: '1 h',
        high: '2 h',
        source: 'own logs',
        dated: '2026-10-01',
      };
      return {
        name,
        text: JSON.stringify({ ...JSON.parse(text), timeNorms: [norm], policy: { certainty: '90 %' } }),
      };
    });
    const result = readFirm(files, { refrigerants: REFRIGERANTS });
    expect(result.ok ? [] : result.problems.map(formatProblem)).toEqual([]);
    if (!result.ok) return;
    const read = result.value.jobs.find(({ id }) => id === '1105')!;
    expect(read).toMatchObject({ missing_kg: null, circuits: 1, known: { lift_m: -2, trappedShare: 0.04 } });
    expect(Object.keys(read.known!)).not.toContain('ambient_K');
    expect(read.leakRecord).toMatchObject({ use: 'comfort cooling', additions: [{ on: '2026-03-01' }] });
    expect(result.value.rateCard.policy).toEqual({ certainty: 0.9 });
    expect(result.value.rateCard.timeNorms).toMatchObject([{ id: 'rigDown', low_s: 1200, high_s: 7200 }]);
  });

  it('have schemas beside them that are those of the code', () => {
    for (const [name, schema] of Object.entries(jsonSchemas())) {
      const published = JSON.parse(readFileSync(join(FOLDER, 'schema', name), 'utf8')) as unknown;
      expect(published, `${name}: run npm run schemas`).toEqual(JSON.parse(JSON.stringify(schema)));
    }
  });
});

describe('a bad file', () => {
  it('shows every error at once, with file, field, value and what is allowed', () => {
    const files = changed(join('jobs', '1101.json'), (job) => {
      job.openWork = '6 fortnights';
      job.scope = 'recharge everything';
      job.priority = 1;
      delete job.chiller;
    });
    const lines = problemsIn(files);
    expect(lines).toHaveLength(4);
    expect(lines.join('\n')).toMatch(/jobs\/1101\.json: openWork: "6 fortnights" is not allowed; .*\bh\b/);
    expect(lines.join('\n')).toMatch(/scope: "recharge everything" .*recover and recharge, top-up/);
    expect(lines.join('\n')).toMatch(/priority: 1 is not allowed; expected no such field/);
    expect(lines.join('\n')).toMatch(/chiller: nothing is not allowed; expected text/);
  });

  it.each([
    [
      'sites.json',
      (file: any): unknown => (file.sites[0].chillers[0].nameplateCharge = '-240 lb'),
      /chillers\[0\]\.nameplateCharge: "-240 lb"/,
    ],
    [
      'sites.json',
      (file: any): unknown => (file.sites[0].chillers[0].refrigerant = 'R-999'),
      /refrigerant: "R-999" .*R-134a/,
    ],
    [
      'sites.json',
      (file: any): unknown => (file.sites[1].timeZone = 'Mars/Olympus'),
      /sites\[1\]\.timeZone: "Mars\/Olympus" .*IANA/,
    ],
    [
      'gear.json',
      (file: any): unknown => (file.gear[0].vapourRate = 'fast'),
      /gear\[0\]\.vapourRate: "fast" .*lb\/min/,
    ],
    ['gear.json', (file: any): unknown => (file.gear[0].kind = 'magic box'), /gear\[0\]\.kind: "magic box"/],
    [
      'gear.json',
      (file: any): unknown => (file.gear[1].id = file.gear[0].id),
      /gear\[1\]\.id: "RM-01" .*nothing else has/,
    ],
    [
      'crew.json',
      (file: any): unknown => (file.people[0].base = 'moon'),
      /people\[0\]\.base: "moon" .*east-yard/,
    ],
    [
      'crew.json',
      (file: any): unknown => (file.people[0].shifts[0].from = '25:00'),
      /shifts\[0\]\.from: "25:00" .*HH:mm/,
    ],
    [
      'rate-card.json',
      (file: any): unknown => (file.labour[0].cost = '78 EUR/h'),
      /labour\[0\]\.cost: .* price in USD/,
    ],
    ['rate-card.json', (file: any): unknown => (file.margin = 0.28), /margin: 0\.28 .*percentage/],
    [
      'cylinders.json',
      (file: any): unknown => (file.cylinders[0].contents = '20 lb'),
      /contentsKind: "empty"/,
    ],
    ['firm.json', (file: any): unknown => (file.planFrom = '2026-02-30'), /planFrom: "2026-02-30" .*day/],
    ['jobs/1105.json', (file: any): unknown => delete file.missing, /missing: nothing .*top-up/],
    [
      'jobs/1101.json',
      (file: any): unknown => (file.due = '2026-10-01T08:00'),
      /due: "2026-10-01T08:00" .*notBefore/,
    ],
    ['jobs/1101.json', (file: any): unknown => (file.chiller = 'CH-99'), /chiller: "CH-99" .*CH-11/],
    ['jobs/1102.json', (file: any): unknown => (file.id = '1101'), /id: "1101" .*jobs\/1101\.json/],
    ['jobs/1102.json', (file: any): unknown => (file.kind = 'gossip'), /kind: "gossip" .*rate card/],
  ] as const)('in %s is named (case %#)', (file, change, expected) => {
    expect(problemsIn(changed(file, change)).join('\n')).toMatch(expected);
  });

  it('that is not JSON says where it breaks', () => {
    const files = samples().map((file) =>
      file.name === 'crew.json' ? { ...file, text: '{"kind": "crew",' } : file,
    );
    expect(problemsIn(files).join('\n')).toMatch(/crew\.json: \(file\): .*expected JSON/);
  });

  it('that is missing is asked for', () => {
    expect(problemsIn(samples().filter(({ name }) => name !== 'gear.json')).join('\n')).toMatch(
      /file of kind "gear"/,
    );
  });

  it('never throws, whatever is deleted or replaced, and each problem is complete', () => {
    const files = samples();
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: files.length - 1 }),
        fc.nat(),
        fc.jsonValue(),
        (index, place, junk) => {
          const damaged = files.map((file, at) =>
            at === index
              ? { ...file, text: JSON.stringify(replaceSomewhere(JSON.parse(file.text), place, junk)) }
              : file,
          );
          const result = readFirm(damaged, { refrigerants: REFRIGERANTS });
          for (const problem of result.ok ? [] : result.problems) {
            expect(problem.file).not.toBe('');
            expect(problem.value).not.toBe('');
            expect(problem.allowed).not.toBe('');
            expect(problem.allowed).not.toContain('Invalid input');
          }
        },
      ),
      { numRuns: 200 },
    );
  });
});

function replaceSomewhere(value: unknown, place: number, junk: unknown): unknown {
  const paths = leaves(value);
  const path = paths[place % paths.length]!;
  const copy = structuredClone(value) as any;
  const parent = path.slice(0, -1).reduce((inner, key) => inner[key], copy);
  if (place % 3 === 0 && !Array.isArray(parent)) delete parent[path.at(-1)!];
  else parent[path.at(-1)!] = junk;
  return copy;
}

function leaves(value: unknown, path: (string | number)[] = []): (string | number)[][] {
  if (typeof value !== 'object' || value === null) return [path];
  return Object.entries(value).flatMap(([key, inner]) =>
    leaves(inner, [...path, Array.isArray(value) ? Number(key) : key]),
  );
}
