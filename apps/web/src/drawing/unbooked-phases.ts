import type { Estimate } from '@brimline/estimating';
import type { BookedPhase } from '@brimline/planning';
import { SECONDS_PER_HOUR } from '@brimline/quantities';

/** Where the working clock stands at arrival. */
const ARRIVAL_MS = 0;

/**
 * The phases of an estimate that nobody has booked yet, one after another on the job's own working clock: hours since
 * arrival, without nights or waits.
 */
export function unbookedPhases({ phases, curve }: Pick<Estimate, 'phases' | 'curve'>): BookedPhase[] {
  const steps = new Map(curve.steps.map((step) => [step.phaseId, step]));
  return phases.flatMap(({ id, kind, title, manner, planned_s, crew }) => {
    const step = steps.get(id);
    if (!step) return [];
    const [start, end] = [step.from_s, step.to_s].map((time_s) =>
      new Date(ARRIVAL_MS + time_s * 1000).toISOString(),
    ) as [string, string];
    const attended_h = (planned_s * crew) / SECONDS_PER_HOUR;
    const pieces = [{ start, end }];
    return [{ id, kind, title, manner, start, end, pieces, attended_h, people: [], gear: [], cylinders: [] }];
  });
}
