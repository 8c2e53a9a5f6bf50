import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { binary, browser, build, node, office, packages, ROOT, stop } from './ensure.mjs';

/** Everything that must hold: format, lint, types, build, and every test. --fast leaves out the slow ones. */
const isFast = process.argv.includes('--fast');
node();
packages();

function step(title, command, args) {
  process.stdout.write(`${title} …\n`);
  if (spawnSync(command, args, { cwd: ROOT, stdio: ['ignore', 'inherit', 'inherit'] }).status !== 0)
    stop(`${title}: failed.`);
}

step('format', binary('prettier'), ['--check', '--log-level', 'warn', '.']);
step('lint', binary('oxlint'), ['--deny-warnings', '.']);
if (!isFast) step('types', binary('tsc'), ['-p', '.']);
await build();
const env = { ...process.env, BRIMLINE_FAST: isFast ? '1' : '' };
if (!isFast) {
  const chromium = browser();
  const soffice = office();
  if (chromium) env.CHROMIUM_PATH = chromium;
  if (soffice) env.SOFFICE_PATH = soffice;
}
const report = join(ROOT, '.cache', `report-${process.pid}.json`);
mkdirSync(join(ROOT, '.cache'), { recursive: true });
const slow = ['tests/browser/**', 'tests/e2e/**', 'tests/workbooks/**'].flatMap((glob) => [
  '--exclude',
  glob,
]);
const args = [
  'run',
  '--config',
  'tests/vitest.config.ts',
  '--reporter=default',
  '--reporter=json',
  `--outputFile.json=${report}`,
];
const tests = spawnSync(binary('vitest'), isFast ? [...args, ...slow] : args, {
  cwd: ROOT,
  env,
  stdio: ['ignore', 'inherit', 'inherit'],
});
if (!existsSync(report)) stop('The tests left no report.');
const { numPassedTests, numFailedTests, numPendingTests, success } = JSON.parse(readFileSync(report, 'utf8'));
rmSync(report);
process.stdout.write(`${numPassedTests} passed, ${numFailedTests} failed, ${numPendingTests} skipped\n`);
process.exitCode = tests.status === 0 && success && numPassedTests > 0 ? 0 : 1;
