import type { BookedPhase, PlannedJob, WeekPlan } from '@brimline/planning';
import { useState } from 'react';
import { spanOfDaysText, dayTimeText, zoneName } from '../format/clock.ts';
import { jobLink } from '../route.ts';
import { words } from '../words.ts';
import { ScrollBox } from '../components/scroll-box.tsx';

/** Every booking as a row: the drawing's data for reading and for screen readers. */
export function BookingsTable({ plan }: { readonly plan: WeekPlan }) {
  const { head } = words.week;
  const [isOpen, setOpen] = useState(false);
  const names = new Map(plan.people.map(({ id, name }) => [id, name]));
  return (
    <details className="below" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{words.week.bookings}</summary>
      {isOpen && (
        <ScrollBox label={words.week.bookings}>
          <table>
            <thead>
              <tr>
                {[head.job, head.step, head.from, head.manner, head.people, head.gear, head.cylinders].map(
                  (text) => (
                    <th key={text} scope="col">
                      {text}
                    </th>
                  ),
                )}
              </tr>
            </thead>
            <tbody>
              {plan.jobs.flatMap((job) =>
                job.phases.map((phase) => (
                  <PhaseRow key={`${job.id} ${phase.id}`} job={job} phase={phase} names={names} />
                )),
              )}
            </tbody>
          </table>
        </ScrollBox>
      )}
    </details>
  );
}

interface RowProps {
  readonly job: PlannedJob;
  readonly phase: BookedPhase;
  readonly names: ReadonlyMap<string, string>;
}

function PhaseRow({ job, phase, names }: RowProps) {
  const zone = job.site.timeZone;
  return (
    <tr>
      <th scope="row">
        <a href={jobLink(job.id)}>{job.id}</a>
      </th>
      <td>{phase.title}</td>
      <td className="time">
        {phase.pieces.map(({ start, end }) => (
          <span key={start} className="piece">
            {spanOfDaysText(Date.parse(start), Date.parse(end), zone)} {zoneName(Date.parse(end), zone)}
          </span>
        ))}
      </td>
      <td>{words.manner[phase.manner]}</td>
      <td>{phase.people.map((id) => names.get(id) ?? id).join(', ')}</td>
      <td>{phase.gear.join(', ')}</td>
      <td>{phase.cylinders.join(', ')}</td>
    </tr>
  );
}

/** Travel and clean-out as rows, on the clock of the person's base or of the plan. */
export function PassagesTable({ plan }: { readonly plan: WeekPlan }) {
  const { head } = words.week;
  const people = new Map(plan.people.map((person) => [person.id, person]));
  const fallback = plan.people[0]?.timeZone ?? 'UTC';
  if (plan.passages.length === 0) return null;
  return (
    <details>
      <summary>{words.week.passages}</summary>
      <ScrollBox label={words.week.passages}>
        <table>
          <thead>
            <tr>
              {[head.unit, head.kind, head.starts, head.ends, head.from, head.to].map((text) => (
                <th key={text} scope="col">
                  {text}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {plan.passages.map(({ unitId, kind, start, end, fromPlace, toPlace }) => {
              const person = people.get(unitId);
              const zone = person?.timeZone ?? fallback;
              const time = (text: string): string =>
                `${dayTimeText(Date.parse(text), zone)} ${zoneName(Date.parse(text), zone)}`;
              return (
                <tr key={`${unitId} ${start} ${kind}`}>
                  <th scope="row">{person?.name ?? unitId}</th>
                  <td>{kind === 'travel' ? words.legend.travel : words.legend.cleanOut}</td>
                  <td className="time">{time(start)}</td>
                  <td className="time">{time(end)}</td>
                  <td>{fromPlace}</td>
                  <td>{toPlace}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </ScrollBox>
    </details>
  );
}
