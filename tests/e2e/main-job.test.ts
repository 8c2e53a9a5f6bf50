import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'brimline-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function run(name: string, args: readonly string[], input = '') {
  const result = spawnSync('npm', ['run', '-s', name, '--', ...args], {
    encoding: 'utf8',
    input,
    maxBuffer: 1 << 28,
  });
  return { status: result.status, out: result.stdout, err: result.stderr };
}

/** A copy of the sample jobs with one file changed. */
function changedSamples(file: string, change: (content: any) => void): string {
  const copy = mkdtempSync(join(folder, 'jobs-'));
  cpSync('sample-jobs', copy, { recursive: true });
  const path = join(copy, file);
  const content = JSON.parse(readFileSync(path, 'utf8'));
  change(content);
  writeFileSync(path, JSON.stringify(content));
  return copy;
}

describe('plan', () => {
  it('plans the sample week: files, summary, JSON', () => {
    const out = join(folder, 'week');
    const { status, out: text, err } = run('plan', ['sample-jobs', '--out', out]);
    expect(err).toBe('');
    expect(status).toBe(0);
    expect(text).toMatch(/1102 +Quarry Lane Brewery +R-134a +1,800/);
    expect(text).toMatch(/no plan can end before .*; gap \d/);
    const plan = JSON.parse(readFileSync(join(out, 'plan.json'), 'utf8'));
    for (const job of plan.jobs) {
      expect(job).toMatchObject({
        id: expect.any(String),
        scope: expect.any(String),
        charge_kg: expect.any(Number),
        hours: {
          elapsed: expect.any(Number),
          attended: expect.any(Number),
          gear: expect.any(Number),
          p50: expect.any(Number),
          p80: expect.any(Number),
          p90: expect.any(Number),
        },
        price: { currency: 'USD', minorUnits: expect.any(Number) },
        cautions: expect.any(Array),
        assumptions: expect.any(Array),
      });
      expect(existsSync(join(out, `quote-${job.id}.xlsx`))).toBe(true);
      for (const phase of job.phases) expect(new Date(phase.start).toISOString()).toBe(phase.start);
    }
    expect(plan.schedule).toMatchObject({
      objective: expect.any(Object),
      lowerBound: expect.any(String),
      bound: expect.any(String),
      gap: expect.any(Number),
    });
    expect(readdirSync(out).filter((name) => name.endsWith('.part'))).toEqual([]);
    const json = run('plan', ['sample-jobs', '--out', out, '--json', '--seed', '1']);
    expect(JSON.parse(json.out)).toEqual(plan);
  });

  it('plans one job file with the registers beside it', () => {
    const { status, out } = run('plan', [
      join('sample-jobs', 'jobs', '1105.json'),
      '--out',
      join(folder, 'one'),
      '--json',
    ]);
    expect(status).toBe(0);
    expect(JSON.parse(out).jobs.map((job: { id: string }) => job.id)).toEqual(['1105']);
  });

  it('shows every fault of a bad file, one line each, and writes nothing', () => {
    const copy = changedSamples('jobs/1101.json', (job) => {
      job.openWork = '6 stone';
      job.hurry = true;
    });
    const out = join(folder, 'bad');
    const { status, err } = run('plan', [copy, '--out', out]);
    expect(status).toBe(2);
    expect(err).toMatch(/1101\.json: openWork: "6 stone" is not allowed; expected .*\bh\b/);
    expect(err).toMatch(/1101\.json: hurry: true is not allowed; expected no such field/);
    expect(err.trim().split('\n')).toHaveLength(2);
    expect(existsSync(out)).toBe(false);
    expect(run('plan', ['nowhere', '--out', out]).status).toBe(2);
    expect(run('plan', ['sample-jobs']).err).toMatch(/--out/);
  });

  it('refuses the impossible job alone with exit 3 and the reason', () => {
    const { status, err } = run('plan', [
      join('sample-jobs', 'jobs', '1110.json'),
      '--out',
      join(folder, 'none'),
    ]);
    expect(status).toBe(3);
    expect(err).toMatch(/1110: no-recovery-machine \(gear\): .*flammable/);
  });

  it('says which constraint leaves no plan: a window too short', () => {
    const copy = changedSamples('sites.json', (file) => {
      const hall = file.sites.find((site: { id: string }) => site.id === 'lowmoor');
      hall.outages = [{ from: '2026-10-30T06:00', to: '2026-10-30T16:00' }];
    });
    for (const name of readdirSync(join(copy, 'jobs')))
      if (name !== '1108.json') rmSync(join(copy, 'jobs', name));
    const { status, err } = run('plan', [copy, '--out', join(folder, 'short')]);
    expect(status).toBe(3);
    expect(err).toMatch(/1108: (window-too-short|no-common-time)/);
  });
});

describe('calc', () => {
  it('lists every calculation with units and source, and each example runs', () => {
    const list = JSON.parse(run('calc', ['--list', '--json']).out) as {
      name: string;
      source: string;
      example: object;
    }[];
    const names = list.map(({ name }) => name);
    for (const name of [
      'saturation',
      'vapour-density',
      'hose-flow',
      'tube-conductance',
      'pump-down',
      'recovery-level',
      'cylinder-fill',
      'leak-rate',
      'transfer-time',
      'three-point',
      'rate-quantity-variance',
      'overtime-split',
      'shrinkage',
    ]) {
      expect(names).toContain(name);
    }
    expect(new Set(names).size).toBe(names.length);
    expect(run('calc', ['--list']).out).toMatch(/saturation:.*\n.*\n +source:/);
  });

  it('answers each line, errors included, and goes on', () => {
    const { status, out } = run(
      'calc',
      ['recovery-level'],
      '{"refrigerant":"R-134a","charge_kg":408.23,"recoveryMachineMade":"2015-01-01"}\nnonsense\n{"refrigerant":"R-134a"}\n{"refrigerant":"R-123","charge_kg":544,"recoveryMachineMade":"1992-01-01"}\n',
    );
    expect(status).toBe(0);
    const lines = out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    // 15 in Hg vacuum and 25 mm Hg absolute: 40 CFR 82.156(a) Table 1.
    expect(lines[0].pressure_Pa).toBeCloseTo((29.9 - 15) * 3386.389, 0);
    expect(lines[1].error.allowed).toBe('JSON');
    expect(lines[2].error.field).toMatch(/charge_kg|recoveryMachineMade/);
    expect(lines[3].pressure_Pa).toBeCloseTo(3333.06, 0);
    expect(run('calc', ['no-such-thing']).status).toBe(2);
  });
});
