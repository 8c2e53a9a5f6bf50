import type { OvertimeRule, Weekday } from '@brimline/firm';

/**
 * When an hour earns a multiple of the straight rate: every condition that is given must hold. Of the rules that
 * hold, the highest multiple pays, so no hour is paid twice.
 */
export interface PayRule {
  readonly name: 'night' | 'overtime' | 'double time';
  readonly multiplier: number;
  readonly days?: readonly Weekday[];
  /** Local clock, "HH:mm"; a `to` at or before `from` runs past midnight. */
  readonly from?: string;
  readonly to?: string;
  /** Hours already worked that local day [h]. */
  readonly afterDay_h?: number;
  /** Straight hours already worked that week, Monday to Sunday [h]. */
  readonly afterWeek_h?: number;
  /** Only on the seventh day worked in one week. */
  readonly onSeventhDay?: boolean;
}

/** A premium for the time of day leaves the hour straight; overtime takes it out of the week's straight hours. */
export const isOvertime = ({ name }: PayRule): boolean => name !== 'night';

export const isByClock = ({ days, from, to }: PayRule): boolean => Boolean(days ?? from ?? to);

const WORK_DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'] as const satisfies readonly Weekday[];

/**
 * Rule sets as data.
 *
 * @source US federal: 29 U.S.C. 207, read in 29 CFR 785.1. California: Labor Code 510(a), read. Ireland, building
 *   trades: overtime table effective 1 October 2019, read; the start of the normal day, 08:00, is assumed
 */
export const PAY_RULES = {
  'US federal': [{ name: 'overtime', multiplier: 1.5, afterWeek_h: 40 }],
  California: [
    { name: 'overtime', multiplier: 1.5, afterDay_h: 8 },
    { name: 'overtime', multiplier: 1.5, afterWeek_h: 40 },
    { name: 'overtime', multiplier: 1.5, onSeventhDay: true },
    { name: 'double time', multiplier: 2, afterDay_h: 12 },
    { name: 'double time', multiplier: 2, onSeventhDay: true, afterDay_h: 8 },
  ],
  'Ireland, building trades': [
    { name: 'overtime', multiplier: 1.5, days: WORK_DAYS, from: '17:00', to: '24:00' },
    { name: 'double time', multiplier: 2, days: WORK_DAYS, from: '00:00', to: '08:00' },
    { name: 'overtime', multiplier: 1.5, days: ['Sat'] },
    { name: 'double time', multiplier: 2, days: ['Sat'], afterDay_h: 4 },
    { name: 'double time', multiplier: 2, days: ['Sun'] },
  ],
} as const satisfies Record<string, readonly PayRule[]>;

/** The rules of a rate card; multiples of 1 pay nothing more and are left out. */
export function payRulesOf(card: OvertimeRule): PayRule[] {
  const rules: PayRule[] = [];
  if (card.dailyAfter_h !== null)
    rules.push({ name: 'overtime', multiplier: card.dailyMultiplier, afterDay_h: card.dailyAfter_h });
  if (card.weeklyAfter_h !== null)
    rules.push({ name: 'overtime', multiplier: card.weeklyMultiplier, afterWeek_h: card.weeklyAfter_h });
  rules.push({ name: 'night', multiplier: card.nightMultiplier, from: card.nightFrom, to: card.nightTo });
  return rules.filter(({ multiplier }) => multiplier > 1);
}
