export { calculations } from './calculations.ts';
export {
  apertureConductance,
  inParallel,
  inSeries,
  type Regime,
  shortTubeConductance,
  type Tube,
  tubeConductance,
  type TubeConductance,
} from './conductance.ts';
export * from './effective-speed.ts';
export * from './evacuation.ts';
export * from './gases.ts';
export * from './nitrogen-test.ts';
export * from './pump-down.ts';
export * from './rise-test.ts';
export * from './water.ts';
