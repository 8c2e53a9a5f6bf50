import { describe, expect, it } from 'vitest';
import { problemText } from './ask.ts';
import { type CalculationFacts, choicesOf, exampleTexts, readInput } from './calculations.ts';

const FACTS: CalculationFacts = {
  name: 'hose',
  title: 'Hose',
  formula: 'f',
  source: 's',
  fields: [
    { name: 'length_m', type: 'number', unit: 'm', meaning: 'length' },
    { name: 'gas', type: 'string', unit: '-', meaning: 'gas', allowed: 'air, N2, R-134a' },
    { name: 'path', type: 'list', unit: '-', meaning: 'pieces', optional: true },
    { name: 'wet', type: 'boolean', unit: '-', meaning: 'is it wet', optional: true },
  ],
  results: [],
  example: { length_m: 3, gas: 'air', path: [{ bore_m: 0.01 }] },
};

describe('a form made from fields', () => {
  it('reads back the example that it shows', () => {
    expect(readInput(FACTS, exampleTexts(FACTS))).toEqual({ ok: true, input: FACTS.example });
  });

  it('names the field that is missing, no number, or no JSON', () => {
    const texts = exampleTexts(FACTS);
    expect(readInput(FACTS, { ...texts, length_m: '' })).toMatchObject({ ok: false, field: 'length_m' });
    expect(readInput(FACTS, { ...texts, length_m: 'three' })).toMatchObject({ ok: false, field: 'length_m' });
    expect(readInput(FACTS, { ...texts, path: '[{' })).toMatchObject({ ok: false, field: 'path' });
  });

  it('reads thousands and yes or no', () => {
    const read = readInput(FACTS, { length_m: '1,200', gas: 'N2', wet: 'false' });
    expect(read).toEqual({ ok: true, input: { length_m: 1200, gas: 'N2', wet: false } });
  });

  it('offers a choice where the values allowed are a list', () => {
    expect(choicesOf(FACTS.fields[1]!)).toEqual(['air', 'N2', 'R-134a']);
    expect(choicesOf({ ...FACTS.fields[1]!, allowed: 'any text, but not an empty one at all' })).toEqual([]);
    expect(choicesOf(FACTS.fields[0]!)).toEqual([]);
  });
});

describe('a problem in words', () => {
  it('is its detail with every field that it lists', () => {
    const problem = { title: 'bad request', detail: 'No.', errors: [{ field: 'a', message: 'expected a number' }] };
    expect(problemText(problem)).toBe('No. a: expected a number.');
  });

  it('is nothing where the body says nothing', () => {
    expect(problemText(null)).toBeNull();
    expect(problemText({ status: 500 })).toBeNull();
  });
});
