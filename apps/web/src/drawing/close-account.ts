import type { RefrigerantAccount } from '@brimline/estimating';

export type AccountRow = 'before' | 'fromStock' | 'after' | 'leftAsVapour' | 'heel' | 'kept';

interface Entry {
  readonly what: AccountRow;
  readonly mass_kg: number;
}

export interface ClosedAccount {
  readonly from: readonly Entry[];
  readonly to: readonly Entry[];
  readonly sum_kg: number;
  /** What the right side lacks; 0 when the account closes to a gram. */
  readonly missing_kg: number;
}

const GRAM_KG = 0.001;

/**
 * The account as two sides: what was in the chiller and what came from stock, against what is in the chiller now, what
 * was lost, and what stays in cylinders. A job that charges nothing back keeps what it recovered in cylinders.
 */
export function closeAccount(account: RefrigerantAccount): ClosedAccount {
  const { before_kg, recovered_kg, leftAsVapour_kg, heelInCylinders_kg, fromStock_kg, after_kg } = account;
  const isCharged = after_kg > 0;
  const to: Entry[] = [
    { what: 'after', mass_kg: after_kg },
    { what: 'leftAsVapour', mass_kg: leftAsVapour_kg },
    isCharged
      ? { what: 'heel', mass_kg: heelInCylinders_kg }
      : { what: 'kept', mass_kg: recovered_kg + fromStock_kg },
  ];
  const from: Entry[] = [
    { what: 'before', mass_kg: before_kg },
    { what: 'fromStock', mass_kg: fromStock_kg },
  ];
  const sum_kg = sum(from);
  const missing_kg = sum_kg - sum(to);
  return { from, to, sum_kg, missing_kg: Math.abs(missing_kg) < GRAM_KG ? 0 : missing_kg };
}

const sum = (entries: readonly Entry[]): number => entries.reduce((total, { mass_kg }) => total + mass_kg, 0);
