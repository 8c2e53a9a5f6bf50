import type { Weekday } from '@brimline/firm';
import {
  CalculationInputError,
  choiceField,
  numberField,
  objectListField,
  textField,
} from '@brimline/quantities';
import { PAY_RULES, type PayRule } from './pay-rules.ts';
import type { ClockShift, DayHours } from './split-hours.ts';

type Input = Readonly<Record<string, unknown>>;

const LIMITS: Readonly<Record<string, (hours: number) => PayRule[]>> = {
  dailyOvertimeAfter_h: (afterDay_h) => [{ name: 'overtime', multiplier: 1.5, afterDay_h }],
  dailyDoubleAfter_h: (afterDay_h) => [{ name: 'double time', multiplier: 2, afterDay_h }],
  weeklyOvertimeAfter_h: (afterWeek_h) => [{ name: 'overtime', multiplier: 1.5, afterWeek_h }],
  seventhDayDoubleAfter_h: (afterDay_h) => [
    { name: 'overtime', multiplier: 1.5, onSeventhDay: true },
    { name: 'double time', multiplier: 2, onSeventhDay: true, afterDay_h },
  ],
};

export const RULE_NAMES = Object.keys(PAY_RULES) as (keyof typeof PAY_RULES)[];
export const RULES_ALLOWED = `one of: ${RULE_NAMES.join('; ')}; or an object of ${Object.keys(LIMITS).join(', ')}; or a list of rules`;

/** Rules by name, as limits of hours, or as a list of rules with conditions. */
export function rulesField(input: Input): readonly PayRule[] {
  const { rules } = input;
  if (Array.isArray(rules)) return objectListField(input, 'rules').map(ruleOf);
  if (typeof rules === 'object' && rules !== null) return limitsOf(rules as Input);
  const named = RULE_NAMES.find((name) => name === rules);
  if (named === undefined) throw new CalculationInputError('rules', rules, RULES_ALLOWED);
  return PAY_RULES[named];
}

function limitsOf(limits: Input): PayRule[] {
  return Object.entries(limits).flatMap(([field, hours]) => {
    const rule = Object.hasOwn(LIMITS, field) ? LIMITS[field] : undefined;
    if (!rule) throw new CalculationInputError('rules', limits, RULES_ALLOWED);
    return hours === null ? [] : rule(numberField(limits, field));
  });
}

const WEEKDAYS: readonly Weekday[] = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];
const CLOCK = /^(?:[01]\d|2[0-3]):[0-5]\d$|^24:00$/;

function ruleOf(rule: Input): PayRule {
  const clock = (field: 'from' | 'to'): string => {
    const text = textField(rule, field);
    if (!CLOCK.test(text)) throw new CalculationInputError(field, text, 'a time of day, HH:mm');
    return text;
  };
  const days = rule['days'];
  if (days !== undefined && !(Array.isArray(days) && days.every((day) => WEEKDAYS.includes(day))))
    throw new CalculationInputError('days', days, `a list of ${WEEKDAYS.join(', ')}`);
  return {
    name: choiceField(rule, 'name', ['night', 'overtime', 'double time']),
    multiplier: numberField(rule, 'multiplier'),
    ...(days === undefined ? {} : { days }),
    ...(rule['from'] === undefined && rule['to'] === undefined
      ? {}
      : { from: clock('from'), to: clock('to') }),
    ...(rule['afterDay_h'] === undefined ? {} : { afterDay_h: numberField(rule, 'afterDay_h') }),
    ...(rule['afterWeek_h'] === undefined ? {} : { afterWeek_h: numberField(rule, 'afterWeek_h') }),
    ...(rule['onSeventhDay'] === true ? { onSeventhDay: true } : {}),
  };
}

/** A list of hours by day; of objects with hours and perhaps a date; or of objects with start and end. */
export function shiftsField(input: Input): (DayHours | ClockShift)[] {
  const { shifts } = input;
  if (Array.isArray(shifts) && shifts.every((hours) => typeof hours === 'number' && Number.isFinite(hours))) {
    return (shifts as number[]).map((hours) => ({ hours }));
  }
  return objectListField(input, 'shifts').map((shift) => {
    if (shift['start'] !== undefined || shift['end'] !== undefined)
      return { start: textField(shift, 'start'), end: textField(shift, 'end') };
    const hours = numberField(shift, 'hours');
    return shift['date'] === undefined ? { hours } : { hours, date: textField(shift, 'date') };
  });
}
