import { describe, expect, it } from 'vitest';
import { calculations } from './calculations.ts';

describe('vacuum calculations', () => {
  it.each(calculations.map((one) => [one.name, one] as const))(
    '%s runs its example and gives what it lists',
    (_, one) => {
      const found = one.run(one.example);
      expect(Object.keys(found).toSorted()).toEqual(one.results.map(({ name }) => name).toSorted());
      for (const { name, type } of one.results) {
        const value = found[name];
        expect(type === 'list' ? Array.isArray(value) : typeof value === type).toBe(true);
        if (type === 'number') expect(value).toSatisfy(Number.isFinite);
      }
    },
  );

  it.each(calculations.map((one) => [one.name, one] as const))(
    '%s names the field that is missing',
    (_, one) => {
      for (const field of one.fields.filter(({ optional }) => !optional)) {
        const { [field.name]: _left, ...rest } = one.example;
        expect(() => one.run(rest)).toThrow(field.name);
      }
    },
  );

  it('answers a target out of reach with the reason', () => {
    const evacuation = calculations.find(({ name }) => name === 'evacuation')!;
    expect(() => evacuation.run({ ...evacuation.example, to_Pa: 1 })).toThrow(/closed inlet/);
  });
});
