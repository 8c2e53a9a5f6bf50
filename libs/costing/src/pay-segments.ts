import type { OvertimeRule } from '@brimline/firm';
import { paidSpans } from './paid-spans.ts';
import { type PayRule, payRulesOf } from './pay-rules.ts';

/** A piece of work of one person. */
export interface WorkedPiece {
  readonly personId: string;
  readonly jobId: string;
  readonly labourClass: string;
  readonly start: Date;
  readonly end: Date;
  /** Zone of the site: its clock decides what is night and which day it is. */
  readonly timeZone: string;
}

/** Hours of one job, class and pay rule. */
export interface PaySegment {
  readonly jobId: string;
  readonly labourClass: string;
  readonly rule: 'straight' | PayRule['name'];
  readonly multiplier: number;
  readonly hours: number;
}

/**
 * Sorts everyone's work, over all jobs together, into pay rules. Work before the first piece, in the same week, is not
 * known and not counted.
 *
 * @param rule a rate card's rule, or any list of rules
 */
export function paySegments(
  pieces: readonly WorkedPiece[],
  rule: OvertimeRule | readonly PayRule[],
): PaySegment[] {
  const rules = isList(rule) ? rule : payRulesOf(rule);
  const totals = new Map<string, PaySegment>();
  for (const person of new Set(pieces.map(({ personId }) => personId))) {
    const work = pieces
      .filter(({ personId }) => personId === person)
      .map((piece) => ({ ...piece, start_ms: piece.start.getTime(), end_ms: piece.end.getTime() }));
    for (const { work: piece, rule: paid, span_ms } of paidSpans(work, rules)) {
      const segment = {
        jobId: piece.jobId,
        labourClass: piece.labourClass,
        rule: paid?.name ?? ('straight' as const),
        multiplier: paid?.multiplier ?? 1,
      };
      const key = Object.values(segment).join('|');
      totals.set(key, { ...segment, hours: (totals.get(key)?.hours ?? 0) + span_ms / 3_600_000 });
    }
  }
  return [...totals.values()];
}

const isList = (rule: OvertimeRule | readonly PayRule[]): rule is readonly PayRule[] => Array.isArray(rule);
