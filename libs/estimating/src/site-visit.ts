import type { GearKind } from '@brimline/firm';
import type { Estimate } from './estimate.ts';

/** What several machines on one site take, done one way. */
export interface VisitOption {
  /** Working clock of the whole visit. */
  readonly elapsed_s: number;
  readonly attended_person_s: number;
  /** Most persons at one time. */
  readonly crew: number;
  /** Most units at one time. */
  readonly gear: Readonly<Partial<Record<GearKind, number>>>;
  /** Most empty cylinders held at one time. */
  readonly cylinders: number;
}

export interface SiteVisit {
  readonly jobIds: readonly string[];
  /** One crew goes from machine to machine. */
  readonly inTurn: VisitOption;
  /** A crew and a set of gear for each machine. */
  readonly sideBySide: VisitOption;
}

interface Peak {
  readonly crew: number;
  readonly gear: Readonly<Partial<Record<GearKind, number>>>;
  /** Held while the job runs, and for good where nothing is charged back. */
  readonly cylinders: number;
  readonly kept: number;
}

function peakOf({ phases, cylinders, account }: Estimate): Peak {
  const gear: Partial<Record<GearKind, number>> = {};
  for (const phase of phases) {
    for (const { kind, count } of phase.gear) gear[kind] = Math.max(gear[kind] ?? 0, count);
  }
  const held = cylinders ? cylinders.needed + cylinders.spare : 0;
  const filled = cylinders?.needed ?? 0;
  return {
    crew: Math.max(...phases.map(({ crew }) => crew)),
    gear,
    cylinders: held,
    kept: account.after_kg === 0 ? filled : 0,
  };
}

type Join = (a: number, b: number) => number;

function joined(peaks: readonly Peak[], join: Join): Pick<VisitOption, 'crew' | 'gear'> {
  const gear: Partial<Record<GearKind, number>> = {};
  for (const peak of peaks) {
    for (const [kind, count] of Object.entries(peak.gear) as [GearKind, number][])
      gear[kind] = join(gear[kind] ?? 0, count);
  }
  return { crew: peaks.reduce((crew, peak) => join(crew, peak.crew), 0), gear };
}

/** Cylinders that are held when machines are done in turn: those of one at a time, and those that stay full. */
function cylindersInTurn(peaks: readonly Peak[]): number {
  let kept = 0;
  let most = 0;
  for (const peak of peaks) {
    most = Math.max(most, kept + peak.cylinders);
    kept += peak.kept;
  }
  return Math.max(most, kept);
}

/**
 * Several machines on one site compared: one after the other by one crew, or side by side. Nights and waits are the
 * scheduler's; spans are the planned ones of each job, letting-in and unloading as each job has them.
 *
 * @param estimates of one site, in the order in which they would be done; one or more
 */
export function siteVisit(estimates: readonly Estimate[]): SiteVisit {
  const peaks = estimates.map(peakOf);
  const attended_person_s = estimates.reduce((sum, one) => sum + one.attended_person_s, 0);
  const sum: Join = (a, b) => a + b;
  return {
    jobIds: estimates.map(({ jobId }) => jobId),
    inTurn: {
      elapsed_s: estimates.reduce((total, { elapsed_s }) => total + elapsed_s, 0),
      attended_person_s,
      ...joined(peaks, Math.max),
      cylinders: cylindersInTurn(peaks),
    },
    sideBySide: {
      elapsed_s: Math.max(...estimates.map(({ elapsed_s }) => elapsed_s)),
      attended_person_s,
      ...joined(peaks, sum),
      cylinders: peaks.reduce((total, peak) => total + peak.cylinders, 0),
    },
  };
}
