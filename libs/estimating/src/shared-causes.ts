import { PHASE_KINDS, type PhaseKind } from './estimate.ts';
import { SHARED_CAUSES, type SharedCause } from './risk-facts.ts';

type Shares = Readonly<Partial<Record<SharedCause, number>>>;

/** Shares of a phase's variance (of the logarithm) that a cause explains; the rest is its own. Assumed, low confidence. */
const LIQUID: Shares = { 'gear rate': 0.5, ambient: 0.15, 'crew and site': 0.1 };
const PEOPLE: Shares = { 'crew and site': 0.3 };
const SHARES: Readonly<Partial<Record<PhaseKind, Shares>>> = {
  'warm up': { ambient: 0.5 },
  'liquid recovery': LIQUID,
  'liquid recharge': LIQUID,
  'vapour recovery': { 'gear rate': 0.3, ambient: 0.2, 'internal volume': 0.35 },
  'vapour pre-charge': { ambient: 0.3, 'internal volume': 0.25 },
  evacuation: { 'gear rate': 0.1, 'internal volume': 0.25, 'water in the system': 0.4 },
  'nitrogen pressure test': { 'internal volume': 0.1, 'crew and site': 0.2 },
};

/** Roots of the shares in the order of the causes, and of what is left to the phase itself. */
function loadings(shares: Shares, isVolumeMeasured: boolean): readonly number[] {
  const taken = SHARED_CAUSES.map((cause) =>
    cause === 'internal volume' && isVolumeMeasured ? 0 : (shares[cause] ?? 0),
  );
  const own = 1 - taken.reduce((sum, share) => sum + share, 0);
  return [...taken, own].map(Math.sqrt);
}

function table(isVolumeMeasured: boolean): ReadonlyMap<PhaseKind, readonly number[]> {
  return new Map(PHASE_KINDS.map((kind) => [kind, loadings(SHARES[kind] ?? PEOPLE, isVolumeMeasured)]));
}

const MEASURED = table(true);
const GUESSED = table(false);

/** Loadings of a phase on the shared causes, in their order, and on itself. */
export function loadingsOf(kind: PhaseKind, isVolumeMeasured: boolean): readonly number[] {
  return (isVolumeMeasured ? MEASURED : GUESSED).get(kind)!;
}

/** Of a repeated test: it is the same wet or leaking system each time. */
export const LOOP_LOADINGS = loadings({ 'water in the system': 0.5, 'crew and site': 0.1 }, true);
