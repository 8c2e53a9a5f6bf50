import { CalculationInputError, type CalculationField, numberField, textField } from '@brimline/quantities';
import { refrigerantNames } from '@brimline/refrigerants';
import { isDay } from './calendar-day.ts';

type Input = Readonly<Record<string, unknown>>;

export const REFRIGERANT: CalculationField = {
  name: 'refrigerant',
  type: 'string',
  unit: '-',
  meaning: 'ASHRAE number',
  allowed: refrigerantNames().join(', '),
};

/** What every cited answer gives besides its numbers. */
export const CITED_RESULTS: readonly CalculationField[] = [
  { name: 'citation', type: 'string', unit: '-', meaning: 'where the rule stands' },
  { name: 'trueOn', type: 'date', unit: '-', meaning: 'latest day for which the text is known to have held' },
  { name: 'notes', type: 'list', unit: '-', meaning: 'conditions and doubts' },
];

export function quantity(name: string, unit: string, meaning: string): CalculationField {
  return { name, type: 'number', unit, meaning };
}

export function day(name: string, meaning: string): CalculationField {
  return { name, type: 'date', unit: '-', meaning, allowed: 'yyyy-MM-dd' };
}

export function yesOrNo(name: string, meaning: string): CalculationField {
  return { name, type: 'boolean', unit: '-', meaning };
}

export function text(name: string, meaning: string): CalculationField {
  return { name, type: 'string', unit: '-', meaning };
}

export function choice(name: string, choices: readonly string[], meaning: string): CalculationField {
  return { name, type: 'string', unit: '-', meaning, allowed: choices.join(', ') };
}

export function optional(field: CalculationField): CalculationField {
  return { ...field, optional: true };
}

/** @throws CalculationInputError unless the field is a calendar day */
export function dayField(input: Input, field: string): string {
  const value = textField(input, field);
  if (!isDay(value)) throw new CalculationInputError(field, value, 'a calendar day, yyyy-MM-dd');
  return value;
}

/** @throws CalculationInputError unless the field is a finite number above zero */
export function positiveField(input: Input, field: string): number {
  const value = numberField(input, field);
  if (value <= 0) throw new CalculationInputError(field, value, 'a number above 0');
  return value;
}

/** @throws CalculationInputError unless the field is a finite number, zero or above */
export function notNegativeField(input: Input, field: string): number {
  const value = numberField(input, field);
  if (value < 0) throw new CalculationInputError(field, value, 'a number, 0 or above');
  return value;
}

/** The number under its own name, or nothing when the field is absent: for optional properties. */
export function numberIfGiven<Name extends string>(
  input: Input,
  field: Name,
): { readonly [Key in Name]?: number } {
  if (input[field] === undefined) return {};
  return { [field]: positiveField(input, field) } as { readonly [Key in Name]?: number };
}
