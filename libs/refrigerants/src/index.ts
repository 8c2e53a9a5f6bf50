export * from './calculations.ts';
export * from './pressure-class.ts';
export {
  type Refrigerant,
  UnknownRefrigerantError,
  refrigerant,
  refrigerantField,
  refrigerantNames,
} from './refrigerant.ts';
export type { Component, DataSources, GlobalWarmingPotential, SafetyGroup } from './reference-table.ts';
export {
  bubblePressure,
  bubbleTemperature,
  dewPressure,
  dewTemperature,
  latentHeat,
  liquidDensity,
  liquidHeatCapacity,
  saturatedVapourDensity,
  secondVirial,
  vapourHeatCapacity,
  vapourHeatCapacityRatio,
  vapourSpeedOfSound,
} from './saturation.ts';
export * from './saturation-state.ts';
export * from './take-liquid-only.ts';
export * from './vapour-density.ts';
export * from './viscosity.ts';
