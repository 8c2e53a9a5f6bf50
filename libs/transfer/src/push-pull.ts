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
import { staticHead } from './liquid-flow.ts';
import type { Limit } from './notes.ts';
import { pathResistance } from './path-resistance.ts';
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
/** How much warmer than the source it may be: a source at a low head. */
const WARMEST_RECEIVER_K = 10;
/** How much colder than the source it stands in most jobs: from here the search goes. */
const USUAL_RECEIVER_K = 1;
/** First step of the search to either side, and how much longer each next one is. */
const FIRST_STRIDE_K = 0.6;
const STRIDE_GROWTH = 3;
const RECEIVER_TOLERANCE_K = 1e-4;
/** Flows between which a balance is sought. */
const LEAST_FLOW_KG_S = 1e-9;
const MOST_FLOW_KG_S = 1e3;

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
  /** What the vessel that is emptied may stand, absolute; the end of the refrigerant's table unless given. */
  readonly highestSource_Pa?: number;
}

export interface PushPullState {
  readonly massFlow_kg_s: number;
  readonly pressureDifference_Pa: number;
  readonly sourceVapourTemperature_K: number;
  readonly receiverTemperature_K: number;
  readonly vapourFlow_kg_s: number;
  /** Share of the vapour moved that displaces liquid. */
  readonly displacingShare: number;
  /** The machines are held back so that the source does not pass its highest pressure. */
  readonly isThrottled: boolean;
}

/** Saturated vapour in one of the two vessels. */
interface VapourSpace {
  readonly temperature_K: number;
  readonly pressure_Pa: number;
  readonly density_kg_m3: number;
}

/** How near its highest a pressure counts as having reached it. */
const HIGHEST_SLACK = 1e-6;
/** Share of a flow to which the balance of vapour is closed. */
const FLOW_TOLERANCE = 1e-6;
/** How far the search for a flow first looks to both sides of the last one found. */
const FIRST_STRIDE = 1.25;
const NEXT_STRIDE = 1.03;
const SETTLED_STRIDE = 1 + 1e-5;
/** Differences for Newton's slopes, its longest steps, and the step at which it has settled. */
const [STEP_K, STEP_SHARE] = [1e-3, 1e-4];
const [LONGEST_K, LONGEST_SHARE] = [5, 0.6];
const SETTLED_K = 1e-5;
const MOST_TURNS = 12;

/** The balance of vapour for a receiver temperature, with everything that does not change while it is sought. */
class Balance {
  private readonly density_kg_m3: number;
  private readonly latent_J_kg: number;
  private readonly heatCapacity_J_kgK: number;
  private readonly head_Pa: number;
  private readonly highest_Pa: number;
  private readonly lowest_Pa: number;
  private readonly resistance: (massFlow_kg_s: number) => number;
  private readonly cooler: { readonly conductance_W_K: number; readonly sink_K: number } | null;
  /** The flow found last: a receiver a little warmer or colder has nearly the same. */
  private lastFlow_kg_s = 0.1;
  private stride = FIRST_STRIDE;

  constructor(
    private readonly input: PushPullInput,
    private readonly machines: readonly Displacement[],
  ) {
    const { refrigerant: r, temperature_K, head_m = 0, surroundings_K, coolerTemperature_K } = input;
    this.density_kg_m3 = liquidDensity(r, temperature_K);
    this.latent_J_kg = latentHeat(r, temperature_K);
    this.heatCapacity_J_kgK = liquidHeatCapacity(r, temperature_K);
    this.head_Pa = staticHead(this.density_kg_m3, head_m);
    this.highest_Pa = Math.min(input.highestSource_Pa ?? Infinity, bubblePressure(r, r.tableMaximum_K));
    this.lowest_Pa = bubblePressure(r, r.tableMinimum_K);
    this.resistance = pathResistance(input.path, liquidViscosityEstimate(r, temperature_K).value_Pa_s);
    this.cooler = input.coolerBypassed
      ? null
      : {
          conductance_W_K: input.machines.reduce((sum, machine) => sum + machine.cooler_W_K, 0),
          sink_K: coolerTemperature_K ?? (surroundings_K ?? temperature_K) - 7,
        };
  }

  /** Mass balance of the receiver at the flow that uses up the vapour. */
  receiverExcess(receiver_K: number): number {
    const receiver = this.vapourOver(receiver_K);
    const flow = this.liquidFlow(receiver);
    const taken_kg_s = this.vapourTaken(receiver, this.sourceVapour(receiver, flow), flow);
    return this.excessOf(receiver, flow, taken_kg_s);
  }

  /** What the machine takes beyond the displaced space, less what boils off. */
  private excessOf(receiver: VapourSpace, flow: number, taken_kg_s: number): number {
    const { temperature_K, surroundings_K, receiverConductance_W_K = RECEIVER_CONDUCTANCE_W_K } = this.input;
    const heat_W =
      flow * this.heatCapacity_J_kgK * (temperature_K - receiver.temperature_K) +
      receiverConductance_W_K * ((surroundings_K ?? temperature_K) - receiver.temperature_K);
    const displaced_kg_s = (receiver.density_kg_m3 * flow) / this.density_kg_m3;
    return taken_kg_s - displaced_kg_s - heat_W / this.latent_J_kg;
  }

  /**
   * Both balances at once by Newton's method, from a receiver temperature near the answer. Null where it does not
   * settle or the machines are held back: the search by brackets then decides.
   */
  settleFrom(near_K: number): number | null {
    let receiver_K = near_K;
    let flow = this.lastFlow_kg_s;
    for (let turn = 0; turn < MOST_TURNS; turn += 1) {
      const here = this.residuals(receiver_K, flow);
      const warmer = this.residuals(receiver_K + STEP_K, flow);
      const faster = this.residuals(receiver_K, flow * (1 + STEP_SHARE));
      if (!here || !warmer || !faster) return null;
      const [leftByK, excessByK] = [
        (warmer.left - here.left) / STEP_K,
        (warmer.excess - here.excess) / STEP_K,
      ];
      const leftByShare = (faster.left - here.left) / STEP_SHARE;
      const excessByShare = (faster.excess - here.excess) / STEP_SHARE;
      const determinant = leftByK * excessByShare - leftByShare * excessByK;
      const change_K = (here.left * excessByShare - here.excess * leftByShare) / determinant;
      const changeShare = (here.excess * leftByK - here.left * excessByK) / determinant;
      if (!Number.isFinite(change_K + changeShare)) return null;
      // Far from the answer a full step may overshoot: both are cut short by the same share.
      const cut = Math.min(1, LONGEST_K / Math.abs(change_K), LONGEST_SHARE / Math.abs(changeShare));
      receiver_K -= cut * change_K;
      flow *= 1 - cut * changeShare;
      if (Math.abs(change_K) > SETTLED_K || Math.abs(changeShare) > FLOW_TOLERANCE) continue;
      this.lastFlow_kg_s = flow;
      this.stride = SETTLED_STRIDE;
      return receiver_K;
    }
    return null;
  }

  private residuals(
    receiver_K: number,
    flow: number,
  ): { readonly left: number; readonly excess: number } | null {
    const receiver = this.vapourOver(receiver_K);
    const source = this.sourceVapour(receiver, flow);
    if (this.isAtHighest(source) || source.pressure_Pa === this.lowest_Pa) return null;
    const moved_kg_s = this.vapourMoved(receiver, source.pressure_Pa);
    return {
      left: moved_kg_s - this.vapourUsed(source, flow, moved_kg_s),
      excess: this.excessOf(receiver, flow, moved_kg_s),
    };
  }

  state(receiver_K: number): PushPullState {
    const receiver = this.vapourOver(receiver_K);
    const massFlow_kg_s = this.liquidFlow(receiver);
    const source = this.sourceVapour(receiver, massFlow_kg_s);
    const vapourFlow_kg_s = this.vapourTaken(receiver, source, massFlow_kg_s);
    const displacing_kg_s = (massFlow_kg_s / this.density_kg_m3) * source.density_kg_m3;
    return {
      massFlow_kg_s,
      pressureDifference_Pa: source.pressure_Pa - receiver.pressure_Pa,
      sourceVapourTemperature_K: source.temperature_K,
      receiverTemperature_K: receiver_K,
      vapourFlow_kg_s,
      displacingShare: vapourFlow_kg_s === 0 ? 0 : displacing_kg_s / vapourFlow_kg_s,
      isThrottled: this.isAtHighest(source),
    };
  }

  private isAtHighest({ pressure_Pa }: VapourSpace): boolean {
    return pressure_Pa >= this.highest_Pa * (1 - HIGHEST_SLACK);
  }

  /** What the machines take; throttled at the highest pressure of the source, no more than goes on from there. */
  private vapourTaken(receiver: VapourSpace, source: VapourSpace, flow: number): number {
    const moved_kg_s = this.vapourMoved(receiver, source.pressure_Pa);
    return this.isAtHighest(source)
      ? Math.min(moved_kg_s, this.vapourUsed(source, flow, moved_kg_s))
      : moved_kg_s;
  }

  /** Liquid flow at which the delivered vapour is used up. The vapour left over falls as the flow grows. */
  private liquidFlow(receiver: VapourSpace): number {
    const unused = (flow: number): number => this.vapourLeft(receiver, flow);
    let [low, high] = [this.lastFlow_kg_s / this.stride, this.lastFlow_kg_s * this.stride];
    let [atLow, atHigh] = [unused(low), unused(high)];
    for (let stride = this.stride; atHigh > 0 && high < MOST_FLOW_KG_S; stride *= stride) {
      [low, atLow] = [high, atHigh];
      high *= stride;
      atHigh = unused(high);
    }
    for (let stride = this.stride; atLow <= 0; stride *= stride) {
      if (low === 0) return 0;
      [high, atHigh] = [low, atLow];
      low = low < LEAST_FLOW_KG_S ? 0 : low / stride;
      atLow = unused(low);
    }
    this.stride = NEXT_STRIDE;
    this.lastFlow_kg_s = rootBetween(unused, low, high, FLOW_TOLERANCE * high, atLow, atHigh);
    return this.lastFlow_kg_s;
  }

  private vapourOver(temperature_K: number): VapourSpace {
    const { refrigerant: r } = this.input;
    return {
      temperature_K,
      pressure_Pa: bubblePressure(r, temperature_K),
      density_kg_m3: vapourDensityOverLiquid(r, temperature_K),
    };
  }

  /** What stands over the source's liquid so that the hose passes the flow. */
  private sourceVapour(receiver: VapourSpace, flow: number): VapourSpace {
    const { refrigerant: r } = this.input;
    const loss_Pa = flow <= 0 ? 0 : (this.resistance(flow) * flow * flow) / (2 * this.density_kg_m3);
    const needed_Pa = receiver.pressure_Pa + loss_Pa - this.head_Pa;
    const pressure_Pa = Math.min(this.highest_Pa, Math.max(this.lowest_Pa, needed_Pa));
    const temperature_K = bubbleTemperature(r, pressure_Pa);
    return { temperature_K, pressure_Pa, density_kg_m3: vapourDensityOverLiquid(r, temperature_K) };
  }

  private vapourMoved(receiver: VapourSpace, source_Pa: number): number {
    const ratio = source_Pa / receiver.pressure_Pa;
    const density_kg_m3 = SUPERHEAT_FACTOR * receiver.density_kg_m3;
    let sum = 0;
    for (const { displacement_m3_s, clearance } of this.machines) {
      sum += displacement_m3_s * efficiencyUnchecked(clearance, ratio) * density_kg_m3;
    }
    return sum;
  }

  private vapourLeft(receiver: VapourSpace, flow: number): number {
    const source = this.sourceVapour(receiver, flow);
    const moved_kg_s = this.vapourMoved(receiver, source.pressure_Pa);
    if (source.pressure_Pa === this.highest_Pa) return -moved_kg_s;
    return moved_kg_s - this.vapourUsed(source, flow, moved_kg_s);
  }

  /** Vapour that condenses in the cooler and on the source's liquid, and what fills the room that the liquid leaves. */
  private vapourUsed(source: VapourSpace, flow: number, moved_kg_s: number): number {
    const { temperature_K, sourceConductance_W_K = CHILLER_CONDUCTANCE_W_K } = this.input;
    const condensed_kg_s =
      (sourceConductance_W_K * (source.temperature_K - temperature_K)) / this.latent_J_kg;
    const displacing_kg_s = (flow / this.density_kg_m3) * source.density_kg_m3;
    return this.condensedInCooler(source.temperature_K, moved_kg_s) + condensed_kg_s + displacing_kg_s;
  }

  private condensedInCooler(source_K: number, moved_kg_s: number): number {
    if (!this.cooler) return 0;
    const { conductance_W_K, sink_K } = this.cooler;
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
  return stateNear(input, null);
}

/** The same, with a receiver temperature near which it is first looked for. */
function stateNear(input: PushPullInput, near_K: number | null): PushPullState {
  requirePath(input.path);
  requireNotNegative(
    'conductance of the source [W/K]',
    input.sourceConductance_W_K ?? CHILLER_CONDUCTANCE_W_K,
  );
  const balance = new Balance(input, input.machines.map(displacementForPushPull));
  const { temperature_K, refrigerant } = input;
  const warmest_K = Math.min(temperature_K + WARMEST_RECEIVER_K, refrigerant.tableMaximum_K);
  const coldest_K = Math.max(temperature_K - COLDEST_RECEIVER_K, refrigerant.tableMinimum_K);
  const guess_K = near_K ?? temperature_K - USUAL_RECEIVER_K;
  const settled_K = isBetween(guess_K, coldest_K, warmest_K) ? balance.settleFrom(guess_K) : null;
  return balance.state(
    settled_K !== null && isBetween(settled_K, coldest_K, warmest_K)
      ? settled_K
      : receiverBetween(balance, coldest_K, warmest_K, guess_K),
  );
}

const isBetween = (value: number, low: number, high: number): boolean => low < value && value < high;

/** The receiver's temperature at balance, first looked for near a guess; an end where the balance lies beyond it. */
function receiverBetween(balance: Balance, coldest_K: number, warmest_K: number, guess_K: number): number {
  const excess = (receiver_K: number): number => balance.receiverExcess(receiver_K);
  let [low_K, high_K] = [guess_K, guess_K];
  let stride_K = FIRST_STRIDE_K;
  const atGuess = excess(guess_K);
  let [atLow, atHigh] = [atGuess, atGuess];
  while (atLow >= 0 && low_K > coldest_K) {
    [high_K, atHigh] = [low_K, atLow];
    low_K = Math.max(coldest_K, low_K - stride_K);
    atLow = excess(low_K);
    stride_K *= STRIDE_GROWTH;
  }
  while (atHigh <= 0 && high_K < warmest_K) {
    [low_K, atLow] = [high_K, atHigh];
    high_K = Math.min(warmest_K, high_K + stride_K);
    atHigh = excess(high_K);
    stride_K *= STRIDE_GROWTH;
  }
  if (atLow >= 0) return coldest_K;
  if (atHigh <= 0) return warmest_K;
  return rootBetween(excess, low_K, high_K, RECEIVER_TOLERANCE_K, atLow, atHigh);
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
  const eased_kg_s = (change: Partial<PushPullInput>): number =>
    stateNear({ ...input, ...change }, state.receiverTemperature_K).massFlow_kg_s;
  const byHose = eased_kg_s({ path: wider });
  const byMachine = eased_kg_s({ machines: stronger });
  const byCooler = input.coolerBypassed ? 0 : eased_kg_s({ coolerBypassed: true });
  return { ...state, limitedBy: limitOf(input, state, byHose, byMachine, byCooler) };
}

function limitOf(
  input: PushPullInput,
  state: PushPullState,
  byHose: number,
  byMachine: number,
  byCooler: number,
): Limit {
  if (state.isThrottled) return { code: 'source-pressure', text: 'the pressure that the source may stand' };
  if (byCooler > Math.max(byHose, byMachine)) return { code: 'cooler', text: 'the cooler left in circuit' };
  if (byMachine >= byHose) return { code: 'machine-vapour-rate', text: "the machine's vapour rate" };
  const r = input.refrigerant;
  return tightestPiece(input.path, state.massFlow_kg_s, {
    density_kg_m3: liquidDensity(r, input.temperature_K),
    viscosity_Pa_s: liquidViscosityEstimate(r, input.temperature_K).value_Pa_s,
  });
}
