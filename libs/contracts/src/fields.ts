import { decimalsOf, type Dimension, parseQuantity, roundMinorUnits, unitsOf } from '@brimline/quantities';
import { z } from 'zod';

/** In SI. */
interface Limits {
  readonly above?: number;
  readonly from?: number;
  readonly to?: number;
}

/** Text with a number and a unit, converted to SI here and nowhere else. */
export function quantity(dimension: Dimension, meaning: string, limits: Limits = {}) {
  const allowed = `a number and one of: ${unitsOf(dimension).join(', ')}${limitText(limits)}`;
  return z
    .string({ error: allowed })
    .meta({ description: `${meaning}. Text: ${allowed}.` })
    .transform((text, context) => {
      const parsed = parseQuantity(text, dimension);
      if (parsed.ok && isWithin(parsed.value_SI, limits)) return parsed.value_SI;
      context.addIssue({ code: 'custom', message: allowed, input: text });
      return z.NEVER;
    });
}

function isWithin(value: number, { above, from, to }: Limits): boolean {
  return (
    (above === undefined || value > above) &&
    (from === undefined || value >= from) &&
    (to === undefined || value <= to)
  );
}

function limitText({ above, from, to }: Limits): string {
  const most = to === undefined ? '' : `, ${to} or below in SI`;
  if (above !== undefined) return `, above ${above}${most}`;
  return from === undefined ? most : `, ${from} or above${most}`;
}

/** A mass, length, rate or other amount that must be above zero. */
export const amount = (dimension: Dimension, meaning: string) => quantity(dimension, meaning, { above: 0 });

const MONEY = /^\s*(\d+(?:\.\d{1,3})?)\s*([A-Z]{3})\s*\/\s*(h|d|lb|kg|km|mi|each|job)\s*$/;
const PER: Readonly<Record<string, readonly string[]>> = {
  hour: ['h'],
  day: ['d'],
  mass: ['lb', 'kg'],
  distance: ['km', 'mi'],
  piece: ['each', 'job'],
};

export interface PriceText {
  readonly currency: string;
  readonly minorUnits: number;
  readonly per: string;
}

/** A price such as "148.00 USD/h", read into whole minor units. */
export function price(kind: keyof typeof PER, meaning: string) {
  const units = PER[kind] ?? [];
  const allowed = `an amount, a currency and a unit, such as "12.40 USD/${units[0]}"; units: ${units.join(', ')}`;
  return z
    .string({ error: allowed })
    .meta({ description: `${meaning}. Text: ${allowed}.` })
    .transform((text, context): PriceText => {
      const [, major, currency, per] = MONEY.exec(text) ?? [];
      if (major !== undefined && currency !== undefined && per !== undefined && units.includes(per)) {
        const minorUnits = roundMinorUnits(Number(major) * 10 ** decimalsOf(currency));
        return { currency, minorUnits, per };
      }
      context.addIssue({ code: 'custom', message: allowed, input: text });
      return z.NEVER;
    });
}

/** "18 %" as 0.18. */
export function share(meaning: string) {
  const allowed = 'a percentage such as "18 %", 0 % up to 95 %';
  return z
    .string({ error: allowed })
    .meta({ description: `${meaning}. Text: ${allowed}.` })
    .transform((text, context) => {
      const percent = Number(/^\s*(\d+(?:\.\d+)?)\s*%\s*$/.exec(text)?.[1] ?? Number.NaN);
      if (percent >= 0 && percent <= 95) return percent / 100;
      context.addIssue({ code: 'custom', message: allowed, input: text });
      return z.NEVER;
    });
}

function isDay(text: string): boolean {
  const time = Date.parse(`${text}T00:00:00Z`);
  return !Number.isNaN(time) && new Date(time).toISOString().startsWith(text);
}

export const localDay = (meaning: string) =>
  z
    .string({ error: 'a day, yyyy-MM-dd' })
    .regex(/^\d{4}-\d{2}-\d{2}$/, 'a day, yyyy-MM-dd')
    .refine(isDay, 'a day that exists, yyyy-MM-dd')
    .meta({ description: `${meaning}. A local day, yyyy-MM-dd.` });

export const localDateTime = (meaning: string) =>
  z
    .string({ error: 'a local time, yyyy-MM-ddTHH:mm' })
    .regex(/^\d{4}-\d{2}-\d{2}T([01]\d|2[0-3]):[0-5]\d$/, 'a local time, yyyy-MM-ddTHH:mm')
    .refine((text) => isDay(text.slice(0, 10)), 'a day that exists, yyyy-MM-ddTHH:mm')
    .meta({ description: `${meaning}. Wall clock of the place, yyyy-MM-ddTHH:mm.` });

const timeOfDay = z
  .string({ error: 'a time of day, HH:mm' })
  .regex(/^(([01]\d|2[0-3]):[0-5]\d|24:00)$/, 'a time of day, HH:mm')
  .meta({ description: 'Time of day, HH:mm.' });

export const weeklyWindow = z
  .strictObject({
    days: z.array(z.enum(['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'])).min(1),
    from: timeOfDay,
    to: timeOfDay,
  })
  .meta({ description: 'A span that repeats each week; "to" at or before "from" runs past midnight.' });

export const localSpan = z
  .strictObject({ from: localDateTime('Start'), to: localDateTime('End, not included') })
  .refine(({ from, to }) => from < to, { path: ['to'], message: 'a time after "from"' })
  .meta({ description: 'A single span on the local wall clock.' });

export const identifier = (meaning: string) =>
  z
    .string({ error: 'text' })
    .regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,39}$/, 'letters, digits, dot, dash or underscore, at most 40')
    .meta({ description: meaning });

export const words = (meaning: string) =>
  z
    .string({ error: 'text' })
    .trim()
    .min(1, 'text that is not empty')
    .max(300, 'at most 300 characters')
    .meta({ description: meaning });

export const timeZone = z
  .string({ error: 'an IANA time zone, such as America/Chicago' })
  .refine(isTimeZone, 'an IANA time zone, such as America/Chicago')
  .meta({ description: 'IANA time zone, such as America/Chicago.' });

function isTimeZone(zone: string): boolean {
  try {
    Intl.DateTimeFormat('en-US', { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}
