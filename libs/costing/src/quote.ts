import type { Money } from '@brimline/quantities';

export interface QuoteLine {
  readonly group: 'labour' | 'travel' | 'gear' | 'cylinders' | 'refrigerant' | 'consumables' | 'permits';
  readonly text: string;
  readonly quantity: number;
  readonly unit: string;
  /** Cost of one unit, in minor units; may be a fraction for prices given by the pound. */
  readonly unitCost_minor: number;
  readonly cost: Money;
}

/** A priced estimate. Every total equals the lines above it. */
export interface Quote {
  readonly jobId: string;
  readonly rateCardId: string;
  readonly currency: string;
  readonly lines: readonly QuoteLine[];
  readonly directCost: Money;
  readonly overheadShare: number;
  readonly overhead: Money;
  /** Money held for the attended hours between P50 and P80. */
  readonly contingency: Money;
  readonly contingencyHours: number;
  readonly contingencyRate_minor: number;
  readonly cost: Money;
  readonly marginShare: number;
  readonly margin: Money;
  readonly priceBeforeTax: Money;
  readonly taxShare: number;
  readonly tax: Money;
  readonly price: Money;
  /** Last local day of the offer: the earliest of the card's and the refrigerant's. */
  readonly goodUntil: string;
  readonly notes: readonly string[];
}
