import { requirePositive } from '@brimline/quantities';
import { liquidDensity, type Refrigerant } from '@brimline/refrigerants';
import { RATING_TEMPERATURE_K } from './recovery-machine.ts';

export type EvaporatorKind = 'direct-expansion' | 'flooded' | 'falling-film';

export interface InternalVolume {
  readonly volume_m3: number;
  readonly low_m3: number;
  readonly high_m3: number;
  /** Share of the volume that the charge fills as liquid. */
  readonly liquidShare: number;
  readonly assumed: true;
  readonly source: string;
}

/** Shares of the volume that the charge fills as liquid, likely and range: assumed, low confidence. */
const LIQUID_SHARES: Readonly<Record<EvaporatorKind, { likely: number; low: number; high: number }>> = {
  flooded: { likely: 0.25, low: 0.12, high: 0.5 },
  'falling-film': { likely: 0.35, low: 0.2, high: 0.6 },
  'direct-expansion': { likely: 0.35, low: 0.2, high: 0.6 },
};

/**
 * Refrigerant-side volume of a machine guessed from its nameplate charge: V = M / (rhoL f).
 * A measured volume is always better: an error here is the same error in every vapour, vacuum and nitrogen time.
 *
 * @param input.refrigerant refrigerant [-]
 * @param input.charge_kg nameplate charge [kg]
 * @param input.evaporator kind of evaporator [-]
 * @param input.temperature_K temperature of the liquid, 24 degC unless given [K]
 * @returns likely, low and high volume [m3] and the share behind them [-]
 * @throws OutOfDomainError unless the charge is above 0
 * @validity complete machine with its design charge
 * @source conservation of mass; the shares are assumed, low confidence
 * @example internalVolumeFromCharge({ refrigerant: refrigerant('R-134a'), charge_kg: 453.59237, evaporator: 'flooded' }).volume_m3 // => 1.4989
 */
export function internalVolumeFromCharge(input: {
  readonly refrigerant: Refrigerant;
  readonly charge_kg: number;
  readonly evaporator: EvaporatorKind;
  readonly temperature_K?: number;
}): InternalVolume {
  requirePositive('nameplate charge [kg]', input.charge_kg);
  const liquid_m3 =
    input.charge_kg / liquidDensity(input.refrigerant, input.temperature_K ?? RATING_TEMPERATURE_K);
  const { likely, low, high } = LIQUID_SHARES[input.evaporator];
  return {
    volume_m3: liquid_m3 / likely,
    low_m3: liquid_m3 / high,
    high_m3: liquid_m3 / low,
    liquidShare: likely,
    assumed: true,
    source: `charge as liquid over ${likely} of the volume (${low} to ${high}); assumed, low confidence`,
  };
}
