export { calculations } from './calculations.ts';
export * from './margin.ts';
export * from './pay-clauses.ts';
export { PAY_RULES, type PayRule, payRulesOf } from './pay-rules.ts';
export * from './pay-segments.ts';
export * from './price-job.ts';
export * from './quantity-clause.ts';
export * from './quote.ts';
export * from './split-hours.ts';
