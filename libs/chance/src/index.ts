export { calculations } from './calculations.ts';
export * from './distributions.ts';
export * from './percentiles.ts';
export * from './random.ts';
