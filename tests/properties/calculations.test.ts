import { calculations } from '@brimline/planning';
import {
  type Calculation,
  CalculationInputError,
  fieldAtFault,
  OutOfDomainError,
} from '@brimline/quantities';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

/** Numbers in an answer that are not finite, with their names; a result that may be without bound is null instead. */
function unfit(answer: unknown, name = ''): string[] {
  if (typeof answer === 'number') return Number.isFinite(answer) ? [] : [name];
  if (Array.isArray(answer)) return answer.flatMap((one, index) => unfit(one, `${name}.${index}`));
  if (typeof answer !== 'object' || answer === null) return [];
  return Object.entries(answer).flatMap(([key, value]) => unfit(value, `${name}.${key}`));
}

const junk = fc.oneof(
  fc.double(),
  fc.double({ min: -1e3, max: 1e6, noNaN: true }),
  fc.constantFrom(0, -1, 1, 1e-9, 1e9, 300, null, undefined, '', 'R-134a', 'R-407C', true, [], {}, [{}]),
  fc.string(),
);

/** The example with one to three of its fields put out of joint. */
function disturbed({ fields, example }: Calculation) {
  const change = fc.tuple(fc.constantFrom(...fields.map(({ name }) => name)), junk);
  const scale = fc
    .tuple(fc.constantFrom(...fields.map(({ name }) => name)), fc.double({ min: 0.1, max: 10, noNaN: true }))
    .map(([name, factor]): [string, unknown] => {
      const value = example[name];
      return [name, typeof value === 'number' ? value * factor : value];
    });
  return fc
    .array(fc.oneof(change, scale), { minLength: 1, maxLength: 3 })
    .map((changes) => ({ ...example, ...Object.fromEntries(changes) }));
}

describe('the calculations', () => {
  it('have names of their own', () => {
    const names = calculations.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
  });

  it.each(calculations.map((one) => [one.name, one] as const))(
    '%s answers its example with what it declares, and nothing else',
    (_name, calculation) => {
      const answer = calculation.run(calculation.example);
      const declared = calculation.results.map(({ name }) => name);
      const needed = calculation.results.filter(({ optional }) => !optional).map(({ name }) => name);
      expect(needed.filter((name) => answer[name] === undefined)).toEqual([]);
      expect(Object.keys(answer).filter((name) => !declared.includes(name))).toEqual([]);
      expect(unfit(answer)).toEqual([]);
    },
  );

  it.each(calculations.map((one) => [one.name, one] as const))(
    '%s refuses whatever is not allowed by name, and never answers with what is no number',
    (_name, calculation) => {
      fc.assert(
        fc.property(disturbed(calculation), (input) => {
          try {
            expect(unfit(calculation.run(input))).toEqual([]);
          } catch (error) {
            const isRefusal = error instanceof CalculationInputError || error instanceof OutOfDomainError;
            if (!isRefusal) throw error;
          }
        }),
        { seed: 5, numRuns: 300 },
      );
    },
  );

  it('say which field an engine refused, by its place in the input', () => {
    const refused = (name: string, input: Readonly<Record<string, unknown>>): string => {
      const calculation = calculations.find((one) => one.name === name)!;
      const full = { ...calculation.example, ...input };
      try {
        calculation.run(full);
      } catch (error) {
        if (error instanceof OutOfDomainError) return fieldAtFault(full, error);
      }
      return 'not refused';
    };
    expect(refused('pump-down', { to_Pa: 1.5 })).toBe('to_Pa');
    expect(refused('vapour-density', { pressure_Pa: 7e6 })).toBe('pressure_Pa');
    const piece = { bore_m: 0.0095, length_m: 3, roughness_m: 1e-5, lossCoefficient: 8 };
    expect(refused('hose-flow', { path: [piece, { ...piece, length_m: -2 }] })).toBe('path.1.length_m');
    // Two fields hold the value: the unit tells which, else the engine's own words stand.
    expect(refused('pump-down', { volume_m3: 2, to_Pa: 2 })).toBe('to_Pa');
    expect(refused('pump-down', { ultimate_Pa: 90, to_Pa: 90 })).toBe('target [Pa abs]');
  });
});
