import type { OfficeTask } from './estimate.ts';
import type { JobContext } from './job-context.ts';
import { partsOf } from './scope-parts.ts';

/** What the job asks for beside the hours on site. */
export function officeTasks({ norms, job }: JobContext): OfficeTask[] {
  const { survey, cylinderReturn } = norms;
  const tasks: OfficeTask[] = [
    { label: survey.label, when: 'before', crew: 1, elapsed: survey, source: survey.source },
  ];
  const { recovers, charges } = partsOf(job.scope);
  if (recovers || charges) {
    tasks.push({
      label: cylinderReturn.label,
      when: 'after',
      crew: 1,
      elapsed: cylinderReturn,
      source: cylinderReturn.source,
    });
  }
  return tasks;
}
