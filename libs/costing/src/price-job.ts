import type { GearKind, RateCard, RefrigerantPrice } from '@brimline/firm';
import {
  formatNumber,
  KILOGRAMS_PER_POUND,
  type Money,
  OutOfDomainError,
  requireNotNegative,
  roundMinorUnits,
} from '@brimline/quantities';
import { priceFromMargin } from './margin.ts';
import type { PaySegment } from './pay-segments.ts';
import type { Quote, QuoteLine } from './quote.ts';

/** What a job uses, in hours, days, kilograms and pieces. */
export interface JobUsage {
  readonly jobId: string;
  readonly pay: readonly PaySegment[];
  readonly travel_h: number;
  readonly travel_km: number;
  /** Calendar days that gear is held, idle days included. */
  readonly gearDays: readonly { readonly kind: GearKind; readonly days: number }[];
  readonly cylinderDays: number;
  readonly refrigerant: { readonly name: string; readonly mass_kg: number } | null;
  readonly nitrogenCylinders: number;
  readonly filterDriers: number;
  readonly oilChanges: number;
  /** Attended hours between those planned, in which no test fails, and P80. */
  readonly contingencyHours: number;
  /** Local day on which the work is wanted done. */
  readonly due: string;
}

/**
 * Prices a job's usage by a rate card. Each line is rounded once; every total is the sum of its lines. Contingency is
 * the attended hours between the plan and P80 at the mean cost of the job's own labour hours; it bears no overhead.
 *
 * @throws OutOfDomainError for negative usage, or labour of a class that the card does not hold
 */
export function priceJob(usage: JobUsage, card: RateCard): Quote {
  const money = (minorUnits: number): Money => ({ currency: card.currency, minorUnits });
  const lines = linesOf(usage, card).map((line): QuoteLine => ({
    ...line,
    cost: money(roundMinorUnits(line.quantity * line.unitCost_minor)),
  }));
  const direct = sum(lines);
  const overhead = roundMinorUnits(direct * card.overhead);
  const { contingency, contingencyHours, contingencyRate_minor } = contingencyOf(
    usage.contingencyHours,
    lines,
  );
  const cost = direct + overhead + contingency;
  const beforeTax = roundMinorUnits(priceFromMargin(cost, card.margin));
  const tax = roundMinorUnits(beforeTax * card.tax);
  const { goodUntil, notes } = validity(usage, card);
  return {
    jobId: usage.jobId,
    rateCardId: card.id,
    currency: card.currency,
    lines,
    directCost: money(direct),
    overheadShare: card.overhead,
    overhead: money(overhead),
    contingency: money(contingency),
    contingencyHours,
    contingencyRate_minor,
    cost: money(cost),
    marginShare: card.margin,
    margin: money(beforeTax - cost),
    priceBeforeTax: money(beforeTax),
    taxShare: card.tax,
    tax: money(tax),
    price: money(beforeTax + tax),
    goodUntil,
    notes,
    unpriced: unpriced(usage, card),
  };
}

function contingencyOf(
  hours: number,
  lines: readonly QuoteLine[],
): { contingency: number; contingencyHours: number; contingencyRate_minor: number } {
  requireNotNegative('contingency hours', hours);
  const labour = lines.filter(({ group }) => group === 'labour');
  const labourHours = labour.reduce((total, { quantity }) => total + quantity, 0);
  const contingencyRate_minor = labourHours > 0 ? roundMinorUnits(sum(labour) / labourHours) : 0;
  const contingencyHours = roundedHours(hours);
  return {
    contingency: roundMinorUnits(contingencyHours * contingencyRate_minor),
    contingencyHours,
    contingencyRate_minor,
  };
}

const sum = (lines: readonly QuoteLine[]): number =>
  lines.reduce((total, { cost }) => total + cost.minorUnits, 0);

/** Hours are billed in hundredths. */
const roundedHours = (hours: number): number => Math.round(hours * 100) / 100;

type Line = Omit<QuoteLine, 'cost'>;

function linesOf(usage: JobUsage, card: RateCard): Line[] {
  const lines: Line[] = [...labourLines(usage, card)];
  const add = (
    group: Line['group'],
    text: string,
    quantity: number,
    unit: string,
    unitCost_minor: number,
  ): void => {
    requireNotNegative(text, quantity);
    if (quantity > 0) lines.push({ group, text, quantity, unit, unitCost_minor });
  };
  add('travel', 'travel time', roundedHours(usage.travel_h), 'h', card.travelPerHour_minor);
  add('travel', 'vehicle', Math.round(usage.travel_km), 'km', card.vehiclePerKilometre_minor);
  for (const { kind, days } of usage.gearDays) {
    const rate = card.gearPerDay.find((one) => one.kind === kind);
    if (rate) add('gear', kind, days, 'd', rate.costPerDay_minor);
  }
  add('cylinders', 'cylinders held', usage.cylinderDays, 'cylinder-d', card.cylinderPerDay_minor);
  const gas = usage.refrigerant;
  const price = refrigerantPrice(usage, card);
  if (gas && price) {
    const pounds = Math.round((gas.mass_kg / KILOGRAMS_PER_POUND) * 100) / 100;
    const perPound_minor = roundMinorUnits(
      (price.price.minorUnits / price.price.per_kg) * KILOGRAMS_PER_POUND,
    );
    add('refrigerant', `${gas.name}, new`, pounds, 'lb', perPound_minor);
  }
  add('consumables', 'nitrogen cylinders', usage.nitrogenCylinders, 'each', card.nitrogenCylinder_minor);
  add('consumables', 'filter-driers', usage.filterDriers, 'each', card.filterDrier_minor);
  add('consumables', 'pump oil changes', usage.oilChanges, 'each', card.vacuumOilChange_minor);
  add('permits', 'permits', 1, 'job', card.permit_minor);
  return lines;
}

function labourLines({ pay }: JobUsage, card: RateCard): Line[] {
  const known = card.labour.map(({ labourClass }) => labourClass);
  const stranger = pay.find(({ labourClass }) => !known.includes(labourClass));
  if (stranger)
    throw new OutOfDomainError(
      'labour class',
      stranger.labourClass,
      `a class of the card: ${known.join(', ')}`,
    );
  return card.labour.flatMap(({ labourClass, costPerHour_minor }) =>
    pay
      .filter((segment) => segment.labourClass === labourClass && segment.hours > 0)
      .toSorted((a, b) => a.multiplier - b.multiplier)
      .map(({ rule, multiplier, hours }): Line => ({
        group: 'labour',
        text:
          multiplier === 1
            ? `${labourClass}, straight time`
            : `${labourClass}, ${rule} at ${formatNumber(multiplier, 2)}`,
        quantity: roundedHours(hours),
        unit: 'h',
        unitCost_minor: roundMinorUnits(costPerHour_minor * multiplier),
      })),
  );
}

function refrigerantPrice({ refrigerant: gas }: JobUsage, card: RateCard): RefrigerantPrice | undefined {
  return gas && gas.mass_kg > 0
    ? card.refrigerants.find(({ refrigerant }) => refrigerant === gas.name)
    : undefined;
}

function unpriced(usage: JobUsage, card: RateCard): string[] {
  const kinds = usage.gearDays.map(({ kind }) => kind);
  const missing = kinds.filter((kind) => !card.gearPerDay.some((rate) => rate.kind === kind));
  const gas = usage.refrigerant;
  return [
    ...missing.map((kind) => `day rate of a ${kind}`),
    ...(gas && gas.mass_kg > 0 && !refrigerantPrice(usage, card) ? [`price of ${gas.name}`] : []),
  ];
}

function validity(usage: JobUsage, card: RateCard): Pick<Quote, 'goodUntil' | 'notes'> {
  const gas = usage.refrigerant;
  const price = refrigerantPrice(usage, card);
  const notes: string[] = [];
  if (gas && gas.mass_kg > 0 && !price) notes.push(`New ${gas.name} is not in this price.`);
  if (price && price.validUntil < usage.due)
    notes.push(`The price of ${gas!.name} lapses on ${price.validUntil}, before the work is due.`);
  if (card.validUntil < usage.due)
    notes.push(`These rates lapse on ${card.validUntil}, before the work is due.`);
  const goodUntil = price && price.validUntil < card.validUntil ? price.validUntil : card.validUntil;
  return { goodUntil, notes };
}
