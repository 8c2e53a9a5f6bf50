import { requirePositive } from '@brimline/quantities';
import { conductanceUnchecked, type Tube } from './conductance.ts';
import { type Gas, GASES, meanMolecularSpeed } from './gases.ts';

/** A pump with its own hose on its own port; no hose means bolted on. */
export interface PumpOnHose {
  readonly speed_m3_s: number;
  readonly ultimate_Pa: number;
  readonly hose: Tube | null;
  /** Valve cores left in the line. */
  readonly coresLeftIn?: number;
}

/** Open area past a core left in: assumed, low confidence. As an aperture: molecular c/4, viscous about 200 m/s. */
const CORE_AREA_M2 = 5e-6;
const CORE_VISCOUS_M_S = 200;

/**
 * Speed at the vessel of pumps on hoses. For each, the inlet pressure at which the hose passes what the pump takes:
 *
 *   C((P + Pp)/2) (P - Pp) = S0 (Pp - Pu);  S = S0 (Pp - Pu)/P
 *
 * @param pumps pumps with speed [m3/s], ultimate pressure [Pa abs] and hose [m]
 * @param pressure_Pa pressure in the vessel [Pa abs]
 * @returns speed at the vessel [m3/s]; 0 at or below the ultimate pressure
 * @throws OutOfDomainError unless the pressure is above 0
 * @validity laminar hose; the first minutes from atmosphere are turbulent and some per cent slower
 * @source mass balance
 */
export function effectiveSpeed(
  pumps: readonly PumpOnHose[],
  pressure_Pa: number,
  gas: Gas = GASES.air,
  temperature_K = 293.15,
): number {
  requirePositive('pressure [Pa abs]', pressure_Pa);
  const speed_m_s = meanMolecularSpeed(gas, temperature_K);
  return pumps.reduce((sum, pump) => sum + speedOf(pump, pressure_Pa, gas, speed_m_s), 0);
}

function speedOf(pump: PumpOnHose, pressure_Pa: number, gas: Gas, speed_m_s: number): number {
  const { speed_m3_s, ultimate_Pa, hose, coresLeftIn = 0 } = pump;
  if (pressure_Pa <= ultimate_Pa) return 0;
  if (!hose && coresLeftIn === 0) return speed_m3_s * (1 - ultimate_Pa / pressure_Pa);
  const excess = (inlet_Pa: number): number =>
    lineConductance(hose, coresLeftIn, (pressure_Pa + inlet_Pa) / 2, gas, speed_m_s) *
      (pressure_Pa - inlet_Pa) -
    speed_m3_s * (inlet_Pa - ultimate_Pa);
  let [low, high] = [ultimate_Pa, pressure_Pa];
  for (let step = 0; step < 50 && high - low > 1e-9 * pressure_Pa; step += 1) {
    const middle = (low + high) / 2;
    if (excess(middle) > 0) low = middle;
    else high = middle;
  }
  return (speed_m3_s * ((low + high) / 2 - ultimate_Pa)) / pressure_Pa;
}

function lineConductance(
  hose: Tube | null,
  cores: number,
  pressure_Pa: number,
  gas: Gas,
  speed_m_s: number,
): number {
  const tube = hose
    ? conductanceUnchecked(hose.bore_m, hose.length_m, pressure_Pa, gas, speed_m_s)
    : Infinity;
  if (cores === 0) return tube;
  const knudsenLike = 1 / (1 + 0.01 * pressure_Pa);
  const core = CORE_AREA_M2 * (knudsenLike * (speed_m_s / 4) + (1 - knudsenLike) * CORE_VISCOUS_M_S);
  return 1 / (1 / tube + cores / core);
}
