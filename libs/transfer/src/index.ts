export * from './boil-off.ts';
export { calculations } from './calculations.ts';
export * from './direct-transfer.ts';
export * from './equalise.ts';
export { chokedLiquidFlow, criticalMassFluxNumber, flashingFlow, omegaParameter } from './flashing-flow.ts';
export {
  frictionFactorChurchill,
  frictionFactorColebrook,
  frictionFactorHaaland,
  frictionFactorLaminar,
  frictionFactorSwameeJain,
} from './friction-factor.ts';
export { type GasFlow, gasFlow } from './gas-flow.ts';
export { type Hose, hoseOfBore, hosePath, type HosePart, type HosePiece } from './hose-path.ts';
export * from './internal-volume.ts';
export { type Fluid, type LiquidFlow, liquidFlow, pressureLoss, staticHead } from './liquid-flow.ts';
export * from './loss-coefficients.ts';
export * from './notes.ts';
export * from './pre-charge.ts';
export * from './push-pull.ts';
export {
  clearanceEfficiency,
  clearanceFromFinalVacuum,
  type Displacement,
  machineDisplacement,
  type MachineRating,
  stallPressure,
} from './recovery-machine.ts';
export * from './transfer-time.ts';
export * from './utilisation.ts';
export * from './vapour-recovery.ts';
