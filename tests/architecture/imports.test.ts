import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

/** A row may import only rows above it. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  quantities: [],
  chance: ['quantities'],
  firm: [],
  calendar: ['quantities'],
  refrigerants: ['quantities'],
  contracts: ['quantities', 'firm'],
  rules: ['quantities', 'refrigerants'],
  transfer: ['quantities', 'refrigerants'],
  vacuum: ['quantities'],
  estimating: ['quantities', 'chance', 'firm', 'refrigerants', 'rules', 'transfer', 'vacuum'],
  costing: ['quantities', 'firm', 'calendar', 'estimating'],
  learning: ['quantities', 'chance', 'estimating'],
  scheduling: ['quantities', 'chance', 'calendar'],
  planning: [
    'quantities',
    'chance',
    'firm',
    'calendar',
    'refrigerants',
    'rules',
    'transfer',
    'vacuum',
    'estimating',
    'costing',
    'learning',
    'scheduling',
  ],
  workbooks: ['quantities', 'planning'],
  persistence: ['firm', 'planning'],
};
const PACKAGES: Readonly<Record<string, readonly string[]>> = {
  calendar: ['@date-fns/tz', 'date-fns'],
  contracts: ['zod'],
  workbooks: ['exceljs'],
  persistence: ['typeorm', 'node:async_hooks'],
};
const APPS: Readonly<Record<string, readonly string[]>> = {
  api: ['contracts', 'planning', 'workbooks', 'quantities', 'persistence', 'firm'],
  cli: [
    'contracts',
    'planning',
    'workbooks',
    'quantities',
    'scheduling',
    'estimating',
    'refrigerants',
    'transfer',
    'vacuum',
    'firm',
  ],
  web: ['planning', 'quantities', 'calendar', 'estimating', 'costing', 'scheduling', 'firm'],
  launch: [],
};
const rows = Object.keys(MAY_IMPORT);

function sourcesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(ts|tsx|mjs)$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name));
}

function importsOf(file: string): string[] {
  return ts
    .preProcessFile(readFileSync(file, 'utf8'), true, true)
    .importedFiles.map(({ fileName }) => fileName);
}

const isTest = (file: string): boolean => /\.test\.tsx?$/.test(file);

describe('imports run one way', () => {
  it('in a table that names only rows above', () => {
    expect(readdirSync('libs').toSorted()).toEqual(rows.toSorted());
    for (const [index, row] of rows.entries()) {
      for (const other of MAY_IMPORT[row]!)
        expect(rows.indexOf(other), `${row} imports ${other}`).toBeLessThan(index);
    }
  });

  it.each(rows)('libs/%s imports only what it may, by package name', (row) => {
    for (const file of sourcesIn(join('libs', row))) {
      for (const name of importsOf(file)) {
        const own = /^@brimline\/([^/]+)(\/.*)?$/.exec(name);
        if (name.startsWith('.')) {
          const inside = relative(join('libs', row), resolve(dirname(file), name));
          expect(inside.startsWith('..'), `${file}: ${name} leaves its lib`).toBe(false);
        } else if (own) {
          expect(own[2], `${file}: ${name} reaches inside a lib`).toBeUndefined();
          expect(MAY_IMPORT[row], `${file}: ${name}`).toContain(own[1]);
        } else if (!isTest(file)) expect(PACKAGES[row] ?? [], `${file}: ${name}`).toContain(name);
      }
    }
  });

  it.each(Object.keys(APPS))('apps/%s uses libs by package name', (app) => {
    for (const file of sourcesIn(join('apps', app))) {
      for (const name of importsOf(file)) {
        const own = /^@brimline\/([^/]+)(\/.*)?$/.exec(name);
        if (!own) continue;
        expect(own[2], `${file}: ${name}`).toBeUndefined();
        expect(APPS[app], `${file}: ${name}`).toContain(own[1]);
      }
    }
  });

  it('before anything is installed from Node alone', () => {
    for (const file of sourcesIn('apps/launch')) {
      for (const name of importsOf(file)) {
        const isLater = name === 'rolldown' || name === 'vite';
        expect(isLater || name.startsWith('node:') || name.startsWith('./'), `${file}: ${name}`).toBe(true);
      }
    }
  });
});

describe('house rules', () => {
  const sources = ['libs', 'apps', 'tests'].flatMap(sourcesIn);

  it('keep every engine free of clocks, chance and files', () => {
    for (const row of rows.filter((one) => one !== 'persistence')) {
      for (const file of sourcesIn(join('libs', row)).filter((one) => !isTest(one))) {
        expect(readFileSync(file, 'utf8'), file).not.toMatch(
          /Math\.random\(|Date\.now\(|new Date\(\)|from 'node:/,
        );
      }
    }
  });

  it('keep conversion factors in quantities', () => {
    const factors = /\b0\.4535|\b6894\.?7|\b3386\.|\b133\.322|\b0\.3048\b|\b0\.0254\b|\b4\.719\d*e-4/;
    for (const file of sources.filter(
      (one) => !isTest(one) && !one.includes('quantities') && !one.startsWith('tests'),
    )) {
      expect(readFileSync(file, 'utf8'), file).not.toMatch(factors);
    }
  });

  it('leave no test alone and no address in the lock file', () => {
    for (const file of sources.filter(isTest))
      expect(readFileSync(file, 'utf8'), file).not.toMatch(/\b(it|describe)\.only\(/);
    expect(readFileSync('package-lock.json', 'utf8')).not.toMatch(/"resolved": "http/);
  });

  it('give each lib a README of thirty lines at most', () => {
    for (const row of rows) {
      const file = join('libs', row, 'README.md');
      expect(existsSync(file), file).toBe(true);
      expect(readFileSync(file, 'utf8').split('\n').length, file).toBeLessThanOrEqual(31);
    }
  });
});
