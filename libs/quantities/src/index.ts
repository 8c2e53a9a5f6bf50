export * from './calculation.ts';
export * from './errors.ts';
export * from './money.ts';
export * from './result.ts';
export * from './units.ts';
