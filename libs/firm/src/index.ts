export * from './calendar-facts.ts';
export * from './crew.ts';
export * from './firm.ts';
export * from './gear.ts';
export * from './job.ts';
export * from './rate-card.ts';
export * from './site.ts';
