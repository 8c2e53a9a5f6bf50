import type { Calculation } from '@brimline/quantities';
import { rateCalculations } from './rate-calculations.ts';
import { varianceCalculations } from './variance-calculations.ts';

export const calculations: readonly Calculation[] = [...varianceCalculations, ...rateCalculations];
