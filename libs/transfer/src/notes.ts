/** Why the flow is what it is. */
export type LimitCode =
  | 'machine-vapour-rate'
  | 'machine-liquid-rate'
  | 'hot-day'
  | 'hose'
  | 'end-fitting'
  | 'valve-passage'
  | 'valve-core'
  | 'cooler'
  | 'source-pressure'
  | 'lift'
  | 'heat'
  | 'pressures-met'
  | 'final-vacuum';

export interface Limit {
  readonly code: LimitCode;
  /** A noun phrase, e.g. "the 3/8 in bore hose" or "the machine's vapour rate". */
  readonly text: string;
}

/** What the flow would become if one limit were eased: the others stay. */
export interface Relaxation extends Limit {
  readonly change: string;
  /** Flow after over flow before, 1 or more. */
  readonly gain: number;
}

/** Doubt that travels with a number: an assumed input, or a legal value outside a checked range. */
export interface TransferNote {
  readonly code: string;
  readonly text: string;
  readonly source: string;
}

/** An expected refusal. */
export interface TransferProblem {
  readonly code: 'below-final-vacuum' | 'end-not-below-start' | 'pressure-outside-table' | 'too-little-heat';
  readonly path: string;
  readonly message: string;
}
