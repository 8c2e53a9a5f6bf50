import { KELVIN_AT_ZERO_CELSIUS } from '@brimline/quantities';
import type { Refrigerant } from '@brimline/refrigerants';
import { chokedLiquidFlow, flashingState } from './flashing-flow.ts';
import type { HosePiece } from './hose-path.ts';
import { staticHead } from './liquid-flow.ts';
import type { Limit } from './notes.ts';
import type { MachineRating } from './recovery-machine.ts';
import { tightestPiece } from './tightest-piece.ts';

/** Above this the machine's condenser holds it back: assumed, low confidence. */
const HOT_DAY_K = 35 + KELVIN_AT_ZERO_CELSIUS;
const HOT_DAY_FACTOR = 0.7;

export interface DirectTransferInput {
  readonly refrigerant: Refrigerant;
  /** Of the liquid in the source, saturated. */
  readonly temperature_K: number;
  /** In parallel, each on its own hose. */
  readonly machines: readonly MachineRating[];
  /** From the source to one machine. */
  readonly path: readonly HosePiece[];
  /** Source level above the machine; 0 unless given. */
  readonly head_m?: number;
  /** Air round the machine; the liquid's temperature unless given. */
  readonly surroundings_K?: number;
}

/** A rate before utilisation: change-overs, stops and the slow end are not in it. */
export interface TransferFlow {
  readonly massFlow_kg_s: number;
  readonly limitedBy: Limit;
}

/**
 * Liquid through the machines' own liquid paths:
 *
 *   m = sum over machines of min( rated liquid flow x hot-day factor, flow that flashes and chokes in the suction hose )
 *
 * @param input refrigerant, temperatures [K], machines [kg/s], hose path [m], level difference [m]
 * @returns mass flow [kg/s] and what limits it
 * @throws OutOfDomainError outside the refrigerant's table or for an impossible path
 * @validity saturated source; the factor 0.7 above 35 degC is assumed, low confidence
 * @source homogeneous equilibrium flow: Leung, AIChE J. 32 (1986) 1743, from memory
 */
export function directTransfer(input: DirectTransferInput): TransferFlow {
  const { refrigerant, temperature_K, machines, path, head_m = 0, surroundings_K = temperature_K } = input;
  const state = flashingState(refrigerant, temperature_K);
  const choked_kg_s = chokedLiquidFlow({
    path,
    state,
    margin_Pa: Math.max(0, staticHead(state.density_kg_m3, head_m)),
  });
  const isHot = surroundings_K > HOT_DAY_K;
  let massFlow_kg_s = 0;
  let isHoseLimited = false;
  for (const { directLiquidRate_kg_s } of machines) {
    const machine_kg_s = directLiquidRate_kg_s * (isHot ? HOT_DAY_FACTOR : 1);
    massFlow_kg_s += Math.min(machine_kg_s, choked_kg_s);
    isHoseLimited ||= choked_kg_s < machine_kg_s;
  }
  const machineLimit: Limit = isHot
    ? { code: 'hot-day', text: "the machine's liquid rate on a hot day" }
    : { code: 'machine-liquid-rate', text: "the machine's liquid rate" };
  return {
    massFlow_kg_s,
    limitedBy: isHoseLimited ? tightestPiece(path, choked_kg_s, state) : machineLimit,
  };
}
