import { requireWithin } from '@brimline/quantities';

/**
 * Share of the steady rate that a crew keeps up over a whole transfer: flashing lines, hot machines, stops at the
 * scale and the slow end. Calibrated to common practice, no source; 0.40 to 0.80. Cylinder changes included.
 */
export const LIQUID_UTILISATION = 0.6;
/** The same where cylinder changes are counted as tasks of their own. */
export const LIQUID_UTILISATION_WITHOUT_CHANGES = 0.7;
/** For vapour: assumed, low confidence, 0.6 to 1. */
export const VAPOUR_UTILISATION = 0.85;

/** Span of a transfer at a steady rate and a utilisation [s]. */
export function spanOfTransfer(mass_kg: number, massFlow_kg_s: number, utilisation: number): number {
  requireWithin('utilisation', utilisation, 0.05, 1);
  return mass_kg / (massFlow_kg_s * utilisation);
}
