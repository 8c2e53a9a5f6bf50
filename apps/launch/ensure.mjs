import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Everything here runs before anything is installed: Node built-ins only. */
export const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const CACHE = join(ROOT, '.cache');
const LEAST_NODE = [20, 19];

/** A plain sentence and a failing exit: what is missing and how to get it. */
export function stop(message) {
  process.stderr.write(`${message}\n`);
  process.exit(1);
}

/** Progress goes to the error stream, and only to a person at a terminal. */
export function say(message) {
  if (process.stderr.isTTY || process.env.CI) process.stderr.write(`${message}\n`);
}

export function node() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > LEAST_NODE[0] || (major === LEAST_NODE[0] && minor >= LEAST_NODE[1])) return;
  stop(`Brimline needs Node ${LEAST_NODE.join('.')} or newer; this is ${process.versions.node}.`);
}

function run(command, args, options = {}) {
  return spawnSync(command, args, {
    cwd: ROOT,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
    ...options,
  });
}

function readStamp(name) {
  const file = join(CACHE, name);
  return existsSync(file) ? readFileSync(file, 'utf8') : '';
}

function writeStamp(name, value) {
  mkdirSync(CACHE, { recursive: true });
  writeFileSync(join(CACHE, name), value);
}

/** Installs what the lock file names, when it is not there yet, and sees that the database driver loads. */
export function packages() {
  const lock = readFileSync(join(ROOT, 'package-lock.json'));
  const wanted = createHash('sha256')
    .update(lock)
    .update(process.versions.modules)
    .update(process.platform)
    .digest('hex');
  if (!existsSync(join(ROOT, 'node_modules')) || readStamp('packages') !== wanted) {
    if (!(
      existsSync(join(ROOT, 'node_modules', 'typescript')) &&
      loadsDriver() &&
      readStamp('packages') === ''
    )) {
      say('Installing packages …');
      if (run('npm', ['ci', '--no-audit', '--no-fund']).status !== 0)
        stop('npm ci failed: see its message above.');
    }
  }
  if (!loadsDriver()) {
    say('Building the database driver …');
    run('npm', ['rebuild', 'sqlite3']);
    if (!loadsDriver())
      stop(
        'The sqlite3 driver does not load. It is compiled here: install python3, make and g++, then try again.',
      );
  }
  writeStamp('packages', wanted);
}

function loadsDriver() {
  return run(process.execPath, ['-e', "require('sqlite3')"], { stdio: 'ignore' }).status === 0;
}

function filesBelow(folder) {
  return readdirSync(folder, { withFileTypes: true })
    .toSorted((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      return entry.isDirectory() ? filesBelow(path) : [path];
    });
}

function sourceHash() {
  const hash = createHash('sha256');
  const files = [
    join(ROOT, 'package-lock.json'),
    join(ROOT, 'tsconfig.json'),
    ...['apps', 'libs'].flatMap((name) => filesBelow(join(ROOT, name))),
  ];
  for (const file of files) {
    if (!file.endsWith('.test.ts')) hash.update(file).update(readFileSync(file));
  }
  return hash.digest('hex');
}

/** Entries of the server and the command line; each becomes a file of its own in dist/node. */
const ENTRIES = {
  server: 'apps/api/main.ts',
  'plan-worker': 'apps/api/plan-worker.ts',
  plan: 'apps/cli/plan.ts',
  calc: 'apps/cli/calc.ts',
  schemas: 'apps/cli/schemas.ts',
  'bench-scheduling': 'apps/cli/bench-scheduling.ts',
  'bench-physics': 'apps/cli/bench-physics.ts',
};

/** Bundles server, command line and pages when a source changed; a build takes its place whole or not at all. */
export async function build() {
  const wanted = sourceHash();
  if (readStamp('build') === wanted && existsSync(join(ROOT, 'dist'))) return;
  say('Building …');
  const fresh = join(ROOT, `.cache/build-${process.pid}`);
  rmSync(fresh, { recursive: true, force: true });
  const { rolldown } = await import('rolldown');
  const bundle = await rolldown({
    input: Object.fromEntries(Object.entries(ENTRIES).map(([name, file]) => [name, join(ROOT, file)])),
    platform: 'node',
    tsconfig: join(ROOT, 'tsconfig.json'),
    external: (id) => !/^[./]|^@brimline\/|^@oxc-project\/runtime/.test(id),
    logLevel: 'warn',
  });
  await bundle.write({
    dir: join(fresh, 'node'),
    format: 'esm',
    sourcemap: true,
    entryFileNames: '[name].js',
  });
  const { build: buildPages } = await import('vite');
  await buildPages({
    configFile: join(ROOT, 'apps/web/vite.config.ts'),
    logLevel: 'warn',
    build: { outDir: join(fresh, 'web'), emptyOutDir: true },
  });
  const old = join(ROOT, `.cache/old-${process.pid}`);
  if (existsSync(join(ROOT, 'dist'))) renameSync(join(ROOT, 'dist'), old);
  renameSync(fresh, join(ROOT, 'dist'));
  rmSync(old, { recursive: true, force: true });
  writeStamp('build', wanted);
}

function onPath(...names) {
  for (const folder of (process.env.PATH ?? '').split(delimiter)) {
    for (const name of names) {
      const file = join(folder, name);
      if (existsSync(file) && statSync(file).isFile()) return file;
    }
  }
  return null;
}

function aptInstall(what, ...names) {
  if (process.getuid?.() !== 0 || !onPath('apt-get')) return;
  say(`Installing ${what} …`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  run('apt-get', ['update', '-q'], { env });
  run('apt-get', ['install', '-q', '-y', '--no-install-recommends', ...names], { env });
}

/** The browser that the tests drive; null when SKIP_BROWSER=1. */
export function browser() {
  if (process.env.SKIP_BROWSER === '1') return null;
  const find = () => process.env.CHROMIUM_PATH ?? onPath('chromium', 'chromium-browser', 'google-chrome');
  if (!find()) aptInstall('a browser for the tests', 'chromium', 'fonts-liberation');
  return (
    find() ??
    stop(
      'No Chromium found. Install it, or set CHROMIUM_PATH, or SKIP_BROWSER=1 to leave the browser tests out.',
    )
  );
}

/** The spreadsheet program that recalculates the workbooks in the tests; null when SKIP_OFFICE=1. */
export function office() {
  if (process.env.SKIP_OFFICE === '1') return null;
  const find = () => process.env.SOFFICE_PATH ?? onPath('soffice', 'libreoffice');
  if (!find()) aptInstall('a spreadsheet program for the tests', 'libreoffice-calc-nogui');
  return (
    find() ??
    stop(
      'No LibreOffice found. Install it, or set SOFFICE_PATH, or SKIP_OFFICE=1 to leave the recalculation test out.',
    )
  );
}

export const binary = (name) => join(ROOT, 'node_modules', '.bin', name);
export const here = dirname(fileURLToPath(import.meta.url));
