import {
  type Calculation,
  numberField,
  OutOfDomainError,
  optionalNumberField,
  type Result,
} from '@brimline/quantities';
import type { PumpOnHose } from './effective-speed.ts';
import type { VacuumProblem } from './vacuum-floor.ts';

export type Input = Readonly<Record<string, unknown>>;
type Field = Calculation['fields'][number];

export const number = (name: string, unit: string, meaning: string) =>
  ({ name, type: 'number', unit, meaning }) as const satisfies Field;
export const optional = (name: string, unit: string, meaning: string) =>
  ({ ...number(name, unit, meaning), optional: true }) as const satisfies Field;

export const VOLUME = number('volume_m3', 'm3', 'volume to evacuate');
export const PUMP_FIELDS = [
  number('speed_m3_s', 'm3/s', 'pump speed'),
  number('ultimate_Pa', 'Pa', 'ultimate pressure of the pump, absolute'),
] as const;
export const HOSE_FIELDS = [
  number('bore_m', 'm', 'hose bore'),
  number('length_m', 'm', 'hose length'),
] as const;
export const CORES_FIELD = optional('coresLeftIn', '-', 'valve cores left in, 0 unless given');
export const TEMPERATURE = number('temperature_K', 'K', 'temperature');
export const PUMP_EXAMPLE = { speed_m3_s: 0.0037755796, ultimate_Pa: 2.666448 } as const;
export const HOSE_EXAMPLE = { bore_m: 0.019, length_m: 3 } as const;

/** The named fields as numbers. */
export function numbers<Name extends string>(input: Input, ...names: Name[]): Record<Name, number> {
  return Object.fromEntries(names.map((name) => [name, numberField(input, name)])) as Record<Name, number>;
}

export function pumpOnHose(input: Input): PumpOnHose {
  return {
    ...numbers(input, 'speed_m3_s', 'ultimate_Pa'),
    hose: numbers(input, 'bore_m', 'length_m'),
    coresLeftIn: optionalNumberField(input, 'coresLeftIn', 0),
  };
}

/** A refusal becomes an error, as everything that a calculation can't answer. */
export function valueOf<Value>(result: Result<Value, VacuumProblem>): Value {
  if (result.ok) return result.value;
  const problem = result.problems[0]!;
  throw new OutOfDomainError('target [Pa abs]', problem.target_Pa, problem.message);
}
