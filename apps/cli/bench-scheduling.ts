import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { extname, join } from 'node:path';
import { parseArgs } from 'node:util';
import {
  type BenchmarkInstance,
  checkPlan,
  criticalPath,
  parseProgenMax,
  parsePsplib,
  type Plan,
  solve,
} from '@brimline/scheduling';

const USAGE =
  'bench:scheduling -- --dir DIR --schedules N --seed S [--seconds T] [--threads K] [--json] [--solutions OUT]';
const READERS: Readonly<Record<string, (text: string) => BenchmarkInstance>> = {
  '.sm': parsePsplib,
  '.mm': parsePsplib,
  '.sch': parseProgenMax,
};

/** Runs every instance of a folder through the engine that plans the jobs; each plan passes the independent check. */
export async function main(args: readonly string[]): Promise<number> {
  const options = optionsOf(args);
  if (typeof options === 'string') {
    process.stderr.write(`${options}\n`);
    return 2;
  }
  const names = (await readdir(options.dir)).filter((name) => extname(name) in READERS).toSorted();
  for (const name of names) {
    const instance = READERS[extname(name)]!(await readFile(join(options.dir, name), 'utf8'));
    const line = run(name, instance, options);
    process.stdout.write(options.json ? `${JSON.stringify(line.facts)}\n` : `${textOf(line.facts)}\n`);
    if (options.solutions !== null && line.plan) {
      await mkdir(options.solutions, { recursive: true });
      await writeFile(
        join(options.solutions, `${name}.json`),
        JSON.stringify(solutionOf(instance, line.plan)),
      );
    }
  }
  return 0;
}

interface Options {
  readonly dir: string;
  readonly schedules: number;
  readonly seed: number;
  readonly seconds: number | null;
  readonly json: boolean;
  readonly solutions: string | null;
}

function optionsOf(args: readonly string[]): Options | string {
  const text = { type: 'string' } as const;
  const { values } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      dir: text,
      schedules: text,
      seed: text,
      seconds: text,
      threads: text,
      solutions: text,
      json: { type: 'boolean' },
    },
  });
  const whole = (name: 'schedules' | 'seed' | 'threads', fallback: number): number =>
    Number(values[name] ?? fallback);
  const numbers = {
    schedules: whole('schedules', 1000),
    seed: whole('seed', 1),
    threads: whole('threads', 1),
  };
  const wrong = Object.entries(numbers).find(([, value]) => !Number.isInteger(value) || value < 0);
  if (values.dir === undefined) return `--dir: nothing is not allowed; expected a folder, ${USAGE}`;
  if (wrong) return `--${wrong[0]}: ${wrong[1]} is not allowed; expected a whole number, ${USAGE}`;
  if (numbers.threads > 1) process.stderr.write('More than one thread is not made use of yet: one runs.\n');
  return {
    dir: values.dir,
    schedules: numbers.schedules,
    seed: numbers.seed,
    seconds: values.seconds === undefined ? null : Number(values.seconds),
    json: values.json ?? false,
    solutions: values.solutions ?? null,
  };
}

interface Facts {
  readonly instance: string;
  readonly makespan: number | null;
  readonly criticalPath: number;
  readonly lowerBound: number;
  readonly schedules: number;
  readonly seconds: number;
}

function run(
  name: string,
  { problem }: BenchmarkInstance,
  options: Options,
): { facts: Facts; plan: Plan | null } {
  const start_ms = performance.now();
  const elapsed_s = (): number => (performance.now() - start_ms) / 1000;
  const { plan, unplaced } = solve(problem, {
    seed: options.seed,
    schedules: options.schedules,
    shouldStop: () => options.seconds !== null && elapsed_s() > options.seconds,
  });
  const [violation] = checkPlan(problem, plan);
  if (violation) throw new Error(`${name}: the plan breaks a constraint: ${JSON.stringify(violation)}`);
  const isWhole = unplaced.length === 0;
  const facts = {
    instance: name,
    makespan: isWhole ? plan.objective.makespan_min : null,
    criticalPath: criticalPath(problem),
    lowerBound: plan.lowerBound_min,
    schedules: plan.schedules,
    seconds: Number(elapsed_s().toFixed(3)),
  };
  return { facts, plan: isWhole ? plan : null };
}

function textOf(facts: Facts): string {
  const makespan = facts.makespan === null ? 'none found' : String(facts.makespan);
  return `${facts.instance.padEnd(20)} makespan ${makespan.padStart(10)}  critical path ${facts.criticalPath}  lower bound ${facts.lowerBound}  schedules ${facts.schedules}  ${facts.seconds} s`;
}

/** Activities in the order of the file, dummies included; modes from 1. */
function solutionOf({ activityIds }: BenchmarkInstance, plan: Plan): object {
  const bookings = new Map(plan.bookings.map((booking) => [booking.activityId, booking]));
  return {
    makespan: plan.objective.makespan_min,
    starts: activityIds.map((id) => bookings.get(id)!.start_min),
    modes: activityIds.map((id) => bookings.get(id)!.mode + 1),
  };
}
