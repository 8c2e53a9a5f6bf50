import { createInterface } from 'node:readline';
import { calculations } from '@brimline/planning';
import {
  type Calculation,
  CalculationInputError,
  fieldAtFault,
  OutOfDomainError,
} from '@brimline/quantities';

/** Lists the calculations, or runs one over JSON lines: one answer a line, an error for a bad one, and on it goes. */
export async function main(args: readonly string[]): Promise<number> {
  if (args.includes('--list')) {
    process.stdout.write(args.includes('--json') ? `${JSON.stringify(calculations)}\n` : listText());
    return 0;
  }
  const [name] = args;
  const found = calculations.find((one) => one.name === name);
  if (!found) {
    process.stderr.write(
      `${name ?? 'nothing'} is not a calculation; one of: ${calculations.map((one) => one.name).join(', ')}\n`,
    );
    return 2;
  }
  for await (const line of createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY })) {
    if (line.trim() !== '') process.stdout.write(`${JSON.stringify(answer(found, line))}\n`);
  }
  return 0;
}

/** The answer to one line, or what is wrong with it. */
export function answer(calculation: Calculation, line: string): object {
  let input: unknown;
  try {
    input = JSON.parse(line);
    if (typeof input !== 'object' || input === null || Array.isArray(input)) {
      throw new CalculationInputError('(line)', input, 'a JSON object');
    }
    return calculation.run(input as Record<string, unknown>);
  } catch (error) {
    return { error: errorOf(error, input) };
  }
}

function errorOf(error: unknown, input: unknown): object {
  if (error instanceof CalculationInputError) {
    return { field: error.field, value: error.value ?? null, allowed: error.allowed, message: error.message };
  }
  if (error instanceof OutOfDomainError) {
    const field = fieldAtFault(input, error);
    return { field, value: error.value, allowed: error.allowed, message: error.message };
  }
  if (error instanceof SyntaxError)
    return { field: '(line)', value: null, allowed: 'JSON', message: error.message };
  throw error;
}

function listText(): string {
  return calculations
    .map(({ name, title, formula, source, fields, results }) => {
      const line = (field: Calculation['fields'][number]): string =>
        `    ${field.name} [${field.unit}]${field.optional ? ', optional' : ''}: ${field.meaning}${field.allowed ? ` (${field.allowed})` : ''}`;
      return [
        `${name}: ${title}`,
        `  ${formula}`,
        `  source: ${source}`,
        '  in',
        ...fields.map(line),
        '  out',
        ...results.map(line),
        '',
      ].join('\n');
    })
    .join('\n');
}
