export { calculations } from './calculations.ts';
export * from './shrinkage.ts';
export * from './variance.ts';
