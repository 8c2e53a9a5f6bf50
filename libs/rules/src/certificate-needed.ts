import { type PressureClass, pressureClass, type Refrigerant } from '@brimline/refrigerants';
import { type CertificateType, CERTIFICATES } from './data/certificates.ts';
import { type Cited, cited } from './rule-facts.ts';

export interface CertificateNeed extends Cited {
  /** Any one of these sets, held by one person, is enough. */
  readonly anyOf: readonly (readonly CertificateType[])[];
  readonly text: string;
}

/**
 * Certificates that cover appliances of these pressure classes.
 *
 * @param classes pressure classes [-]
 * @returns sets any one of which is enough [-]
 * @source 40 CFR 82.161
 */
export function certificateForClasses(classes: readonly PressureClass[]): CertificateNeed {
  const types = [...new Set(classes.map((one) => CERTIFICATES.typeForClass[one]))].toSorted();
  const anyOf = types.length === 0 ? [] : [[CERTIFICATES.coversAll], types];
  const text = anyOf.map((set) => set.join(' with ')).join(', or ');
  return { anyOf, text, ...cited(CERTIFICATES) };
}

/**
 * Certificates that one technician needs for work on these refrigerants (appliances other than small ones).
 *
 * @param refrigerants refrigerants on the job [-]
 * @returns sets any one of which is enough [-]
 * @source 40 CFR 82.161
 * @example certificateNeeded([refrigerant('R-123')]).text // => "universal, or type III"
 */
export function certificateNeeded(refrigerants: readonly Refrigerant[]): CertificateNeed {
  return certificateForClasses(refrigerants.map((r) => pressureClass(r)));
}

/** Do the certificates held cover the need? Other kinds among them don't matter. */
export function isCovered(need: CertificateNeed, held: readonly string[]): boolean {
  return need.anyOf.length === 0 || need.anyOf.some((set) => set.every((type) => held.includes(type)));
}
