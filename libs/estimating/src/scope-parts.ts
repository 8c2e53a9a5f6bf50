import type { Scope } from '@brimline/firm';

export interface ScopeParts {
  readonly recovers: boolean;
  readonly opens: boolean;
  readonly tests: boolean;
  readonly evacuates: boolean;
  readonly charges: boolean;
}

/** What a scope takes from the whole work plan. */
const PARTS: Readonly<Record<Scope, ScopeParts>> = {
  'recover and recharge': { recovers: true, opens: true, tests: true, evacuates: true, charges: true },
  'recover only': { recovers: true, opens: false, tests: false, evacuates: false, charges: false },
  'top-up': { recovers: false, opens: false, tests: false, evacuates: false, charges: true },
  recharge: { recovers: false, opens: false, tests: false, evacuates: true, charges: true },
  'evacuate and recharge': { recovers: false, opens: false, tests: true, evacuates: true, charges: true },
  'evacuate only': { recovers: false, opens: false, tests: false, evacuates: true, charges: false },
};

export const partsOf = (scope: Scope): ScopeParts => PARTS[scope];
