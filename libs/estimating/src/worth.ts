import type { GearKind } from '@brimline/firm';

/** What an hour and a kilogram are worth, in plain numbers of a rate card; what a job costs in full is a quote's matter. */
export interface Worth {
  readonly currency: string;
  readonly personHour_minor: number;
  readonly gearHour_minor: Readonly<Partial<Record<GearKind, number>>>;
  readonly cylinderHour_minor: number;
  /** Null where the card has no price. */
  readonly refrigerant_minor_per_kg: number | null;
}

/** Without a rate card ways are ranked by person-time, with gear at a fiftieth of it: assumed, low confidence. */
const WITHOUT_CARD: Worth = {
  currency: '',
  personHour_minor: 100,
  gearHour_minor: {
    'recovery machine': 4,
    'vacuum pump': 2,
    scale: 1,
    'hose set': 1,
  },
  cylinderHour_minor: 0,
  refrigerant_minor_per_kg: null,
};

/** The worth to rank by. */
export const worthOf = (worth: Worth | undefined): Worth => worth ?? WITHOUT_CARD;
