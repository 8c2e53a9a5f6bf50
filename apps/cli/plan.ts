import { mkdir, readdir, readFile, rename, stat, writeFile } from 'node:fs/promises';
import { basename, dirname, join, relative, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { formatProblem, readFirm, type SourceFile } from '@brimline/contracts';
import {
  planFirm,
  type PlanProgress,
  type Refusal,
  refrigerantNames,
  type WeekPlan,
} from '@brimline/planning';
import { offerWorkbook, quoteWorkbook, timelineWorkbook } from '@brimline/workbooks';
import { explainText } from './explain.ts';
import { summaryText } from './summary.ts';

const USAGE = 'plan -- FILE|FOLDER... --out DIR [--seed N] [--json] [--explain JOB|all]';

/** The main job without a server: files in; quotes, timeline and plan.json out; explains jobs on request. 0 planned, 2 bad input, 3 nothing feasible. */
export async function main(args: readonly string[]): Promise<number> {
  const options = optionsOf(args);
  if (typeof options === 'string') return fail(options, 2);
  const sources = await readSources(options.places);
  if (typeof sources === 'string') return fail(sources, 2);
  const firm = readFirm(sources, { refrigerants: refrigerantNames() });
  if (!firm.ok) return fail(firm.problems.map(formatProblem).join('\n'), 2);
  const stranger = unknownJob(options.explain, firm.value.jobs);
  if (stranger !== null) return fail(stranger, 2);
  const outcome = planFirm(firm.value, { seed: options.seed, onProgress: showProgress });
  clearProgress();
  if (outcome.kind === 'nothing feasible') {
    if (options.json) process.stdout.write(`${JSON.stringify({ jobs: [], refused: outcome.refused })}\n`);
    return fail(outcome.refused.map(refusalLine).join('\n'), 3);
  }
  await writeResults(options.out, outcome.plan);
  process.stdout.write(printed(options, outcome.plan));
  return 0;
}

function unknownJob(explain: string | null, jobs: readonly { readonly id: string }[]): string | null {
  const ids = jobs.map(({ id }) => id);
  if (explain === null || explain === 'all' || ids.includes(explain)) return null;
  return `(arguments): --explain: ${explain} is not allowed; expected all or one of: ${ids.join(', ')}`;
}

/** The summary, or JSON, or everything that is known of one job or of each. */
function printed({ json, explain, out }: Options, plan: WeekPlan): string {
  if (json) return `${JSON.stringify(plan)}\n`;
  if (explain === null) return summaryText(plan, out);
  const isMeant = ({ id }: { readonly id: string }): boolean => explain === 'all' || explain === id;
  const texts = [
    ...plan.jobs.filter(isMeant).map((job) => explainText(job, plan.jobs)),
    ...plan.refused.filter(isMeant).map((refused) => `${refusalLine(refused)}\n`),
  ];
  return texts.join('\n');
}

function fail(message: string, code: number): number {
  process.stderr.write(`${message}\n`);
  return code;
}

const refusalLine = ({ id, reasons }: Refusal): string =>
  reasons.map(({ code, path, message }) => `${id}: ${code} (${path}): ${message}`).join('\n');

interface Options {
  readonly places: readonly string[];
  readonly out: string;
  readonly seed: number;
  readonly json: boolean;
  /** A job to explain, or "all"; null: only the summary. */
  readonly explain: string | null;
}

function optionsOf(args: readonly string[]): Options | string {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        out: { type: 'string' },
        seed: { type: 'string', default: '1' },
        json: { type: 'boolean', default: false },
        explain: { type: 'string' },
      },
    });
    const seed = Number(values.seed);
    if (positionals.length === 0)
      return `(arguments): FILE|FOLDER: nothing is not allowed; expected ${USAGE}`;
    if (values.out === undefined)
      return `(arguments): --out: nothing is not allowed; expected a folder, ${USAGE}`;
    if (!Number.isInteger(seed) || seed < 0)
      return `(arguments): --seed: ${values.seed} is not allowed; expected a whole number from 0`;
    return { places: positionals, out: values.out, seed, json: values.json, explain: values.explain ?? null };
  } catch (error) {
    return `(arguments): ${error instanceof Error ? error.message : String(error)}; expected ${USAGE}`;
  }
}

/** JSON files of the places; a job file alone takes the registers from its own folder or the nearest above. */
async function readSources(places: readonly string[]): Promise<SourceFile[] | string> {
  const files = new Set<string>();
  for (const place of places) {
    const facts = await stat(place).catch(() => null);
    if (!facts) return `${place}: (file): nothing is not allowed; expected a file or folder that exists`;
    if (facts.isDirectory()) for (const file of await jsonBelow(resolve(place))) files.add(file);
    else {
      files.add(resolve(place));
      for (const file of await registersNear(dirname(resolve(place)))) files.add(file);
    }
  }
  const names = [...files].toSorted();
  return Promise.all(
    names.map(async (file) => ({ name: relative('', file), text: await readFile(file, 'utf8') })),
  );
}

async function jsonBelow(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { withFileTypes: true });
  const found = await Promise.all(
    entries.map(async (entry) => {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) return entry.name === 'schema' ? [] : jsonBelow(path);
      return entry.name.endsWith('.json') ? [path] : [];
    }),
  );
  return found.flat();
}

async function registersNear(folder: string): Promise<string[]> {
  const names = await readdir(folder);
  if (names.includes('firm.json'))
    return names.filter((name) => name.endsWith('.json')).map((name) => join(folder, name));
  const above = dirname(folder);
  return above === folder ? [] : registersNear(above);
}

async function writeResults(out: string, plan: WeekPlan): Promise<void> {
  await mkdir(out, { recursive: true });
  const files: [string, string | Uint8Array][] = [['plan.json', `${JSON.stringify(plan, null, 2)}\n`]];
  for (const job of plan.jobs) {
    files.push(
      [`quote-${job.id}.xlsx`, await quoteWorkbook(job, plan)],
      [`offer-${job.id}.xlsx`, await offerWorkbook(job, plan)],
    );
  }
  files.push(['timeline.xlsx', await timelineWorkbook(plan)]);
  for (const [name, content] of files) {
    const draft = join(out, `.${basename(name)}.part`);
    await writeFile(draft, content);
    await rename(draft, join(out, name));
  }
}

function showProgress({ stage, done, of }: PlanProgress): void {
  if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${stage} ${done} of ${of}`);
}

function clearProgress(): void {
  if (process.stderr.isTTY) process.stderr.write('\r\u001b[K');
}
