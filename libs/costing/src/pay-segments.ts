import { localTextOf } from '@brimline/calendar';
import type { OvertimeRule } from '@brimline/firm';

/** A piece of work of one person. */
export interface WorkedPiece {
  readonly personId: string;
  readonly jobId: string;
  readonly labourClass: string;
  readonly start: Date;
  readonly end: Date;
  /** Zone of the site: its clock decides what is night and which day it is. */
  readonly timeZone: string;
}

/** Hours of one job, class and pay rule. */
export interface PaySegment {
  readonly jobId: string;
  readonly labourClass: string;
  readonly rule: 'straight' | 'night' | 'overtime';
  readonly multiplier: number;
  readonly hours: number;
}

const STEP_MS = 15 * 60_000;

/**
 * Sorts everyone's work into pay rules: overtime after the day's hours, then after the week's straight hours (weeks
 * begin on Monday), night by the clock. The highest multiple holds; no hour is paid twice.
 */
export function paySegments(pieces: readonly WorkedPiece[], rule: OvertimeRule): PaySegment[] {
  const totals = new Map<string, { segment: Omit<PaySegment, 'hours'>; ms: number }>();
  for (const personId of new Set(pieces.map((piece) => piece.personId))) {
    const own = pieces
      .filter((piece) => piece.personId === personId)
      .toSorted((a, b) => a.start.getTime() - b.start.getTime());
    addPerson(own, rule, totals);
  }
  return [...totals.values()].map(({ segment, ms }) => ({ ...segment, hours: ms / 3_600_000 }));
}

function addPerson(
  pieces: readonly WorkedPiece[],
  rule: OvertimeRule,
  totals: Map<string, { segment: Omit<PaySegment, 'hours'>; ms: number }>,
): void {
  const worked = new Map<string, number>();
  const straight = new Map<string, number>();
  for (const { jobId, labourClass, start, end, timeZone } of pieces) {
    for (let at = start.getTime(); at < end.getTime();) {
      const next = Math.min(end.getTime(), (Math.floor(at / STEP_MS) + 1) * STEP_MS);
      const [day, time, weekday] = localTextOf(new Date(at), timeZone, 'yyyy-MM-dd HH:mm i').split(' ') as [
        string,
        string,
        string,
      ];
      const week = weekOf(day, Number(weekday));
      const kind = kindOf(rule, worked.get(day) ?? 0, straight.get(week) ?? 0, time);
      worked.set(day, (worked.get(day) ?? 0) + next - at);
      if (kind.rule !== 'overtime') straight.set(week, (straight.get(week) ?? 0) + next - at);
      const key = `${jobId}|${labourClass}|${kind.rule}`;
      const total = totals.get(key) ?? { segment: { jobId, labourClass, ...kind }, ms: 0 };
      totals.set(key, { ...total, ms: total.ms + next - at });
      at = next;
    }
  }
}

/** The Monday of a day's week, as a day number. */
function weekOf(day: string, weekday: number): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) - (weekday - 1) * 86_400_000).toISOString().slice(0, 10);
}

function kindOf(
  rule: OvertimeRule,
  day_ms: number,
  week_ms: number,
  time: string,
): Pick<PaySegment, 'rule' | 'multiplier'> {
  const overDay = rule.dailyAfter_h !== null && day_ms >= rule.dailyAfter_h * 3_600_000;
  const overWeek = rule.weeklyAfter_h !== null && week_ms >= rule.weeklyAfter_h * 3_600_000;
  const overtime = Math.max(overDay ? rule.dailyMultiplier : 1, overWeek ? rule.weeklyMultiplier : 1);
  const night = isNight(rule, time) ? rule.nightMultiplier : 1;
  if (overtime > 1 && overtime >= night) return { rule: 'overtime', multiplier: overtime };
  return night > 1 ? { rule: 'night', multiplier: night } : { rule: 'straight', multiplier: 1 };
}

function isNight({ nightFrom, nightTo }: OvertimeRule, time: string): boolean {
  return nightFrom < nightTo ? time >= nightFrom && time < nightTo : time >= nightFrom || time < nightTo;
}
