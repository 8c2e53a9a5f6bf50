export { refrigerantNames } from '@brimline/refrigerants';
export { calculations } from './calculations.ts';
export { ENGINE_VERSION } from './engine-version.ts';
export { estimateOne } from './estimate-jobs.ts';
export { localText } from './local-text.ts';
export { type PlanOptions, type PlanOutcome, type PlanProgress, planFirm } from './plan-firm.ts';
export * from './week-plan.ts';
export type { EstimatedJob } from './week-problem.ts';
