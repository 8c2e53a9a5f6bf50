import { lognormalFromSpread } from '@brimline/chance';
import type {
  Dependency,
  GearUse,
  Manner,
  PhaseEstimate,
  PhaseKind,
  Reason,
  ReasonInput,
  Spread,
} from './estimate.ts';
import type { Norm } from './norms.ts';

interface PhaseFacts {
  readonly kind: PhaseKind;
  readonly elapsed: Spread;
  readonly manner: Manner;
  readonly crew: number;
  readonly certified?: number;
  readonly needsLead?: boolean;
  readonly gear?: readonly GearUse[];
  readonly interruptible?: boolean;
  readonly longestGapBefore_s?: number;
  readonly reason: Reason;
  /** Tells phases of one kind apart, e.g. "pull 2"; empty where there is one. */
  readonly part?: string;
}

/** The median of a phase's duration: exact for a fixed span. */
export function medianSpan(spread: Spread): number {
  if (spread.low_s === spread.high_s) return spread.likely_s;
  const { mu } = lognormalFromSpread({ low: spread.low_s, likely: spread.likely_s, high: spread.high_s });
  return Math.exp(mu);
}

/** A phase with its defaults: no certificate, no gear, not interruptible, no limit on the gap before it. */
export function phase(facts: PhaseFacts): PhaseEstimate {
  const title = facts.part ? `${facts.kind}, ${facts.part}` : facts.kind;
  const planned_s = medianSpan(facts.elapsed);
  const gear = facts.gear ?? [];
  return {
    id: title.replaceAll(/[^a-z0-9]+/g, '-'),
    kind: facts.kind,
    title,
    elapsed: facts.elapsed,
    planned_s,
    manner: facts.manner,
    crew: facts.crew,
    certified: facts.certified ?? 0,
    needsLead: facts.needsLead ?? false,
    certificate: null,
    attended_person_s: planned_s * facts.crew,
    gear_s: planned_s * gear.reduce((units, { count }) => units + count, 0),
    gear,
    interruptible: facts.interruptible ?? false,
    gapBefore: { minimum_s: 0, maximum_s: facts.longestGapBefore_s ?? null },
    after: [],
    reason: facts.reason,
  };
}

/** The phases in order, each with what it waits for and the certificate that the refrigerant asks for. */
export function chained(
  phases: readonly PhaseEstimate[],
  certificate: string,
  others: ReadonlyMap<string, readonly Dependency[]>,
): PhaseEstimate[] {
  return phases.map((one, index) => {
    const before = phases[index - 1];
    const chain: Dependency[] = before
      ? [{ phaseId: before.id, from: 'end', ...one.gapBefore, why: 'one step after the other' }]
      : [];
    return {
      ...one,
      certificate: one.certified > 0 ? certificate : null,
      after: [...chain, ...(others.get(one.id) ?? [])],
    };
  });
}

/** One input of a reason. */
export function reasonInput(
  label: string,
  value: number | string,
  unit: string,
  source: string,
): ReasonInput {
  return { label, value, unit, source };
}

/** The reason of a span that is a sum of norms. */
export function normReason(
  label: string,
  parts: readonly { readonly norm: Norm; readonly times: number }[],
): Reason {
  const hours = parts.reduce((sum, { norm, times }) => sum + norm.likely_s * times, 0) / 3600;
  return {
    label,
    value: hours,
    unit: 'h',
    formula: 't = sum of norm x times',
    inputs: parts.map(({ norm, times }) => ({
      label: times === 1 ? norm.label : `${norm.label}, ${times} times`,
      value: norm.likely_s / 3600,
      unit: 'h',
      source: norm.source,
    })),
    limitedBy: null,
    source: 'time norms, three-point',
  };
}
