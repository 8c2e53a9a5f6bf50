export { checkPlan, type Violation } from './check/check-plan.ts';
export * from './model/plan.ts';
export * from './model/problem.ts';
export { solve } from './search/solve.ts';
export { type BenchmarkInstance, parseProgenMax, parsePsplib } from './benchmark/instance.ts';
export { criticalPath } from './bounds/critical-path.ts';
