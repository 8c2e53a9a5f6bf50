import {
  type Estimate,
  estimateJob,
  type EstimateRequest,
  STANDARD_NORMS,
  type Worth,
} from '@brimline/estimating';
import type { Chiller, Job, Site } from '@brimline/firm';
import { sampleFirm } from './sample-firm.ts';

const firm = sampleFirm();
export const LB = 0.45359237;

/** Plain figures of an invented card. */
export const WORTH: Worth = {
  currency: 'USD',
  personHour_minor: 6100,
  gearHour_minor: { 'recovery machine': 475, 'vacuum pump': 300, scale: 112, 'hose set': 75 },
  cylinderHour_minor: 31,
  refrigerant_minor_per_kg: 2700,
};

export interface RequestChanges {
  readonly job?: Partial<Job>;
  readonly chiller?: Partial<Chiller>;
  readonly site?: Partial<Site>;
  readonly request?: Partial<EstimateRequest>;
  readonly seed?: number;
}

/** A sample job as the planner would ask for it, with changes. */
export function request(jobId: string, changes: RequestChanges = {}): EstimateRequest {
  const job = firm.jobs.find(({ id }) => id === jobId)!;
  const chiller = firm.chillers.find(({ id }) => id === job.chillerId)!;
  const site = firm.sites.find(({ id }) => id === chiller.siteId)!;
  return {
    job: { ...job, ...changes.job },
    chiller: { ...chiller, ...changes.chiller },
    site: { ...site, ...changes.site },
    gear: firm.gear.filter(({ calibrationDue }) => calibrationDue === null || calibrationDue > '2026-11-15'),
    cylinders: firm.cylinders,
    norms: STANDARD_NORMS,
    spareCylinders: 1,
    seed: changes.seed ?? 1,
    samples: 400,
    worth: WORTH,
    ...changes.request,
  };
}

/** The estimate itself; a refusal is a fault of the test. */
export function estimated(...args: Parameters<typeof request>): Estimate {
  const result = estimateJob(request(...args));
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('; '));
  return result.value;
}

/** Codes of what stops an estimate. */
export function refusedFor(...args: Parameters<typeof request>): string[] {
  const result = estimateJob(request(...args));
  return result.ok ? [] : result.problems.map(({ code }) => code);
}

/** Planned seconds of all phases of a kind. */
export const spanOf = (estimate: Estimate, kind: string): number =>
  estimate.phases.filter((phase) => phase.kind === kind).reduce((sum, { planned_s }) => sum + planned_s, 0);
