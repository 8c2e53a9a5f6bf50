import type { MessagePort } from 'node:worker_threads';
import type { Firm } from '@brimline/firm';
import { planFirm, type PlanOutcome } from '@brimline/planning';

/** Runs in a worker thread: plain data in, plain data out, progress by a port. It never opens the database. */
export default function planInWorker(task: { firm: Firm; seed: number; progress: MessagePort }): PlanOutcome {
  const { firm, seed, progress } = task;
  try {
    return planFirm(firm, { seed, onProgress: (at) => progress.postMessage(at) });
  } finally {
    progress.close();
  }
}
