export { calculations } from './calculations.ts';
export * from './margin.ts';
export * from './overtime-split.ts';
export * from './pay-segments.ts';
export * from './price-job.ts';
export * from './quote.ts';
