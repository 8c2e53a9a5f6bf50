export * from './estimate.ts';
export { ESTIMATING_VERSION, estimateJob } from './estimate-job.ts';
export { atmosphericPressure } from './job-context.ts';
export { type Norm, NORMS_DATED, type Norms, normsWith, STANDARD_NORMS } from './norms.ts';
export type { Worth } from './worth.ts';
export type { EstimateRequest } from './request.ts';
export * from './risk-facts.ts';
export * from './site-visit.ts';
