import type { Calculation, CalculationField } from '@brimline/quantities';
import { words } from '../words.ts';

/** A calculation as the server lists it. */
export type CalculationFacts = Omit<Calculation, 'run'>;

export type FieldTexts = Readonly<Record<string, string>>;

/** What the form holds at first: the example, as text. */
export function exampleTexts({ fields, example }: CalculationFacts): FieldTexts {
  return Object.fromEntries(fields.map((field) => [field.name, textOf(field, example[field.name])]));
}

function textOf({ type }: CalculationField, value: unknown): string {
  if (value === undefined || value === null) return '';
  if (type === 'list' || type === 'object') return JSON.stringify(value, null, 1);
  return typeof value === 'string' ? value : JSON.stringify(value);
}

export type ReadInput =
  | { readonly ok: true; readonly input: Readonly<Record<string, unknown>> }
  | { readonly ok: false; readonly field: string; readonly message: string };

/** The form's texts as the calculation's input; empty optional fields are left out. */
export function readInput({ fields }: CalculationFacts, texts: FieldTexts): ReadInput {
  const input: Record<string, unknown> = {};
  for (const field of fields) {
    const text = (texts[field.name] ?? '').trim();
    if (text === '') {
      if (field.optional) continue;
      return { ok: false, field: field.name, message: words.calculators.missing(field.name) };
    }
    const read = readField(field, text);
    if (!read.ok) return { ok: false, field: field.name, message: read.message };
    input[field.name] = read.value;
  }
  return { ok: true, input };
}

type ReadField =
  { readonly ok: true; readonly value: unknown } | { readonly ok: false; readonly message: string };

function readField({ name, type }: CalculationField, text: string): ReadField {
  if (type === 'number') {
    const value = Number(text.replaceAll(',', ''));
    return Number.isFinite(value) ? { ok: true, value } : { ok: false, message: words.calculators.notNumber(name) };
  }
  if (type === 'boolean') return { ok: true, value: text === 'true' };
  if (type !== 'list' && type !== 'object') return { ok: true, value: text };
  try {
    return { ok: true, value: JSON.parse(text) as unknown };
  } catch {
    return { ok: false, message: words.calculators.notJson(name) };
  }
}

/** Values allowed as a list to choose from, where the field's text is one: short words between commas. */
export function choicesOf({ type, allowed }: CalculationField): readonly string[] {
  if (type !== 'string' || allowed === undefined) return [];
  const parts = allowed
    .replace(/^one of:\s*/, '')
    .split(/\s*,\s*/)
    .map((part) => part.replace(/^["']|["']$/g, ''));
  return parts.length > 1 && parts.every((part) => /^[\w().+-]+( [\w().+-]+){0,2}$/.test(part)) ? parts : [];
}
