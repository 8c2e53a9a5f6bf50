import { instantOfLocal } from '@brimline/calendar';
import type { PlannedJob, WeekPlan } from '@brimline/planning';
import { Flag } from '../components/marks.tsx';
import { useUnits } from '../components/settings.tsx';
import { dayTimeText, zoneName } from '../format/clock.ts';
import { hoursText, massText, moneyHeadline } from '../format/measures.ts';
import { jobLink } from '../route.ts';
import { words } from '../words.ts';
import { ScrollBox } from '../components/scroll-box.tsx';

/** The jobs of the plan, each on the clock of its site. */
export function JobsTable({ plan }: { readonly plan: WeekPlan }) {
  const { head } = words.week;
  return (
    <section className="below" aria-labelledby="jobs-title">
      <h2 id="jobs-title">{words.week.jobs}</h2>
      <ScrollBox label={words.week.jobs}>
        <table>
          <thead>
            <tr>
              {[head.job, head.site, head.charge, head.starts, head.ends, head.due].map((text) => (
                <th key={text} scope="col">
                  {text}
                </th>
              ))}
              {[head.hours, head.p80, head.attended, head.price].map((text) => (
                <th key={text} scope="col" className="number">
                  {text}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {plan.jobs.map((job) => (
              <JobRow key={job.id} job={job} />
            ))}
          </tbody>
        </table>
      </ScrollBox>
    </section>
  );
}

function JobRow({ job }: { readonly job: PlannedJob }) {
  const units = useUnits();
  const zone = job.site.timeZone;
  const start_ms = Math.min(...job.phases.map(({ start }) => Date.parse(start)));
  const end_ms = Math.max(...job.phases.map(({ end }) => Date.parse(end)));
  const due_ms = instantOfLocal(job.due, zone).getTime();
  const late_ms = end_ms - due_ms;
  return (
    <tr>
      <th scope="row">
        <a href={jobLink(job.id)}>
          {job.id} {job.title}
        </a>
      </th>
      <td>{job.site.name}</td>
      <td>
        {job.refrigerant}, {massText(job.charge_kg, units)}
      </td>
      <td className="time">
        {dayTimeText(start_ms, zone)} {zoneName(start_ms, zone)}
      </td>
      <td className="time">
        {dayTimeText(end_ms, zone)} {zoneName(end_ms, zone)}
        {late_ms > 0 && <strong className="late">{words.week.late(hoursText(late_ms / 3_600_000))}</strong>}
      </td>
      <td className="time">{dayTimeText(due_ms, zone)}</td>
      <td className="number">{hoursText(job.hours.p50)}</td>
      <td className="number">{hoursText(job.hours.p80)}</td>
      <td className="number">{hoursText(job.hours.attended)}</td>
      <td className="number">{moneyHeadline(job.quote.priceBeforeTax)}</td>
    </tr>
  );
}

/** Jobs that could not be planned, each with its reasons in words. */
export function RefusedJobs({ plan }: { readonly plan: WeekPlan }) {
  if (plan.refused.length === 0) return null;
  return (
    <section className="below refused" aria-labelledby="refused-title">
      <h2 id="refused-title" className="caution-words">
        <Flag />
        {words.week.notPlanned}
      </h2>
      <ul>
        {plan.refused.map(({ id, title, reasons }) => (
          <li key={id}>
            <h3>
              {id} {title}
            </h3>
            {reasons.map(({ code, path, message }) => (
              <p key={`${code} ${path}`}>
                {message} {path !== '' && <span className="small soft">{words.week.reasonAt(path)}</span>}
              </p>
            ))}
          </li>
        ))}
      </ul>
    </section>
  );
}
