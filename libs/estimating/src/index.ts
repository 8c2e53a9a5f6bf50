export * from './estimate.ts';
export { ESTIMATING_VERSION, estimateJob } from './estimate-job.ts';
export { atmosphericPressure } from './job-context.ts';
export { type Norm, type NormId, NORMS_DATED, type Norms, STANDARD_NORMS } from './norms.ts';
export type { EstimateRequest } from './request.ts';
