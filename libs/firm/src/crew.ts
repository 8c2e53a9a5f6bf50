import type { LocalSpan, WeeklyWindow } from './calendar-facts.ts';

export type CertificateKind = 'type I' | 'type II' | 'type III' | 'universal' | 'start-up';

export interface Certificate {
  readonly kind: CertificateKind;
  /** Last local day on which it is valid; null when it does not expire. */
  readonly validUntil: string | null;
}

export interface Person {
  readonly id: string;
  readonly name: string;
  readonly grade: 'lead' | 'technician' | 'helper';
  readonly certificates: readonly Certificate[];
  readonly labourClass: string;
  readonly baseId: string;
  /** Wall clock of the person's base. */
  readonly shifts: readonly WeeklyWindow[];
  readonly absences: readonly LocalSpan[];
}

/** A yard or office from which people and gear set out. */
export interface Base {
  readonly id: string;
  readonly name: string;
  readonly timeZone: string;
  readonly latitude_deg: number;
  readonly longitude_deg: number;
}
