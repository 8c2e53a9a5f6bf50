export { calculations } from './calculations.ts';
export * from './earned-value.ts';
export * from './groups.ts';
export * from './learned-rate.ts';
export * from './normal-gamma.ts';
export * from './shrinkage.ts';
export * from './student-t.ts';
export * from './variance.ts';
