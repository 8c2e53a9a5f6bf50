import { planFirm, type WeekPlan } from '@brimline/planning';
import { sampleFirm } from '../support/sample-firm.ts';

/** A real plan of the sample firm, by a short search: what the pages show is what the engines say. */
export function samplePlan(): WeekPlan {
  const outcome = planFirm(sampleFirm(), { seed: 1, schedules: 20 });
  if (outcome.kind !== 'planned') throw new Error(JSON.stringify(outcome.refused));
  return outcome.plan;
}
