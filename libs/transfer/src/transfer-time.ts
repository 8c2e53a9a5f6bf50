import { requirePositive } from '@brimline/quantities';
import type { Refrigerant } from '@brimline/refrigerants';
import { directTransfer } from './direct-transfer.ts';
import { type Hose, hosePath } from './hose-path.ts';
import type { Limit } from './notes.ts';
import { CHILLER_CONDUCTANCE_W_K, pushPullTransfer } from './push-pull.ts';
import type { MachineRating } from './recovery-machine.ts';
import { LIQUID_UTILISATION, spanOfTransfer } from './utilisation.ts';

/** A way to move liquid with real gear. */
export interface TransferSetup {
  readonly method: 'direct' | 'push-pull';
  readonly machines: readonly MachineRating[];
  readonly hose: Hose;
  /** Valve cores left in the liquid path. */
  readonly coresLeftIn: number;
  readonly coolerBypassed: boolean;
  readonly head_m?: number;
  readonly utilisation?: number;
  readonly surroundings_K?: number;
  readonly sourceConductance_W_K?: number;
}

export interface TransferTime {
  readonly time_s: number;
  /** Rate kept up over the whole transfer, utilisation included. */
  readonly rate_kg_s: number;
  readonly limitedBy: Limit;
}

/**
 * Time to move a mass of liquid: t = m / (eta_u x steady rate).
 *
 * @param input refrigerant, mass [kg], liquid temperature [K], setup
 * @returns time [s], mean rate [kg/s] and what limits
 * @throws OutOfDomainError unless the mass is above 0; outside the refrigerant's table
 * @validity 0.60 utilisation is calibrated to common practice, no source
 * @source `directTransfer`, `pushPullTransfer`
 */
export function transferTime(input: {
  readonly refrigerant: Refrigerant;
  readonly mass_kg: number;
  readonly temperature_K: number;
  readonly setup: TransferSetup;
}): TransferTime {
  requirePositive('mass [kg]', input.mass_kg);
  const { refrigerant, temperature_K, setup } = input;
  const path = hosePath(setup.hose, { coresLeftIn: setup.coresLeftIn });
  const common = {
    refrigerant,
    temperature_K,
    machines: setup.machines,
    path,
    head_m: setup.head_m ?? 0,
    surroundings_K: setup.surroundings_K ?? temperature_K,
  };
  const flow =
    setup.method === 'direct'
      ? directTransfer(common)
      : pushPullTransfer({
          ...common,
          coolerBypassed: setup.coolerBypassed,
          sourceConductance_W_K: setup.sourceConductance_W_K ?? CHILLER_CONDUCTANCE_W_K,
        });
  const utilisation = setup.utilisation ?? LIQUID_UTILISATION;
  const time_s = spanOfTransfer(input.mass_kg, flow.massFlow_kg_s, utilisation);
  return { time_s, rate_kg_s: input.mass_kg / time_s, limitedBy: flow.limitedBy };
}
