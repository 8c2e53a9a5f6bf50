import type { Calculation } from '@brimline/quantities';
import { pumpingCalculations } from './pumping-calculations.ts';
import { tightnessCalculations } from './tightness-calculations.ts';
import { waterCalculations } from './water-calculations.ts';

export const calculations: readonly Calculation[] = [
  ...pumpingCalculations,
  ...waterCalculations,
  ...tightnessCalculations,
];
