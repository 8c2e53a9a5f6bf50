import type { CircuitOrder, HoseSet, RecoveryMachine, TransferMethod } from '@brimline/firm';
import { hosePath, type HosePiece } from '@brimline/transfer';
import type { JobContext } from './job-context.ts';

/** What moves refrigerant: method, machines, hoses, cores and cooler; and how the machine stands while it does. */
export interface TransferWay {
  readonly method: TransferMethod;
  readonly machines: readonly RecoveryMachine[];
  readonly hose: HoseSet;
  readonly coresRemoved: boolean;
  readonly coolerBypassed: boolean;
  readonly circuitOrder: CircuitOrder;
  /** Temperature that warm water gives the machine while it is emptied; null: as it stands. */
  readonly warmedTo_K: number | null;
}

/** The hose as it lies: no shorter than the way it has to go. */
export function hoseLength(context: JobContext, hose: HoseSet): number {
  return Math.max(hose.length_m, context.job.known?.hoseRun_m ?? 0);
}

/** Pieces from vessel to vessel. */
export function pathOf(context: JobContext, { hose, coresRemoved }: TransferWay): readonly HosePiece[] {
  return hosePath({ ...hose, length_m: hoseLength(context, hose) }, { coresLeftIn: coresRemoved ? 0 : 1 });
}
