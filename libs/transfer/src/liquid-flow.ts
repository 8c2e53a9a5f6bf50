import { requireNotNegative, requirePositive, STANDARD_GRAVITY_M_S2 } from '@brimline/quantities';
import { churchillUnchecked } from './friction-factor.ts';
import { type HosePiece, requirePath } from './hose-path.ts';
import { areaOf, pathResistance } from './path-resistance.ts';
import { bracketUp, rootBetween } from './root-between.ts';

export interface Fluid {
  readonly density_kg_m3: number;
  readonly viscosity_Pa_s: number;
}

export interface LiquidFlow {
  readonly massFlow_kg_s: number;
  /** In the first piece. */
  readonly velocity_m_s: number;
  readonly reynolds: number;
}

/** Velocity heads that one piece takes, f L/D + K, at a mass flow. */
export function resistanceOf(piece: HosePiece, massFlow_kg_s: number, viscosity_Pa_s: number): number {
  if (piece.length_m === 0) return piece.lossCoefficient;
  const reynolds = (4 * massFlow_kg_s) / (Math.PI * piece.bore_m * viscosity_Pa_s);
  const factor = churchillUnchecked(reynolds, piece.roughness_m / piece.bore_m);
  return (factor * piece.length_m) / piece.bore_m + piece.lossCoefficient;
}

/**
 * Pressure that a liquid loses along pieces in series:
 *
 *   dP = sum (f L/D + K) rho v^2/2,  v = m/(rho A),  f by Churchill
 *
 * @param path pieces [m]
 * @param massFlow_kg_s mass flow [kg/s]
 * @param fluid density [kg/m3] and viscosity [Pa s]
 * @returns pressure loss [Pa]
 * @throws OutOfDomainError unless the pieces, the density and the viscosity are above 0
 * @validity single phase, steady; loss coefficients are those of turbulent flow and are low below Re about 500
 * @source Darcy and Weisbach; F. M. White, Fluid Mechanics, from memory
 */
export function pressureLoss(path: readonly HosePiece[], massFlow_kg_s: number, fluid: Fluid): number {
  requirePath(path);
  requireNotNegative('mass flow [kg/s]', massFlow_kg_s);
  requirePositive('density [kg/m3]', fluid.density_kg_m3);
  requirePositive('viscosity [Pa s]', fluid.viscosity_Pa_s);
  if (massFlow_kg_s === 0) return 0;
  const resistance_m4 = pathResistance(path, fluid.viscosity_Pa_s)(massFlow_kg_s);
  return (resistance_m4 * massFlow_kg_s * massFlow_kg_s) / (2 * fluid.density_kg_m3);
}

/**
 * Mass flow of a liquid that a pressure difference drives through pieces in series: `pressureLoss` solved for m.
 *
 * @param input.path pieces [m]
 * @param input.density_kg_m3 density of the liquid [kg/m3]
 * @param input.viscosity_Pa_s dynamic viscosity [Pa s]
 * @param input.pressureDifference_Pa pressure difference, static head included [Pa]
 * @returns mass flow [kg/s]; velocity [m/s] and Reynolds number of the first piece
 * @throws OutOfDomainError unless the difference is 0 or more and the rest above 0
 * @validity single phase: a saturated liquid flashes where the pressure falls below its saturation, see `flashingFlow`
 * @source Darcy and Weisbach with Churchill's friction factor
 * @example liquidFlow({ path: [{ bore_m: 0.0095, length_m: 3, roughness_m: 1e-5, lossCoefficient: 8 }], density_kg_m3: 1210.5, viscosity_Pa_s: 195e-6, pressureDifference_Pa: 34474 }).massFlow_kg_s // => 0.1673
 */
export function liquidFlow(
  input: Fluid & { readonly path: readonly HosePiece[]; readonly pressureDifference_Pa: number },
): LiquidFlow {
  const { path, pressureDifference_Pa, density_kg_m3, viscosity_Pa_s } = input;
  requirePath(path);
  requirePositive('density [kg/m3]', density_kg_m3);
  requirePositive('viscosity [Pa s]', viscosity_Pa_s);
  requireNotNegative('pressure difference [Pa]', pressureDifference_Pa);
  const massFlow_kg_s = massFlowUnchecked(path, input, pressureDifference_Pa);
  const bore_m = path[0]?.bore_m ?? 0;
  return {
    massFlow_kg_s,
    velocity_m_s: massFlow_kg_s / (density_kg_m3 * areaOf(bore_m)),
    reynolds: (4 * massFlow_kg_s) / (Math.PI * bore_m * viscosity_Pa_s),
  };
}

/** Mass flow at a pressure difference with nothing checked: for loops. */
export function massFlowUnchecked(
  path: readonly HosePiece[],
  fluid: Fluid,
  pressureDifference_Pa: number,
): number {
  if (pressureDifference_Pa <= 0) return 0;
  const resistance = pathResistance(path, fluid.viscosity_Pa_s);
  // The loss grows nearly as the square of the flow, so in square roots the function is nearly straight.
  const wanted = Math.sqrt(2 * fluid.density_kg_m3 * pressureDifference_Pa);
  const excess = (m: number): number => (m <= 0 ? 0 : m * Math.sqrt(resistance(m))) - wanted;
  const widest = Math.max(...path.map(({ bore_m }) => bore_m));
  const start = areaOf(widest) * Math.sqrt(2 * fluid.density_kg_m3 * pressureDifference_Pa);
  const high = bracketUp(excess, start, Infinity);
  return rootBetween(excess, 0, high, high * 1e-12);
}

/**
 * Pressure of a column of liquid, rho g h.
 *
 * @param density_kg_m3 density [kg/m3]
 * @param height_m height of the source's level above the sink's, negative when the liquid is lifted [m]
 * @returns pressure gained on the way, negative for a lift [Pa]
 * @throws OutOfDomainError unless the density is above 0
 * @validity liquid without bubbles
 * @source hydrostatics, exact
 * @example staticHead(1210.5, 3) // => 35612.85
 */
export function staticHead(density_kg_m3: number, height_m: number): number {
  requirePositive('density [kg/m3]', density_kg_m3);
  return density_kg_m3 * STANDARD_GRAVITY_M_S2 * height_m;
}
