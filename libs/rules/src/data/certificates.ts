import type { PressureClass } from '@brimline/refrigerants';
import type { RuleFacts } from '../rule-facts.ts';

export const CERTIFICATE_TYPES = ['type I', 'type II', 'type III', 'universal'] as const;
export type CertificateType = (typeof CERTIFICATE_TYPES)[number];

/** Which technician certificate covers which pressure class; type I is for small appliances alone. */
export const CERTIFICATES: RuleFacts & {
  readonly typeForClass: Readonly<Record<PressureClass, CertificateType>>;
  readonly coversAll: CertificateType;
} = {
  citation: '40 CFR 82.161',
  trueOn: '2024-12-31',
  basis: 'from memory',
  notes: [],
  typeForClass: { low: 'type III', medium: 'type II', high: 'type II', 'very high': 'type II' },
  coversAll: 'universal',
};
