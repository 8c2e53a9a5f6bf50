import { KELVIN_AT_ZERO_CELSIUS, PASCALS_PER_PSI, requirePositive } from '@brimline/quantities';
import type { Refrigerant } from './refrigerant.ts';
import { bubblePressure } from './saturation.ts';

export const PRESSURE_CLASSES = ['low', 'medium', 'high', 'very high'] as const;
export type PressureClass = (typeof PRESSURE_CLASSES)[number];

/** 104 degF, the temperature at which the rule compares. */
export const CLASS_TEMPERATURE_K = 40 + KELVIN_AT_ZERO_CELSIUS;

/**
 * Pressure class by the number alone: low below 45 psia, medium to 170, high to 355, very high above.
 *
 * @param pressureAt104F_Pa saturation pressure of the liquid at 104 degF [Pa abs]
 * @returns class [-]
 * @throws OutOfDomainError unless the pressure is above 0
 * @source 40 CFR 82.152, definitions of the appliance classes; the 355 psia limit from memory
 */
export function pressureClassOf(pressureAt104F_Pa: number): PressureClass {
  requirePositive('saturation pressure at 104 degF [Pa abs]', pressureAt104F_Pa);
  const psia = pressureAt104F_Pa / PASCALS_PER_PSI;
  if (psia < 45) return 'low';
  if (psia <= 170) return 'medium';
  return psia <= 355 ? 'high' : 'very high';
}

/** Refrigerants planned in another class than the number says, and why. */
const PLANNED_OTHERWISE: Readonly<Record<string, { planAs: PressureClass; note: string }>> = {
  'R-32': {
    planAs: 'high',
    note:
      'Computes to about 359 psia at 104 degF, just over the 355 psia limit, so very high by number. No ruling was ' +
      'found; it is planned as high, whose recovery levels are the deeper ones and so meet either reading.',
  },
};

/** The class by number, the class to plan with, and why they differ. */
export interface PressureClassFinding {
  readonly planAs: PressureClass;
  readonly byNumber: PressureClass;
  readonly pressureAt104F_Pa: number;
  readonly note: string | null;
}

/**
 * Pressure class of a refrigerant with the figure behind it.
 *
 * @param r refrigerant [-]
 * @returns class to plan with, class by number, pressure [Pa abs] and note
 * @throws OutOfDomainError never for a refrigerant that is held: all tables reach 104 degF
 * @source 40 CFR 82.152
 */
export function pressureClassFinding(r: Refrigerant): PressureClassFinding {
  const pressureAt104F_Pa = bubblePressure(r, CLASS_TEMPERATURE_K);
  const byNumber = pressureClassOf(pressureAt104F_Pa);
  const otherwise = PLANNED_OTHERWISE[r.name];
  return {
    planAs: otherwise?.planAs ?? byNumber,
    byNumber,
    pressureAt104F_Pa,
    note: otherwise?.note ?? null,
  };
}

/**
 * Pressure class to plan with (R-32 as high, see `pressureClassFinding`).
 *
 * @param r refrigerant [-]
 * @returns class [-]
 * @source 40 CFR 82.152
 * @example pressureClass(refrigerant('R-123')) // => "low"
 */
export function pressureClass(r: Refrigerant): PressureClass {
  return pressureClassFinding(r).planAs;
}
