import { requireNotNegative } from '@brimline/quantities';

/** One day's hours, in the order of the week; seven in a row make the seventh day count. */
export interface DayHours {
  readonly day: string;
  readonly hours: number;
}

export interface OvertimeRules {
  readonly dailyOvertimeAfter_h: number | null;
  readonly dailyDoubleAfter_h: number | null;
  readonly weeklyOvertimeAfter_h: number | null;
  /** On the seventh worked day of the week in a row: overtime from the first hour, double after this many. */
  readonly seventhDayDoubleAfter_h: number | null;
}

export interface OvertimeSplit {
  readonly regular_h: number;
  readonly overtime_h: number;
  readonly doubleTime_h: number;
}

/** Rules as data. @source 29 U.S.C. 207; California Labor Code 510(a) */
export const OVERTIME_RULES = {
  'US federal': {
    dailyOvertimeAfter_h: null,
    dailyDoubleAfter_h: null,
    weeklyOvertimeAfter_h: 40,
    seventhDayDoubleAfter_h: null,
  },
  California: {
    dailyOvertimeAfter_h: 8,
    dailyDoubleAfter_h: 12,
    weeklyOvertimeAfter_h: 40,
    seventhDayDoubleAfter_h: 8,
  },
} as const satisfies Record<string, OvertimeRules>;

/**
 * Splits a work week into straight, overtime and double hours: by day first, then what is still straight by week.
 * No hour is paid twice.
 *
 * @param week up to seven days in order [h]
 * @returns hours of each kind [h]
 * @throws OutOfDomainError for negative hours
 */
export function splitWeek(week: readonly DayHours[], rules: OvertimeRules): OvertimeSplit {
  const split = { regular_h: 0, overtime_h: 0, doubleTime_h: 0 };
  const isSevenInARow = week.length === 7 && week.every(({ hours }) => hours > 0);
  for (const [index, { hours }] of week.entries()) {
    requireNotNegative('hours of a day', hours);
    const isSeventh = isSevenInARow && index === 6 && rules.seventhDayDoubleAfter_h !== null;
    const doubleAfter_h = isSeventh ? rules.seventhDayDoubleAfter_h : rules.dailyDoubleAfter_h;
    const overtimeAfter_h = isSeventh ? 0 : rules.dailyOvertimeAfter_h;
    const double_h = doubleAfter_h === null ? 0 : Math.max(0, hours - doubleAfter_h);
    const overtime_h = overtimeAfter_h === null ? 0 : Math.max(0, hours - double_h - overtimeAfter_h);
    split.doubleTime_h += double_h;
    split.overtime_h += overtime_h;
    split.regular_h += hours - double_h - overtime_h;
  }
  const overWeek_h =
    rules.weeklyOvertimeAfter_h === null ? 0 : Math.max(0, split.regular_h - rules.weeklyOvertimeAfter_h);
  return { ...split, regular_h: split.regular_h - overWeek_h, overtime_h: split.overtime_h + overWeek_h };
}
