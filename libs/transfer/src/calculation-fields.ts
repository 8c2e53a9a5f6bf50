import {
  type CalculationField,
  CalculationInputError,
  numberField,
  objectListField,
  optionalNumberField,
} from '@brimline/quantities';
import { refrigerantField, refrigerantNames } from '@brimline/refrigerants';
import type { HosePiece } from './hose-path.ts';
import type { MachineRating } from './recovery-machine.ts';

export type Input = Readonly<Record<string, unknown>>;

/** Describes a field that must be a number. */
export const number = (name: string, unit: string, meaning: string) =>
  ({ name, type: 'number', unit, meaning }) as const;
/** Describes a number that may be left out. */
export const optional = (name: string, unit: string, meaning: string) =>
  ({ ...number(name, unit, meaning), optional: true }) as const;
export const REFRIGERANT = {
  name: 'refrigerant',
  type: 'string',
  unit: '-',
  meaning: 'ASHRAE designation',
  allowed: refrigerantNames().join(', '),
} as const;

/** @throws CalculationInputError unless the path has a piece and each piece a bore and a length */
export function pathField(input: Input): HosePiece[] {
  const pieces = objectListField(input, 'path');
  if (pieces.length === 0) throw new CalculationInputError('path', pieces, 'one piece or more');
  return pieces.map((piece) => ({
    bore_m: numberField(piece, 'bore_m'),
    length_m: numberField(piece, 'length_m'),
    roughness_m: optionalNumberField(piece, 'roughness_m', 1e-5),
    lossCoefficient: optionalNumberField(piece, 'lossCoefficient', 0),
  }));
}

/** @throws CalculationInputError unless the vapour rate is a number */
export function machineField(input: Input): MachineRating {
  return {
    vapourRate_kg_s: numberField(input, 'vapourRate_kg_s'),
    directLiquidRate_kg_s: optionalNumberField(
      input,
      'directLiquidRate_kg_s',
      numberField(input, 'vapourRate_kg_s') * 15,
    ),
    ratingRefrigerant:
      input['ratingRefrigerant'] === undefined ? 'R-134a' : refrigerantField(input, 'ratingRefrigerant').name,
    finalVacuum_Pa: input['finalVacuum_Pa'] === undefined ? null : numberField(input, 'finalVacuum_Pa'),
    cooler_W_K: optionalNumberField(input, 'cooler_W_K', 50),
  };
}

export const PATH_FIELD: CalculationField = {
  name: 'path',
  type: 'list',
  unit: '-',
  meaning: 'pieces in series: bore_m, length_m, roughness_m, lossCoefficient',
};

export const MACHINE_FIELDS = [
  number('vapourRate_kg_s', 'kg/s', 'rated vapour flow at 24 degC saturation of the rating refrigerant'),
  {
    name: 'ratingRefrigerant',
    type: 'string',
    unit: '-',
    meaning: 'refrigerant of the rating; R-134a unless given',
    optional: true,
  },
  optional('finalVacuum_Pa', 'Pa', 'lowest suction pressure of the machine, absolute'),
] as const;
