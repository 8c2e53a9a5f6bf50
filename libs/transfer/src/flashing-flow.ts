import { requireNotNegative, requirePositive } from '@brimline/quantities';
import {
  bubblePressure,
  latentHeat,
  liquidDensity,
  liquidHeatCapacity,
  liquidViscosityEstimate,
  type Refrigerant,
} from '@brimline/refrigerants';
import { type HosePiece, requirePath } from './hose-path.ts';
import { areaOf, pathResistance } from './path-resistance.ts';
import { bracketUp, rootBetween } from './root-between.ts';
import { vapourDensityOverLiquid } from './vapour-space.ts';

/**
 * How strongly a saturated liquid swells when its pressure falls, in the homogeneous-equilibrium model:
 *
 *   omega = cL T P (vfg/hfg)^2 / vL
 *
 * @param state saturated liquid: temperature [K], pressure [Pa abs], densities [kg/m3], latent heat [J/kg], heat capacity [J/(kg K)]
 * @returns omega [-]
 * @throws OutOfDomainError unless all are above 0
 * @validity saturated liquid without vapour, well below the critical point
 * @source J. C. Leung, AIChE J. 32 (1986) 1743, from memory
 * @example omegaParameter({ temperature_K: 297.15, pressure_Pa: 645780, liquidDensity_kg_m3: 1210.48, vapourDensity_kg_m3: 31.389, latentHeat_J_kg: 178700, liquidHeatCapacity_J_kgK: 1425 }) // => 9.98155
 */
export function omegaParameter(state: {
  readonly temperature_K: number;
  readonly pressure_Pa: number;
  readonly liquidDensity_kg_m3: number;
  readonly vapourDensity_kg_m3: number;
  readonly latentHeat_J_kg: number;
  readonly liquidHeatCapacity_J_kgK: number;
}): number {
  for (const [name, value] of Object.entries(state)) requirePositive(name, value);
  const { liquidDensity_kg_m3, vapourDensity_kg_m3, latentHeat_J_kg } = state;
  const swell = (1 / vapourDensity_kg_m3 - 1 / liquidDensity_kg_m3) / latentHeat_J_kg;
  return (
    state.liquidHeatCapacity_J_kgK *
    state.temperature_K *
    state.pressure_Pa *
    swell *
    swell *
    liquidDensity_kg_m3
  );
}

/**
 * Greatest mass flux of a flashing liquid through a nozzle without friction, over sqrt(P rhoL): G* = eta/sqrt(omega), with
 *
 *   eta^2 + (omega^2 - 2 omega)(1 - eta)^2 + 2 omega^2 ln(eta) + 2 omega^2 (1 - eta) = 0
 *
 * @param omega swelling parameter [-]
 * @returns G* [-]
 * @throws OutOfDomainError unless omega > 0
 * @validity homogeneous equilibrium, saturated inlet
 * @source J. C. Leung, AIChE J. 32 (1986) 1743, from memory; omega = 1 is the isothermal gas, exp(-1/2)
 * @example criticalMassFluxNumber(10) // => 0.26834
 */
export function criticalMassFluxNumber(omega: number): number {
  requirePositive('omega', omega);
  const excess = (eta: number) =>
    eta * eta + (omega * omega - 2 * omega) * (1 - eta) ** 2 + 2 * omega * omega * (Math.log(eta) + 1 - eta);
  return rootBetween(excess, 1e-6, 1, 1e-13) / Math.sqrt(omega);
}

/**
 * Velocity heads times G*^2 that a flashing flow can pay for between saturation and a lower pressure, eta = P/Psat:
 *
 *   G*^2 N = 2 integral from eta_end to 1 of (1 - G*^2 omega/eta^2) eta/[omega + (1 - omega) eta] d eta
 *
 * in closed form, with eta_end not below eta_c = G* sqrt(omega), where the flow chokes.
 * Derived here from the momentum equation with v/vL = omega (1/eta - 1) + 1; the loss coefficients must hold the
 * one velocity head that speeds the liquid up from rest (the exit loss of an incompressible path does).
 */
export function flashingHeads(massFluxNumber: number, omega: number, etaBack = 0): number {
  const square = massFluxNumber * massFluxNumber;
  const end = Math.max(massFluxNumber * Math.sqrt(omega), etaBack);
  if (end >= 1) return 0;
  const k = 1 - omega;
  const denominator = omega + k * end;
  const expansion =
    Math.abs(k) < 1e-3 ? nearOmegaOne(end, k) : (1 - end) / k + (omega / (k * k)) * Math.log(denominator);
  return 2 * (expansion + square * Math.log(end / denominator));
}

/** Integral of eta/(1 + k (eta - 1)) for small k, to second order: the closed form loses its digits there. */
function nearOmegaOne(end: number, k: number): number {
  const slope = (x: number) => (x * x * x) / 3 - (x * x) / 2;
  const second = (x: number) => x ** 4 / 4 - (2 * x ** 3) / 3 + (x * x) / 2;
  return (1 - end * end) / 2 - k * (slope(1) - slope(end)) + k * k * (second(1) - second(end));
}

export interface FlashingState {
  readonly omega: number;
  /** Saturation pressure of the liquid. */
  readonly saturation_Pa: number;
  readonly density_kg_m3: number;
  readonly viscosity_Pa_s: number;
}

/** What flashing flow needs to know of a refrigerant's liquid at a temperature. */
export function flashingState(r: Refrigerant, temperature_K: number): FlashingState {
  const density_kg_m3 = liquidDensity(r, temperature_K);
  const saturation_Pa = bubblePressure(r, temperature_K);
  return {
    omega: omegaParameter({
      temperature_K,
      pressure_Pa: saturation_Pa,
      liquidDensity_kg_m3: density_kg_m3,
      vapourDensity_kg_m3: vapourDensityOverLiquid(r, temperature_K),
      latentHeat_J_kg: latentHeat(r, temperature_K),
      liquidHeatCapacity_J_kgK: liquidHeatCapacity(r, temperature_K),
    }),
    saturation_Pa,
    density_kg_m3,
    viscosity_Pa_s: liquidViscosityEstimate(r, temperature_K).value_Pa_s,
  };
}

/** Smallest area of a path, to which velocity heads and fluxes refer. */
export function throatArea(path: readonly HosePiece[]): number {
  let smallest = Infinity;
  for (const { bore_m } of path) smallest = Math.min(smallest, areaOf(bore_m));
  return smallest;
}

/** The whole path's velocity heads referred to its smallest area, by mass flow. */
export function throatResistance(
  path: readonly HosePiece[],
  viscosity_Pa_s: number,
  area_m2: number,
): (massFlow_kg_s: number) => number {
  const resistance_m4 = pathResistance(path, viscosity_Pa_s);
  return (massFlow_kg_s) => resistance_m4(massFlow_kg_s) * area_m2 * area_m2;
}

/**
 * Most liquid that a path passes when its far end pulls as hard as it likes: the liquid first spends what pressure it
 * has above saturation, then flashes and chokes. All losses refer to the smallest area.
 *
 *   N(m) = 2 rhoL (P0 - Psat)/G^2 + N_flash(G*),  G = m/A,  G* = G/sqrt(Psat rhoL)
 *
 * never more than a nozzle without friction passes.
 *
 * @param input.path pieces [m]
 * @param input.state omega [-], saturation pressure [Pa abs], density [kg/m3] and viscosity [Pa s] of the liquid
 * @param input.margin_Pa pressure at the inlet above saturation, static head included; negative for a lift [Pa]
 * @returns mass flow, 0 when a lift takes it all [kg/s]
 * @throws OutOfDomainError unless the path has resistance
 * @validity thermal equilibrium, lines longer than about 0.1 m; a short orifice passes more
 * @source J. C. Leung 1986, from memory; friction integral derived here; within 3 % of integration with full properties
 */
export function chokedLiquidFlow(input: {
  readonly path: readonly HosePiece[];
  readonly state: FlashingState;
  readonly margin_Pa: number;
}): number {
  const { path, state, margin_Pa } = input;
  requirePath(path);
  const area = throatArea(path);
  const scale = state.saturation_Pa * state.density_kg_m3;
  const resistance = throatResistance(path, state.viscosity_Pa_s, area);
  const excess = (massFlow: number) => {
    const heads = resistance(massFlow) * (massFlow / area) ** 2;
    const driven = flashingHeads(massFlow / area / Math.sqrt(scale), state.omega) * scale;
    return heads - driven - 2 * state.density_kg_m3 * margin_Pa;
  };
  const smallest = 1e-9 * area * Math.sqrt(scale);
  const atSmallest = excess(smallest);
  if (atSmallest >= 0) return 0;
  const high = bracketUp(excess, area * Math.sqrt(scale / state.omega), Infinity);
  const flow = rootBetween(excess, smallest, high, high * 1e-10, atSmallest);
  return Math.min(flow, area * nozzleFlux(state, margin_Pa));
}

function nozzleFlux({ omega, saturation_Pa, density_kg_m3 }: FlashingState, margin_Pa: number): number {
  const saturated = criticalMassFluxNumber(omega) ** 2 * saturation_Pa * density_kg_m3;
  return Math.sqrt(Math.max(0, saturated + 2 * density_kg_m3 * margin_Pa));
}

/**
 * Greatest mass flux of a saturated liquid through N velocity heads, all on one area.
 *
 * @param input.omega swelling parameter [-]
 * @param input.pressure_Pa saturation pressure at the inlet [Pa abs]
 * @param input.density_kg_m3 density of the liquid [kg/m3]
 * @param input.resistance f L/D + sum of K, N [-]
 * @returns mass flux [kg/(m2 s)]
 * @throws OutOfDomainError unless all but the resistance are above 0 and the resistance is not negative
 * @validity as `chokedLiquidFlow`
 * @source J. C. Leung 1986, from memory; friction integral derived here
 * @example flashingFlow({ omega: 9.98, pressure_Pa: 645780, density_kg_m3: 1210.48, resistance: 10 }) // => 4052
 */
export function flashingFlow(input: {
  readonly omega: number;
  readonly pressure_Pa: number;
  readonly density_kg_m3: number;
  readonly resistance: number;
}): number {
  const { omega, resistance } = input;
  requirePositive('pressure [Pa abs]', input.pressure_Pa);
  requirePositive('density [kg/m3]', input.density_kg_m3);
  requireNotNegative('resistance', resistance);
  const nozzle = criticalMassFluxNumber(omega);
  const excess = (number: number) => resistance * number * number - flashingHeads(number, omega);
  const unlimited = resistance === 0 ? nozzle : rootBetween(excess, 1e-9, 1 / Math.sqrt(omega), 1e-13);
  return Math.min(nozzle, unlimited) * Math.sqrt(input.pressure_Pa * input.density_kg_m3);
}
