import { calculations as chance } from '@brimline/chance';
import { calculations as costing } from '@brimline/costing';
import { calculations as learning } from '@brimline/learning';
import type { Calculation } from '@brimline/quantities';
import { calculations as refrigerants } from '@brimline/refrigerants';
import { calculations as rules } from '@brimline/rules';
import { calculations as transfer } from '@brimline/transfer';
import { calculations as vacuum } from '@brimline/vacuum';

/** Every engineering calculation that can be called by name, in the order in which a list shows them. */
export const calculations: readonly Calculation[] = [
  ...refrigerants,
  ...rules,
  ...transfer,
  ...vacuum,
  ...chance,
  ...costing,
  ...learning,
];
