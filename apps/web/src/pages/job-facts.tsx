import { instantOfLocal } from '@brimline/calendar';
import type { Setup } from '@brimline/estimating';
import type { PlannedJob, WeekPlan } from '@brimline/planning';
import { useUnits } from '../components/settings.tsx';
import { dayTimeText, zoneName, zonePlace } from '../format/clock.ts';
import { massText } from '../format/measures.ts';
import { words } from '../words.ts';

interface Props {
  readonly plan: WeekPlan;
  readonly job: PlannedJob;
}

/** What is known of the job, and how it will be done. */
export function JobFacts({ plan, job }: Props) {
  const units = useUnits();
  const { fact } = words.job;
  const zone = job.site.timeZone;
  const due_ms = instantOfLocal(job.due, zone).getTime();
  const facts: [string, string][] = [
    [fact.site, job.site.name],
    [fact.clock, `${zonePlace(zone)}, ${zoneName(due_ms, zone)}`],
    [fact.chiller, `${job.chiller.id}, ${job.chiller.description}`],
    [fact.refrigerant, job.refrigerant],
    [fact.nameplate, massText(job.charge_kg, units)],
    [fact.scope, job.scope],
    [fact.way, setupText(job.setup)],
    [fact.machines, listText(job.setup.machineIds)],
    [fact.hoses, listText([job.setup.hoseSetId, job.setup.vacuumHoseSetId])],
    [fact.pumps, listText(job.setup.pumpIds)],
    [fact.crew, crewText(plan, job)],
    [fact.due, dayTimeText(due_ms, zone)],
  ];
  return (
    <section className="job-facts" aria-label={words.job.facts}>
      <dl>
        {facts.map(([label, text]) => (
          <div key={label}>
            <dt className="label">{label}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

function setupText(setup: Setup): string {
  const { setup: say } = words.job;
  return [
    setup.method,
    setup.coresRemoved ? say.coresOut : say.coresIn,
    setup.coolerBypassed ? say.bypassed : say.cooler,
    ...(setup.waterFlowing ? [say.water] : []),
    say.entry(setup.entry),
  ].join(', ');
}

function listText(ids: readonly (string | null)[]): string {
  return ids.filter((id) => id !== null).join(', ') || words.job.none;
}

function crewText(plan: WeekPlan, job: PlannedJob): string {
  const ids = new Set(job.phases.flatMap(({ people }) => people));
  const names = plan.people.filter(({ id }) => ids.has(id)).map(({ name, grade }) => `${name} (${grade})`);
  return names.join(', ') || words.job.none;
}
