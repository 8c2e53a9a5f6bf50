/** What every table of a rule carries, so that an answer can say on what it rests. */
export interface RuleFacts {
  readonly citation: string;
  /** Latest day for which the text is known to have held, "yyyy-MM-dd"; later amendments were not seen. */
  readonly trueOn: string;
  /** How the figures came here. Confirm what is from memory before it drives a compliance statement. */
  readonly basis: 'read' | 'read in part' | 'read second hand' | 'from memory';
  readonly notes: readonly string[];
}

/** The part of a rule's facts that travels with an answer. */
export interface Cited {
  readonly citation: string;
  readonly trueOn: string;
  readonly notes: readonly string[];
}

export function cited(rule: RuleFacts, ...more: string[]): Cited {
  const fromMemory = rule.basis === 'from memory' ? ['Figures from memory: confirm them.'] : [];
  return { citation: rule.citation, trueOn: rule.trueOn, notes: [...rule.notes, ...fromMemory, ...more] };
}
