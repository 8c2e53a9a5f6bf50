import type { Money } from '@brimline/quantities';

export interface QuoteLine {
  readonly group: 'labour' | 'travel' | 'gear' | 'cylinders' | 'refrigerant' | 'consumables' | 'permits';
  readonly text: string;
  readonly quantity: number;
  readonly unit: string;
  /** Cost of one unit, in whole minor units. */
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
  /** Money held for the attended hours between the plan and P80. */
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
  /** What the customer must know about the price. */
  readonly notes: readonly string[];
  /** What is used but has no rate on the card: it costs nothing in this quote. For the office. */
  readonly unpriced: readonly string[];
}
