import { KILOGRAMS_PER_POUND, roundMinorUnits, toSi } from '@brimline/quantities';
import { NORM_IDS, type RateCard } from '@brimline/firm';
import { z } from 'zod';
import { amount, identifier, localDay, price, type PriceText, share, words } from './fields.ts';

const timeOfDay = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time of day, HH:mm');
const multiplier = z.number().min(1).max(4).meta({ description: 'Multiple of the straight rate, 1 to 4.' });
const hours = z.number().positive().max(168).meta({ description: 'Hours.' });

const GEAR_KINDS = [
  'recovery machine',
  'vacuum pump',
  'scale',
  'hose set',
  'core tool',
  'vacuum gauge',
  'heater',
  'nitrogen set',
] as const;

function perKilometre({ minorUnits, per }: PriceText): number {
  return per === 'km' ? minorUnits : roundMinorUnits(minorUnits / (toSi(1, 'length', 'mi') / 1000));
}

function massPrice({ minorUnits, per }: PriceText): { minorUnits: number; per_kg: number } {
  return { minorUnits, per_kg: per === 'lb' ? KILOGRAMS_PER_POUND : 1 };
}

const timeNorm = z
  .strictObject({
    id: z.enum(NORM_IDS),
    low: amount('time', 'About the fifth percentile'),
    likely: amount('time', 'Most likely'),
    high: amount('time', 'About the 95th percentile'),
    source: words('Where the figure comes from'),
    dated: localDay('Day on which it was set'),
  })
  .refine(({ low, likely, high }) => low <= likely && likely <= high, {
    path: ['likely'],
    message: 'a time from "low" to "high"',
  })
  .transform(({ low, likely, high, ...rest }) => ({ ...rest, low_s: low, likely_s: likely, high_s: high }))
  .meta({ description: "The firm's own span for what people do, in place of the standard one." });

const policy = z
  .strictObject({
    certainty: share('Certainty at which ways are ranked by cost')
      .refine((value) => value >= 0.5, '50 % up to 95 %')
      .optional(),
    spareCylinders: z
      .int()
      .min(0)
      .max(5)
      .optional()
      .meta({ description: 'Empty cylinders beyond the need.' }),
  })
  .transform(({ certainty, spareCylinders }) => ({
    ...(certainty === undefined ? {} : { certainty }),
    ...(spareCylinders === undefined ? {} : { spareCylinders }),
  }))
  .meta({ description: 'How the firm wants its estimates made.' });

/** Prices and shares by which an estimate becomes an offer. */
export const rateCardFile = z
  .strictObject({
    $schema: z.string().optional(),
    kind: z.literal('rate card'),
    id: identifier('Name of the card'),
    currency: z.string().regex(/^[A-Z]{3}$/, 'an ISO 4217 currency, such as USD'),
    validFrom: localDay('First day of the card'),
    validUntil: localDay('Last day of the card'),
    labour: z
      .array(z.strictObject({ labourClass: words('Labour class'), cost: price('hour', 'Loaded cost') }))
      .min(1),
    travel: price('hour', 'Cost of a travel hour'),
    vehicle: price('distance', 'Cost of a vehicle'),
    overtime: z.strictObject({
      dailyAfter_h: hours.optional(),
      dailyMultiplier: multiplier.default(1.5),
      weeklyAfter_h: hours.optional(),
      weeklyMultiplier: multiplier.default(1.5),
      nightFrom: timeOfDay.default('20:00'),
      nightTo: timeOfDay.default('06:00'),
      nightMultiplier: multiplier.default(1),
    }),
    gear: z.array(z.strictObject({ kind: z.enum(GEAR_KINDS), cost: price('day', 'Cost of a day') })),
    cylinder: price('day', 'Cost of a cylinder held for a day'),
    refrigerants: z.array(
      z.strictObject({
        refrigerant: words('ASHRAE designation'),
        cost: price('mass', 'Cost'),
        validUntil: localDay("Last day of the supplier's price"),
      }),
    ),
    nitrogenCylinder: price('piece', 'Cost of a nitrogen cylinder'),
    filterDrier: price('piece', 'Cost of a filter-drier'),
    vacuumOilChange: price('piece', 'Cost of a pump oil change'),
    permit: price('piece', 'Cost of permits a job'),
    overhead: share('Share of cost added for indirect cost'),
    margin: share('Share of the price that is kept'),
    tax: share('Share of the price added as tax'),
    timeNorms: z
      .array(timeNorm)
      .refine((list) => new Set(list.map(({ id }) => id)).size === list.length, 'each norm once')
      .optional(),
    policy: policy.optional(),
  })
  .refine(({ validFrom, validUntil }) => validFrom <= validUntil, {
    path: ['validUntil'],
    message: 'a day not before "validFrom"',
  })
  .superRefine((card, context) => {
    for (const [path, found] of currenciesIn(card)) {
      if (found !== card.currency) {
        context.addIssue({
          code: 'custom',
          path,
          message: `a price in ${card.currency}, the card's currency`,
          input: found,
        });
      }
    }
  })
  .transform((card) => ({
    id: card.id,
    currency: card.currency,
    validFrom: card.validFrom,
    validUntil: card.validUntil,
    labour: card.labour.map(({ labourClass, cost }) => ({ labourClass, costPerHour_minor: cost.minorUnits })),
    travelPerHour_minor: card.travel.minorUnits,
    vehiclePerKilometre_minor: perKilometre(card.vehicle),
    overtime: {
      ...card.overtime,
      dailyAfter_h: card.overtime.dailyAfter_h ?? null,
      weeklyAfter_h: card.overtime.weeklyAfter_h ?? null,
    },
    gearPerDay: card.gear.map(({ kind, cost }) => ({ kind, costPerDay_minor: cost.minorUnits })),
    cylinderPerDay_minor: card.cylinder.minorUnits,
    refrigerants: card.refrigerants.map(({ refrigerant, cost, validUntil }) => ({
      refrigerant,
      price: massPrice(cost),
      validUntil,
    })),
    nitrogenCylinder_minor: card.nitrogenCylinder.minorUnits,
    filterDrier_minor: card.filterDrier.minorUnits,
    vacuumOilChange_minor: card.vacuumOilChange.minorUnits,
    permit_minor: card.permit.minorUnits,
    overhead: card.overhead,
    margin: card.margin,
    tax: card.tax,
    ...(card.timeNorms === undefined ? {} : { timeNorms: card.timeNorms }),
    ...(card.policy === undefined ? {} : { policy: card.policy }),
  })) satisfies z.ZodType<RateCard>;

type Path = (string | number)[];

/** Every price of the card with its place, found by shape so that a new price can't be forgotten. */
function currenciesIn(value: unknown, path: Path = []): [Path, string][] {
  if (typeof value !== 'object' || value === null) return [];
  if ('minorUnits' in value && 'currency' in value) return [[path, String(value.currency)]];
  return Object.entries(value).flatMap(([key, inner]) =>
    currenciesIn(inner, [...path, Array.isArray(value) ? Number(key) : key]),
  );
}
