import { requireNotNegative } from '@brimline/quantities';
import {
  bubblePressure,
  bubbleTemperature,
  latentHeat,
  liquidDensity,
  liquidHeatCapacity,
  liquidViscosityEstimate,
  type Refrigerant,
} from '@brimline/refrigerants';
import type { TransferFlow } from './direct-transfer.ts';
import { type HosePiece, requirePath } from './hose-path.ts';
import { pressureLossUnchecked, staticHead } from './liquid-flow.ts';
import type { Limit } from './notes.ts';
import {
  type Displacement,
  efficiencyUnchecked,
  machineDisplacement,
  type MachineRating,
} from './recovery-machine.ts';
import { rootBetween } from './root-between.ts';
import { tightestPiece } from './tightest-piece.ts';
import { vapourDensityOverLiquid } from './vapour-space.ts';

/** Suction superheat factor: assumed, medium confidence, 0.85 to 1. */
const SUPERHEAT_FACTOR = 0.95;
/** Vapour to liquid in the vessel that is emptied, chiller and cylinder: assumed, low confidence. */
export const CHILLER_CONDUCTANCE_W_K = 300;
export const CYLINDER_CONDUCTANCE_W_K = 30;
/** Surroundings to a receiver in still air: assumed, medium confidence, 5 to 20. */
const RECEIVER_CONDUCTANCE_W_K = 10;
/** How far the receiver may run colder than the source before the balance is given up. */
const COLDEST_RECEIVER_K = 40;

export interface PushPullInput {
  readonly refrigerant: Refrigerant;
  /** Of the liquid in the vessel that is emptied. */
  readonly temperature_K: number;
  readonly machines: readonly MachineRating[];
  readonly path: readonly HosePiece[];
  readonly coolerBypassed: boolean;
  /** What the cooler gives its heat to; the surroundings less 7 K unless given. */
  readonly coolerTemperature_K?: number;
  /** Source level above the sink's; 0 unless given. */
  readonly head_m?: number;
  readonly sourceConductance_W_K?: number;
  readonly receiverConductance_W_K?: number;
  readonly surroundings_K?: number;
}

export interface PushPullState {
  readonly massFlow_kg_s: number;
  readonly pressureDifference_Pa: number;
  readonly sourceVapourTemperature_K: number;
  readonly receiverTemperature_K: number;
  readonly vapourFlow_kg_s: number;
  /** Share of the vapour moved that displaces liquid. */
  readonly displacingShare: number;
}

/** Everything that does not change while the balance is sought. */
class Balance {
  private readonly density_kg_m3: number;
  private readonly viscosity_Pa_s: number;
  private readonly latent_J_kg: number;
  private readonly heatCapacity_J_kgK: number;
  private readonly head_Pa: number;
  private readonly highest_Pa: number;
  private readonly lowest_Pa: number;

  constructor(
    private readonly input: PushPullInput,
    private readonly machines: readonly Displacement[],
  ) {
    const { refrigerant: r, temperature_K, head_m = 0 } = input;
    this.density_kg_m3 = liquidDensity(r, temperature_K);
    this.viscosity_Pa_s = liquidViscosityEstimate(r, temperature_K).value_Pa_s;
    this.latent_J_kg = latentHeat(r, temperature_K);
    this.heatCapacity_J_kgK = liquidHeatCapacity(r, temperature_K);
    this.head_Pa = staticHead(this.density_kg_m3, head_m);
    this.highest_Pa = bubblePressure(r, r.tableMaximum_K);
    this.lowest_Pa = bubblePressure(r, r.tableMinimum_K);
  }

  get fluid(): { density_kg_m3: number; viscosity_Pa_s: number } {
    return { density_kg_m3: this.density_kg_m3, viscosity_Pa_s: this.viscosity_Pa_s };
  }

  /** Liquid flow at which the delivered vapour is used up, for a receiver temperature. */
  liquidFlow(receiver_K: number): number {
    const unused = (flow: number): number => this.vapourLeft(receiver_K, flow);
    if (unused(0) <= 0) return 0;
    let high = 0.05;
    while (unused(high) > 0 && high < 1e3) high *= 2;
    return rootBetween(unused, 0, high, 1e-7 * high);
  }

  /** Mass balance of the receiver: what the machine takes beyond the displaced space, less what boils off. */
  receiverExcess(receiver_K: number): number {
    const { refrigerant, temperature_K, receiverConductance_W_K = RECEIVER_CONDUCTANCE_W_K } = this.input;
    const flow = this.liquidFlow(receiver_K);
    const volume_m3_s = flow / this.density_kg_m3;
    const taken_kg_s = this.vapourMoved(receiver_K, this.sourceVapour_K(receiver_K, flow));
    const heat_W =
      flow * this.heatCapacity_J_kgK * (temperature_K - receiver_K) +
      receiverConductance_W_K * ((this.input.surroundings_K ?? temperature_K) - receiver_K);
    return (
      taken_kg_s - vapourDensityOverLiquid(refrigerant, receiver_K) * volume_m3_s - heat_W / this.latent_J_kg
    );
  }

  state(receiver_K: number): PushPullState {
    const massFlow_kg_s = this.liquidFlow(receiver_K);
    const source_K = this.sourceVapour_K(receiver_K, massFlow_kg_s);
    const vapourFlow_kg_s = this.vapourMoved(receiver_K, source_K);
    const { refrigerant } = this.input;
    return {
      massFlow_kg_s,
      pressureDifference_Pa: bubblePressure(refrigerant, source_K) - bubblePressure(refrigerant, receiver_K),
      sourceVapourTemperature_K: source_K,
      receiverTemperature_K: receiver_K,
      vapourFlow_kg_s,
      displacingShare:
        vapourFlow_kg_s === 0
          ? 0
          : ((massFlow_kg_s / this.density_kg_m3) * vapourDensityOverLiquid(refrigerant, source_K)) /
            vapourFlow_kg_s,
    };
  }

  private sourceVapour_K(receiver_K: number, flow: number): number {
    const { refrigerant, path } = this.input;
    const loss_Pa = pressureLossUnchecked(path, flow, this.fluid);
    const pressure_Pa = bubblePressure(refrigerant, receiver_K) + loss_Pa - this.head_Pa;
    return bubbleTemperature(refrigerant, Math.min(this.highest_Pa, Math.max(this.lowest_Pa, pressure_Pa)));
  }

  private vapourMoved(receiver_K: number, source_K: number): number {
    const { refrigerant } = this.input;
    const ratio = bubblePressure(refrigerant, source_K) / bubblePressure(refrigerant, receiver_K);
    const density = SUPERHEAT_FACTOR * vapourDensityOverLiquid(refrigerant, receiver_K);
    return this.machines.reduce(
      (sum, { displacement_m3_s, clearance }) =>
        sum + displacement_m3_s * efficiencyUnchecked(clearance, ratio) * density,
      0,
    );
  }

  private vapourLeft(receiver_K: number, flow: number): number {
    const { refrigerant, temperature_K, sourceConductance_W_K = CHILLER_CONDUCTANCE_W_K } = this.input;
    const source_K = this.sourceVapour_K(receiver_K, flow);
    const moved_kg_s = this.vapourMoved(receiver_K, source_K);
    const condensed_kg_s = (sourceConductance_W_K * (source_K - temperature_K)) / this.latent_J_kg;
    const displacing_kg_s = (flow / this.density_kg_m3) * vapourDensityOverLiquid(refrigerant, source_K);
    return moved_kg_s - this.condensedInCooler(source_K, moved_kg_s) - condensed_kg_s - displacing_kg_s;
  }

  private condensedInCooler(source_K: number, moved_kg_s: number): number {
    const { coolerBypassed, machines, surroundings_K, temperature_K, coolerTemperature_K } = this.input;
    if (coolerBypassed) return 0;
    const sink_K = coolerTemperature_K ?? (surroundings_K ?? temperature_K) - 7;
    const conductance_W_K = machines.reduce((sum, machine) => sum + machine.cooler_W_K, 0);
    return Math.min(moved_kg_s, (conductance_W_K * Math.max(0, source_K - sink_K)) / this.latent_J_kg);
  }
}

/**
 * Quasi-steady balance of push-pull: machines draw vapour from the vessel that is filled and push it onto the vessel
 * that is emptied; the liquid goes by its own hose. Three balances meet: the vapour that displaces liquid is what the
 * machines deliver less what condenses; the hose passes the liquid at the pressure difference; the receiver boils off
 * what is drawn beyond the displaced space and runs colder for it.
 *
 * @param input refrigerant, temperatures [K], machines [kg/s], hose path [m], conductances [W/K], level difference [m]
 * @returns mass flow [kg/s] with the state at balance
 * @throws OutOfDomainError outside the refrigerant's table or for an impossible path
 * @validity saturated vapour spaces, no air, single-phase liquid line, steady
 * @source mass and energy balances; conductances assumed, low confidence
 */
export function pushPullState(input: PushPullInput): PushPullState {
  requirePath(input.path);
  requireNotNegative(
    'conductance of the source [W/K]',
    input.sourceConductance_W_K ?? CHILLER_CONDUCTANCE_W_K,
  );
  const balance = new Balance(input, input.machines.map(displacementForPushPull));
  const { temperature_K, refrigerant } = input;
  const warmest_K = Math.min(temperature_K + 10, refrigerant.tableMaximum_K);
  const coldest_K = Math.max(temperature_K - COLDEST_RECEIVER_K, refrigerant.tableMinimum_K);
  const excess = (receiver_K: number): number => balance.receiverExcess(receiver_K);
  if (excess(coldest_K) >= 0) return balance.state(coldest_K);
  if (excess(warmest_K) <= 0) return balance.state(warmest_K);
  return balance.state(rootBetween(excess, coldest_K, warmest_K, 1e-4));
}

/** Re-expansion at the small pressure ratios of push-pull hangs on the valves, not on the deep-vacuum clearance. */
function displacementForPushPull(rating: MachineRating): Displacement {
  return machineDisplacement({ ...rating, finalVacuum_Pa: null });
}

/**
 * The balance, with what limits it: whichever of hose, machine and cooler gains most when eased by the same share.
 *
 * @param input as `pushPullState` [-]
 * @returns mass flow [kg/s], the state at balance and the limit
 * @throws OutOfDomainError as `pushPullState`
 * @source `pushPullState`, four times
 */
export function pushPullTransfer(input: PushPullInput): TransferFlow & PushPullState {
  const state = pushPullState(input);
  const eased = 1.25;
  const wider = input.path.map((piece) => ({ ...piece, bore_m: piece.bore_m * Math.sqrt(eased) }));
  const stronger = input.machines.map((machine) => ({
    ...machine,
    vapourRate_kg_s: machine.vapourRate_kg_s * eased,
  }));
  const byHose = pushPullState({ ...input, path: wider }).massFlow_kg_s;
  const byMachine = pushPullState({ ...input, machines: stronger }).massFlow_kg_s;
  const byCooler = input.coolerBypassed ? 0 : pushPullState({ ...input, coolerBypassed: true }).massFlow_kg_s;
  return { ...state, limitedBy: limitOf(input, state, byHose, byMachine, byCooler) };
}

function limitOf(
  input: PushPullInput,
  state: PushPullState,
  byHose: number,
  byMachine: number,
  byCooler: number,
): Limit {
  if (byCooler > Math.max(byHose, byMachine)) return { code: 'cooler', text: 'the cooler left in circuit' };
  if (byMachine >= byHose) return { code: 'machine-vapour-rate', text: "the machine's vapour rate" };
  const r = input.refrigerant;
  return tightestPiece(input.path, state.massFlow_kg_s, {
    density_kg_m3: liquidDensity(r, input.temperature_K),
    viscosity_Pa_s: liquidViscosityEstimate(r, input.temperature_K).value_Pa_s,
  });
}
