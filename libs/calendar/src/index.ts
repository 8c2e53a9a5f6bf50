export * from './expand-weekly.ts';
export * from './local-time.ts';
export * from './spans.ts';
export * from './working-time.ts';
