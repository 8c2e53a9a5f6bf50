export { FirmRepository } from './firm-repository.ts';
export { BookingClashError, PlanRepository } from './plan-repository.ts';
export { Store } from './store.ts';
