import type { Estimate, SetupOutcome } from '@brimline/estimating';
import type { Firm } from '@brimline/firm';
import { estimateOne, type Refusal } from '@brimline/planning';

/** Seed of every trial, so that two drafts differ by their facts alone. */
const SEED = 1;
/** Ways drawn beside each other. */
const DRAWN_WAYS = 4;

export type WorkedOut =
  { readonly ok: true; readonly estimate: Estimate } | { readonly ok: false; readonly refusal: Refusal };

/** The estimate of one job of a firm, as the planner would make it, with the whole stock free. */
export function workOut(firm: Firm, jobId: string): WorkedOut {
  const job = firm.jobs.find(({ id }) => id === jobId)!;
  const outcome = estimateOne(firm, job, firm.cylinders, SEED);
  return 'reasons' in outcome ? { ok: false, refusal: outcome } : { ok: true, estimate: outcome.estimate };
}

export interface DrawnWay {
  readonly way: SetupOutcome;
  readonly estimate: Estimate;
}

/** The chosen way and the shortest others, each worked out in full so that its curve can be drawn. */
export function workOutWays(firm: Firm, estimate: Estimate): DrawnWay[] {
  const allowed = estimate.ways.filter(({ forbidden }) => forbidden.length === 0);
  const others = allowed.filter(({ chosen }) => !chosen).toSorted((a, b) => a.elapsed_s - b.elapsed_s);
  const chosen = allowed.filter((way) => way.chosen);
  const drawn = [...chosen, ...others].slice(0, DRAWN_WAYS);
  return drawn.flatMap((way) => {
    if (way.chosen) return [{ way, estimate }];
    const tried = workOut(withSetup(firm, estimate.jobId, way), estimate.jobId);
    return tried.ok ? [{ way, estimate: tried.estimate }] : [];
  });
}

/** The firm with one job held to a setup. */
function withSetup(firm: Firm, jobId: string, { setup }: SetupOutcome): Firm {
  const { method, machineIds, hoseSetId, coresRemoved, coolerBypassed, pumpIds } = setup;
  const wishes = {
    ...(method === 'none' ? {} : { method }),
    ...(machineIds.length > 0 ? { machineIds } : {}),
    coresRemoved,
    coolerBypassed,
    ...(pumpIds.length > 0 ? { pumpIds } : {}),
    ...(hoseSetId === null ? {} : { hoseSetId }),
  };
  return { ...firm, jobs: firm.jobs.map((job) => (job.id === jobId ? { ...job, setup: wishes } : job)) };
}
