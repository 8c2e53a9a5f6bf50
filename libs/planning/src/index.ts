export * from './week-plan.ts';
