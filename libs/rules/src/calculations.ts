import type { Calculation } from '@brimline/quantities';
import { cylinderCalculations } from './cylinder-calculations.ts';
import { leakCalculations } from './leak-calculations.ts';
import { roomCalculations } from './room-calculations.ts';
import { recoveryCalculations } from './recovery-calculations.ts';

export const calculations: readonly Calculation[] = [
  ...recoveryCalculations,
  ...cylinderCalculations,
  ...leakCalculations,
  ...roomCalculations,
];
