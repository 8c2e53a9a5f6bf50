import { requirePositive } from '@brimline/quantities';
import { type Gas, viscosityOfGas } from './gases.ts';

/** Below this the flow is laminar whatever the friction law says; the two laws cross a little above. */
const LAMINAR_BELOW = 1000;

/**
 * Share of the laminar flow that is left when the flow turns turbulent under the same pressure difference. With the
 * difference given, Prandtl's law for smooth tubes needs no trial: K = Re sqrt(f) = sqrt(64 Re_laminar),
 *
 *   Re = K (2 log10 K - 0.8),  share = min(1, Re/Re_laminar)
 *
 * The lesser of the two laws is taken, so that the change comes at 1050 instead of 2300: on the safe side.
 *
 * @param laminarReynolds Reynolds number that laminar flow would have [-]
 * @returns factor on the viscous conductance, 0 to 1 [-]
 * @throws nothing; not negative
 * @validity smooth bore; gas at the mean density, not choked
 * @source L. Prandtl's universal law of friction for smooth pipes, any text on fluid mechanics, from memory
 * @example turbulenceFactor(50000) // => 0.2265
 */
export function turbulenceFactor(laminarReynolds: number): number {
  if (laminarReynolds < LAMINAR_BELOW) return 1;
  const karman = 8 * Math.sqrt(laminarReynolds);
  return Math.min(1, (karman * (2 * Math.log10(karman) - 0.8)) / laminarReynolds);
}

/** Reynolds number for each kg/s: 4/(pi d eta) [s/kg]. */
export function viscousReynoldsFactor(bore_m: number, gas: Gas, temperature_K: number): number {
  requirePositive('bore [m]', bore_m);
  return 4 / (Math.PI * bore_m * viscosityOfGas(gas, temperature_K));
}
