import type { Firm, Job } from '@brimline/firm';
import { refusal, type Result, success } from '@brimline/quantities';
import { z } from 'zod';
import { crossChecks } from './cross-checks.ts';
import { type FileProblem, shownValue } from './file-problem.ts';
import { jobFile, jobOf } from './job-file.ts';
import { problemsOfIssues } from './problems-of-issues.ts';
import { rateCardFile } from './rate-card-file.ts';
import { crewFile, cylindersFile, firmFile, gearFile, sitesFile } from './register-files.ts';

export interface SourceFile {
  readonly name: string;
  readonly text: string;
}

/** Register files come once each; job files as many as there are jobs. */
const REGISTERS = {
  firm: firmFile,
  sites: sitesFile,
  gear: gearFile,
  cylinders: cylindersFile,
  crew: crewFile,
  'rate card': rateCardFile,
} as const;
type RegisterKind = keyof typeof REGISTERS;
const KINDS = [...Object.keys(REGISTERS), 'job'] as const;

/** The published schemas, by file name without its ending. */
export const FILE_SCHEMAS = {
  firm: firmFile,
  sites: sitesFile,
  gear: gearFile,
  cylinders: cylindersFile,
  crew: crewFile,
  'rate-card': rateCardFile,
  job: jobFile,
} as const;

/** JSON Schemas (draft 2020-12) of the input files, made from the same schemas that check them. */
export function jsonSchemas(): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(FILE_SCHEMAS).map(([name, schema]) => [
      `${name}.schema.json`,
      z.toJSONSchema(schema, { io: 'input', target: 'draft-2020-12' }),
    ]),
  );
}

class Reading {
  readonly problems: FileProblem[] = [];
  readonly jobs: { readonly job: Job; readonly file: string }[] = [];
  private readonly registers = new Map<RegisterKind, { readonly file: string; readonly value: unknown }>();

  read({ name, text }: SourceFile): void {
    const parsed = parseJson(text);
    if (!parsed.ok) {
      this.problems.push({ file: name, field: '', value: parsed.problems[0]!, allowed: 'JSON' });
      return;
    }
    const kind = kindOf(parsed.value);
    if (kind === 'job') this.readJob(name, parsed.value);
    else if (kind !== null && kind in REGISTERS) this.readRegister(kind as RegisterKind, name, parsed.value);
    else {
      const value = shownValue(kind ?? undefined);
      this.problems.push({ file: name, field: 'kind', value, allowed: `one of: ${KINDS.join(', ')}` });
    }
  }

  register<Kind extends RegisterKind>(
    kind: Kind,
  ): { file: string; value: z.output<(typeof REGISTERS)[Kind]> } | null {
    return (this.registers.get(kind) as { file: string; value: z.output<(typeof REGISTERS)[Kind]> }) ?? null;
  }

  reportMissing(): void {
    for (const kind of Object.keys(REGISTERS) as RegisterKind[]) {
      if (!this.registers.has(kind)) {
        this.problems.push({
          file: '(no file)',
          field: 'kind',
          value: 'nothing',
          allowed: `a file of kind "${kind}"`,
        });
      }
    }
    if (this.jobs.length === 0) {
      this.problems.push({
        file: '(no file)',
        field: 'kind',
        value: 'nothing',
        allowed: 'at least one file of kind "job"',
      });
    }
  }

  private readJob(name: string, value: unknown): void {
    const result = jobFile.safeParse(value);
    if (!result.success) {
      this.problems.push(...problemsOfIssues(name, value, result.error.issues));
      return;
    }
    const job = jobOf(result.data);
    const twin = this.jobs.find((other) => other.job.id === job.id);
    if (twin) {
      const allowed = `a number that no other job has; ${twin.file} has it too`;
      this.problems.push({ file: name, field: 'id', value: shownValue(job.id), allowed });
      return;
    }
    this.jobs.push({ job, file: name });
  }

  private readRegister(kind: RegisterKind, name: string, value: unknown): void {
    const twin = this.registers.get(kind);
    if (twin) {
      const allowed = `one file of this kind; ${twin.file} is one already`;
      this.problems.push({ file: name, field: 'kind', value: shownValue(kind), allowed });
      return;
    }
    const result = REGISTERS[kind].safeParse(value);
    if (result.success) this.registers.set(kind, { file: name, value: result.data });
    else {
      this.registers.set(kind, { file: name, value: null });
      this.problems.push(...problemsOfIssues(name, value, result.error.issues));
    }
  }
}

function parseJson(text: string): Result<unknown, string> {
  try {
    return success(JSON.parse(text) as unknown);
  } catch (error) {
    return refusal(error instanceof Error ? error.message : String(error));
  }
}

function kindOf(value: unknown): string | null {
  if (typeof value !== 'object' || value === null || !('kind' in value)) return null;
  return typeof value.kind === 'string' ? value.kind : null;
}

/**
 * Reads a firm and its jobs from files, in SI. Reports everything that is wrong in every file at once; when anything
 * is, nothing is read.
 *
 * @param context.refrigerants names that the property tables hold
 */
export function readFirm(
  files: readonly SourceFile[],
  context: { readonly refrigerants: readonly string[] },
): Result<Firm, FileProblem> {
  const reading = new Reading();
  for (const file of files) reading.read(file);
  if (reading.problems.length === 0) reading.reportMissing();
  const read = assemble(reading);
  if (read === null || reading.problems.length > 0) return refusal(...reading.problems);
  const problems = crossChecks(read.firm, read.origins, context.refrigerants);
  return problems.length > 0 ? refusal(...problems) : success(read.firm);
}

function assemble(reading: Reading): { firm: Firm; origins: Parameters<typeof crossChecks>[1] } | null {
  const [facts, sites, gear] = [
    reading.register('firm'),
    reading.register('sites'),
    reading.register('gear'),
  ];
  const [cylinders, crew, card] = [
    reading.register('cylinders'),
    reading.register('crew'),
    reading.register('rate card'),
  ];
  if (!facts?.value || !sites?.value || !gear?.value || !cylinders?.value || !crew?.value || !card?.value)
    return null;
  const { name, notice, planFrom, planDays, bases } = facts.value;
  const firm: Firm = {
    name,
    notice,
    planFrom,
    planDays,
    bases,
    sites: sites.value.sites.map(({ chillers: _chillers, ...site }) => site),
    chillers: sites.value.sites.flatMap(({ id, chillers }) =>
      chillers.map((one) => ({ ...one, siteId: id })),
    ),
    gear: gear.value.gear,
    cylinders: cylinders.value.cylinders,
    people: crew.value.people,
    rateCard: card.value,
    jobs: reading.jobs.map(({ job }) => job),
  };
  const origins = {
    firm: facts.file,
    sites: sites.file,
    gear: gear.file,
    cylinders: cylinders.file,
    crew: crew.file,
    rateCard: card.file,
    jobs: new Map(reading.jobs.map(({ job, file }) => [job.id, file])),
  };
  return { firm, origins };
}
