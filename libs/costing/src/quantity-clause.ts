import { requireNotNegative } from '@brimline/quantities';

/**
 * What a price changes by when the scale shows another mass than was quoted: nothing within the deadband, and outside
 * it only the part beyond, at the unit rate, both ways.
 *
 * @param deadband share of the quoted mass, 0.02 for 2 %
 * @returns amount to add; below 0 to give back
 * @source common practice, no source
 * @example quantityAdjustment({ quoted: 2000, actual: 2130, rate: 18, deadband: 0.02 }) // => 1620
 */
export function quantityAdjustment(input: {
  readonly quoted: number;
  readonly actual: number;
  readonly rate: number;
  readonly deadband: number;
}): number {
  const { quoted, actual, rate, deadband } = input;
  for (const [name, value] of Object.entries(input)) requireNotNegative(name, value);
  const beyond = Math.max(0, Math.abs(actual - quoted) - deadband * quoted);
  return Math.sign(actual - quoted) * beyond * rate || 0;
}
