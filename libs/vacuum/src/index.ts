export { calculations } from './calculations.ts';
export {
  apertureConductance,
  inParallel,
  inSeries,
  type Regime,
  shortTubeConductance,
  type Tube,
  type TubeConductance,
  tubeConductance,
} from './conductance.ts';
export * from './drying.ts';
export { CORE_AREA_M2, effectiveSpeed, type Flow, type PumpOnHose, pumpSpeed } from './effective-speed.ts';
export { type EvacuationCaution, type EvacuationLimit } from './evacuation-limits.ts';
export * from './evacuation.ts';
export * from './gases.ts';
export * from './nitrogen-density.ts';
export * from './nitrogen-test.ts';
export * from './pressure-hold.ts';
export * from './pump-down.ts';
export { type RiseFit, type RiseReading } from './rise-fit.ts';
export * from './rise-test.ts';
export * from './triple-evacuation.ts';
export { turbulenceFactor } from './turbulence.ts';
export { type FloorCause, type VacuumProblem } from './vacuum-floor.ts';
export * from './water.ts';
