export * from './model/problem.ts';
export * from './model/plan.ts';
