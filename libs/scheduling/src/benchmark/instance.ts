import { OutOfDomainError } from '@brimline/quantities';
import type { Activity, Lag, Mode, SchedulingProblem } from '../model/problem.ts';

/** A public project-scheduling instance as a problem of this engine; activities keep the order of the file. */
export interface BenchmarkInstance {
  readonly problem: SchedulingProblem;
  readonly activityIds: readonly string[];
}

const idOf = (number: number): string => `activity ${number}`;

/** A line of whole numbers; lags in brackets count too. */
const numbersIn = (line: string): number[] => (line.match(/-?\d+/g) ?? []).map(Number);

/** @throws OutOfDomainError when the text has no such section */
function linesAfter(lines: readonly string[], title: string, skip: number): readonly string[] {
  const at = lines.findIndex((line) => line.startsWith(title));
  if (at < 0) throw new OutOfDomainError('instance', title, 'a file of PSPLIB with every section');
  const rest = lines.slice(at + 1 + skip);
  const end = rest.findIndex((line) => line.startsWith('***'));
  return end < 0 ? rest : rest.slice(0, end);
}

function counted(lines: readonly string[], what: RegExp): number {
  const line = lines.find((one) => what.test(one));
  return line ? (numbersIn(line.slice(line.indexOf(':')))[0] ?? 0) : 0;
}

function plainActivity(number: number, jobId: string, modes: readonly Mode[]): Activity {
  return {
    id: idOf(number),
    jobId,
    place: null,
    calendarIds: [],
    breakable: false,
    minimumPiece_min: 1,
    release_min: 0,
    deadline_min: null,
    due_min: null,
    state: null,
    modes,
    pinned: null,
  };
}

function problemOf(
  activities: readonly Activity[],
  lags: readonly Lag[],
  renewable: readonly number[],
  budgets: readonly number[],
): SchedulingProblem {
  const longest = activities.map(({ modes }) => Math.max(...modes.map(({ duration_min }) => duration_min)));
  const gaps = lags.map(({ minimum_min }) => Math.max(0, minimum_min ?? 0));
  return {
    horizon_min: [...longest, ...gaps].reduce((sum, span) => sum + span, 1),
    calendars: [],
    places: [],
    travel_min: [],
    units: [],
    capacities: renewable.map((amount, index) => ({ id: `R${index + 1}`, amount })),
    budgets: budgets.map((amount, index) => ({ id: `N${index + 1}`, amount })),
    activities,
    lags,
    holds: [],
  };
}

/** A span of zero uses nothing, even where the file names a need. */
function modeOf(duration_min: number, uses: readonly number[], consumes: readonly number[]): Mode {
  return {
    duration_min,
    needs: [],
    amounts:
      duration_min === 0
        ? []
        : uses.flatMap((amount, index) => (amount > 0 ? [{ capacityId: `R${index + 1}`, amount }] : [])),
    consumes: consumes.map((amount, index) => ({ budgetId: `N${index + 1}`, amount })),
  };
}

/** Reads PSPLIB's single-mode (.sm) and multi-mode (.mm) format; every activity is a job of its own. */
export function parsePsplib(text: string): BenchmarkInstance {
  const lines = text.split(/\r?\n/);
  const renewableCount = counted(lines, /- renewable/);
  const budgetCount = counted(lines, /- nonrenewable/);
  const lags: Lag[] = [];
  for (const line of linesAfter(lines, 'PRECEDENCE RELATIONS', 1)) {
    const [from, , count = 0, ...after] = numbersIn(line);
    for (const to of after.slice(0, count)) {
      lags.push({
        from: idOf(from!),
        fromEnd: 'end',
        to: idOf(to),
        toEnd: 'start',
        minimum_min: 0,
        maximum_min: null,
      });
    }
  }
  const modes = new Map<number, Mode[]>();
  let current = 0;
  for (const line of linesAfter(lines, 'REQUESTS/DURATIONS', 2)) {
    const numbers = numbersIn(line);
    const width = 2 + renewableCount + budgetCount;
    if (numbers.length === width + 1) current = numbers.shift()!;
    if (numbers.length !== width) continue;
    const [, duration_min, ...needs] = numbers;
    const mode = modeOf(duration_min!, needs.slice(0, renewableCount), needs.slice(renewableCount));
    modes.set(current, [...(modes.get(current) ?? []), mode]);
  }
  const available = numbersIn(linesAfter(lines, 'RESOURCEAVAILABILITIES', 1)[0] ?? '');
  const activities = [...modes].map(([number, own]) => plainActivity(number, idOf(number), own));
  const problem = problemOf(
    activities,
    lags,
    available.slice(0, renewableCount),
    available.slice(renewableCount),
  );
  return { problem, activityIds: activities.map(({ id }) => id) };
}

/** Reads the ProGen/max format (.sch): start-to-start lags of both signs; the whole project is one job. */
export function parseProgenMax(text: string): BenchmarkInstance {
  const lines = text.split(/\r?\n/).filter((line) => line.trim() !== '');
  const [jobs = 0, renewableCount = 0] = numbersIn(lines[0] ?? '');
  const count = jobs + 2;
  if (lines.length < 2 * count + 2)
    throw new OutOfDomainError('instance', lines.length, `${2 * count + 2} lines or more`);
  const lags = lines.slice(1, 1 + count).flatMap((line) => {
    const [from, , successors = 0, ...rest] = numbersIn(line);
    return rest.slice(0, successors).map((to, index) => lagOf(from!, to, rest[successors + index]!));
  });
  const activities = lines.slice(1 + count, 1 + 2 * count).map((line) => {
    const [number, , duration_min, ...uses] = numbersIn(line);
    return plainActivity(number!, 'project', [modeOf(duration_min!, uses.slice(0, renewableCount), [])]);
  });
  return {
    problem: problemOf(activities, lags, numbersIn(lines[1 + 2 * count]!).slice(0, renewableCount), []),
    activityIds: activities.map(({ id }) => id),
  };
}

/** start(to) >= start(from) + lag; a negative lag is a longest lag the other way round. */
function lagOf(from: number, to: number, lag_min: number): Lag {
  const ends = { fromEnd: 'start', toEnd: 'start' } as const;
  if (lag_min >= 0)
    return { ...ends, from: idOf(from), to: idOf(to), minimum_min: lag_min, maximum_min: null };
  return { ...ends, from: idOf(to), to: idOf(from), minimum_min: null, maximum_min: -lag_min };
}
