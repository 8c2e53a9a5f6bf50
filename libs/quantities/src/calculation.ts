import type { OutOfDomainError } from './errors.ts';

/**
 * A named engineering calculation that can be listed, documented and called with plain JSON.
 * Engines describe theirs with this; the command line, the API and the calculators page show the same list.
 */
export interface CalculationField {
  /** Carries its unit, e.g. "charge_kg". */
  readonly name: string;
  readonly type: 'number' | 'string' | 'boolean' | 'date' | 'list' | 'object';
  /** SI unit, or "-" for a pure number or text. */
  readonly unit: string;
  readonly meaning: string;
  /** Values allowed, in words or as a list. */
  readonly allowed?: string;
  readonly optional?: boolean;
}

export interface Calculation {
  readonly name: string;
  readonly title: string;
  readonly formula: string;
  readonly source: string;
  readonly fields: readonly CalculationField[];
  readonly results: readonly CalculationField[];
  /** An input that works, for documentation and tests. */
  readonly example: Readonly<Record<string, unknown>>;
  /**
   * @throws CalculationInputError for a field that is missing, mistyped or not allowed
   * @throws OutOfDomainError when the numbers lie outside the formula's range
   */
  run(input: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>>;
}

/**
 * The field of an input that holds the value which an engine refused, such as "path.0.length_m"; of several the one in
 * the unit that the engine names. The engine's own name for it where that leaves none or several.
 */
export function fieldAtFault(input: unknown, { quantity, value }: OutOfDomainError): string {
  const holding = fieldsHolding(input, value, '');
  const unit = /\[(\S+?)[ \]]/.exec(quantity)?.[1]?.replaceAll('/', '_');
  const found = holding.length > 1 ? holding.filter((path) => path.endsWith(`_${unit}`)) : holding;
  return found.length === 1 ? found[0]! : quantity;
}

function fieldsHolding(input: unknown, value: unknown, path: string): string[] {
  if (typeof input !== 'object' || input === null) return input === value ? [path] : [];
  return Object.entries(input).flatMap(([key, one]) =>
    fieldsHolding(one, value, path === '' ? key : `${path}.${key}`),
  );
}

export class CalculationInputError extends Error {
  constructor(
    readonly field: string,
    readonly value: unknown,
    readonly allowed: string,
  ) {
    super(`${field}: ${JSON.stringify(value) ?? 'missing'} is not allowed; expected ${allowed}`);
    this.name = 'CalculationInputError';
  }
}

type Input = Readonly<Record<string, unknown>>;

/** Numbers further from 1 than this are slips of the pen, and would overflow in powers. */
const LARGEST = 1e12;

/** @throws CalculationInputError unless the field is 0 or a number whose size is between 1e-12 and 1e12 */
export function numberField(input: Input, field: string): number {
  const value = input[field];
  if (typeof value !== 'number' || !Number.isFinite(value)) {
    throw new CalculationInputError(field, value, 'a finite number');
  }
  const size = Math.abs(value);
  if (size > LARGEST || (size !== 0 && size < 1 / LARGEST)) {
    throw new CalculationInputError(field, value, '0, or a number between 1e-12 and 1e12 in size');
  }
  return value;
}

/** The number, or the given default when the field is absent. */
export function optionalNumberField(input: Input, field: string, whenAbsent: number): number {
  return input[field] === undefined ? whenAbsent : numberField(input, field);
}

/** @throws CalculationInputError unless the field is text */
export function textField(input: Input, field: string): string {
  const value = input[field];
  if (typeof value !== 'string' || value === '') throw new CalculationInputError(field, value, 'text');
  return value;
}

/** @throws CalculationInputError unless the field is one of the choices */
export function choiceField<Choice extends string>(
  input: Input,
  field: string,
  choices: readonly Choice[],
): Choice {
  const value = input[field];
  const found = choices.find((choice) => choice === value);
  if (found === undefined) throw new CalculationInputError(field, value, `one of: ${choices.join(', ')}`);
  return found;
}

/** @throws CalculationInputError unless the field is true or false; absent means the given default */
export function booleanField(input: Input, field: string, whenAbsent: boolean): boolean {
  const value = input[field];
  if (value === undefined) return whenAbsent;
  if (typeof value !== 'boolean') throw new CalculationInputError(field, value, 'true or false');
  return value;
}

/** @throws CalculationInputError unless the field is a list of objects */
export function objectListField(input: Input, field: string): readonly Input[] {
  const value = input[field];
  if (!Array.isArray(value) || value.some((item) => typeof item !== 'object' || item === null)) {
    throw new CalculationInputError(field, value, 'a list of objects');
  }
  return value as readonly Input[];
}
