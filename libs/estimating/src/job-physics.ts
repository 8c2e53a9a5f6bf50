import type { HoseSet, RecoveryMachine, VacuumPump } from '@brimline/firm';
import type { Result } from '@brimline/quantities';
import {
  bubblePressure,
  pressureClass,
  saturatedVapourDensity,
  vapourViscosityEstimate,
} from '@brimline/refrigerants';
import {
  type BoilOff,
  boilOff,
  CHILLER_CONDUCTANCE_W_K,
  CYLINDER_CONDUCTANCE_W_K,
  directTransfer,
  gasFlow,
  pushPullState,
  pushPullTransfer,
  type TransferProblem,
  type VapourRecovery,
  vapourRecovery,
} from '@brimline/transfer';
import { type Evacuation, evacuation, type VacuumProblem } from '@brimline/vacuum';
import type { JobContext } from './job-context.ts';
import { pathOf, type TransferWay } from './transfer-way.ts';

export interface LiquidRate {
  readonly massFlow_kg_s: number;
  readonly limitedBy: string;
}

/** A pump on its hose, with the valve cores that are left in between. */
export interface VacuumLine {
  readonly pump: VacuumPump;
  readonly vacuumHose: HoseSet;
  readonly coresLeftIn: number;
}

const machinesKey = (machines: readonly RecoveryMachine[]): string => machines.map(({ id }) => id).join(' ');
const hoseKey = ({ hose, coresRemoved }: TransferWay): string => `${hose.id} ${coresRemoved}`;

/** The physics that the ways of one job share: each balance is solved once, however many ways read it. */
export class JobPhysics {
  private readonly rates = new Map<string, LiquidRate>();
  private readonly vapours = new Map<string, Result<VapourRecovery, TransferProblem>>();
  private readonly boils = new Map<string, BoilOff>();
  private readonly lines = new Map<string, number>();
  private readonly pulls = new Map<string, Result<Evacuation, VacuumProblem>>();

  constructor(private readonly context: JobContext) {}

  /**
   * The steady flow of liquid by a way, out of the chiller or out of cylinders. What limits a push-pull takes three
   * more balances: it is worked out only for the ways that somebody will read.
   */
  liquidRate(
    way: TransferWay,
    from: 'chiller' | 'cylinder',
    temperature_K: number,
    showsLimit: boolean,
  ): LiquidRate {
    const vessel = way.method === 'direct' ? '' : `${from} ${way.coolerBypassed}`;
    const key = `${way.method} ${machinesKey(way.machines)} ${hoseKey(way)} ${vessel} ${temperature_K} ${showsLimit}`;
    return remembered(this.rates, key, () => this.solveLiquid(way, from, temperature_K, showsLimit));
  }

  /** Vapour from a volume down to a pressure. */
  vapour(
    way: TransferWay,
    input: {
      readonly volume_m3: number;
      readonly temperature_K: number;
      readonly startPressure_Pa: number;
      readonly endPressure_Pa: number;
    },
  ): Result<VapourRecovery, TransferProblem> {
    const key = `${machinesKey(way.machines)} ${hoseKey(way)} ${Object.values(input).join(' ')}`;
    return remembered(this.vapours, key, () =>
      vapourRecovery({
        ...input,
        refrigerant: this.context.refrigerant,
        machines: way.machines,
        path: pathOf(this.context, way),
      }),
    );
  }

  /** Liquid that stays in low spots, boiled off by the heat that reaches it. */
  boilOff(way: TransferWay, conductance_W_K: number, heatSource_K: number): BoilOff {
    const { refrigerant, chiller } = this.context;
    return remembered(this.boils, `${machinesKey(way.machines)} ${conductance_W_K} ${heatSource_K}`, () =>
      boilOff({
        refrigerant,
        machines: way.machines,
        conductance_W_K,
        heatSource_K,
        ...(chiller.evaporatorFluid === 'none' ? {} : { freezingPoint_K: chiller.freezingPoint_K }),
      }),
    );
  }

  /** Most vapour that a hose passes from a cylinder into a vacuum. */
  vapourLine(way: TransferWay): number {
    const { refrigerant, ambient_K } = this.context;
    return remembered(
      this.lines,
      hoseKey(way),
      () =>
        gasFlow({
          path: pathOf(this.context, way),
          upstreamPressure_Pa: bubblePressure(refrigerant, ambient_K),
          upstreamDensity_kg_m3: saturatedVapourDensity(refrigerant, ambient_K),
          viscosity_Pa_s: vapourViscosityEstimate(refrigerant, ambient_K).value_Pa_s,
          downstreamPressure_Pa: 0,
        }).massFlow_kg_s,
    );
  }

  /** One pull from atmosphere. */
  pull(line: VacuumLine, to_Pa: number, water_kg: number): Result<Evacuation, VacuumProblem> {
    const { pump, vacuumHose, coresLeftIn } = line;
    const { volume_m3, atmosphere_Pa, ambient_K } = this.context;
    return remembered(this.pulls, `${pump.id} ${vacuumHose.id} ${coresLeftIn} ${to_Pa} ${water_kg}`, () =>
      evacuation({
        volume_m3,
        pumps: [
          { speed_m3_s: pump.speed_m3_s, ultimate_Pa: pump.ultimate_Pa, hose: vacuumHose, coresLeftIn },
        ],
        from_Pa: atmosphere_Pa,
        to_Pa,
        temperature_K: Math.max(ambient_K, 274),
        water_kg,
      }),
    );
  }

  private solveLiquid(
    way: TransferWay,
    from: 'chiller' | 'cylinder',
    temperature_K: number,
    showsLimit: boolean,
  ): LiquidRate {
    const { context } = this;
    const common = {
      refrigerant: context.refrigerant,
      temperature_K,
      surroundings_K: context.ambient_K,
      machines: way.machines,
      path: pathOf(context, way),
    };
    if (way.method === 'direct') {
      const { massFlow_kg_s, limitedBy } = directTransfer(common);
      return { massFlow_kg_s, limitedBy: limitedBy.text };
    }
    const balance = {
      ...common,
      coolerBypassed: way.coolerBypassed,
      head_m: from === 'chiller' ? -context.lift_m : context.lift_m,
      sourceConductance_W_K: from === 'chiller' ? CHILLER_CONDUCTANCE_W_K : CYLINDER_CONDUCTANCE_W_K,
      ...(from === 'chiller' ? shellLimit(context, temperature_K) : {}),
    };
    if (!showsLimit) return { massFlow_kg_s: pushPullState(balance).massFlow_kg_s, limitedBy: '' };
    const { massFlow_kg_s, limitedBy } = pushPullTransfer(balance);
    return { massFlow_kg_s, limitedBy: limitedBy.text };
  }
}

/** A push may lift a shell this much over the pressure at which its liquid stands by itself. */
const LEAST_PUSH = 1.05;

/** A low-pressure shell has a bursting disc: it is never pushed past its test pressure. */
function shellLimit(
  { chiller, refrigerant, atmosphere_Pa }: JobContext,
  temperature_K: number,
): { readonly highestSource_Pa?: number } {
  if (pressureClass(refrigerant) !== 'low') return {};
  const stands_Pa = bubblePressure(refrigerant, temperature_K) * LEAST_PUSH;
  return { highestSource_Pa: Math.max(atmosphere_Pa + chiller.testPressure_Pa_gauge, stands_Pa) };
}

function remembered<Value>(known: Map<string, Value>, key: string, work: () => Value): Value {
  const found = known.get(key);
  if (found !== undefined) return found;
  const value = work();
  known.set(key, value);
  return value;
}
