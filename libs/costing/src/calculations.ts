import type { Calculation } from '@brimline/quantities';
import { payCalculations } from './pay-calculations.ts';
import { priceCalculations } from './price-calculations.ts';

export const calculations: readonly Calculation[] = [...payCalculations, ...priceCalculations];
