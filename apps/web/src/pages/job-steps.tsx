import type { PhaseEstimate } from '@brimline/estimating';
import type { BookedPhase, PlannedJob } from '@brimline/planning';
import { SECONDS_PER_HOUR } from '@brimline/quantities';
import { Ribbon } from '../components/marks.tsx';
import { WithReason } from '../components/reason.tsx';
import { dayTimeText } from '../format/clock.ts';
import { hoursText, spanText } from '../format/measures.ts';
import { words } from '../words.ts';
import { ScrollBox } from '../components/scroll-box.tsx';

/** Each step with its span, people and gear; the likely span opens its reason. */
export function JobSteps({ job }: { readonly job: PlannedJob }) {
  const { phaseHead: head } = words.job;
  const { estimate } = job;
  const booked = new Map(job.phases.map((phase) => [phase.id, phase]));
  return (
    <section aria-labelledby="steps-title">
      <h2 id="steps-title">{words.job.phases}</h2>
      <ScrollBox label={words.job.phases}>
        <table>
          <thead>
            <tr>
              <th scope="col">{head.step}</th>
              <th scope="col">{head.who}</th>
              <th scope="col">{head.start}</th>
              {[head.likely, head.range, head.attended, head.gear].map((text) => (
                <th key={text} scope="col" className="number">
                  {text}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {estimate.phases.map((phase) => (
              <StepRow
                key={phase.id}
                phase={phase}
                booked={booked.get(phase.id)}
                timeZone={job.site.timeZone}
              />
            ))}
            <tr className="total">
              <th scope="row" colSpan={3}>
                {head.total}
              </th>
              <td className="number">{hoursText(job.hours.elapsed)}</td>
              <td className="number">{words.job.p80(hoursText(job.hours.p80))}</td>
              <td className="number">{hoursText(job.hours.attended)}</td>
              <td className="number">{hoursText(job.hours.gear)}</td>
            </tr>
          </tbody>
        </table>
      </ScrollBox>
    </section>
  );
}

interface RowProps {
  readonly phase: PhaseEstimate;
  readonly booked: BookedPhase | undefined;
  readonly timeZone: string;
}

function StepRow({ phase, booked, timeZone }: RowProps) {
  const { elapsed, crew, manner } = phase;
  const units = phase.gear.reduce((sum, { count }) => sum + count, 0);
  const hasRange = elapsed.low_s !== elapsed.high_s;
  return (
    <tr>
      <th scope="row">{phase.title}</th>
      <td>
        <svg className="drawing in-line" width="24" height="8" aria-hidden="true">
          <Ribbon manner={manner} x0={0} x1={24} y={1} height={6} />
        </svg>
        {words.job.crewCount(crew, words.manner[manner])}
      </td>
      <td>{booked ? dayTimeText(Date.parse(booked.start), timeZone) : words.job.none}</td>
      <td className="number">
        <WithReason id={`step ${phase.id}`} reason={phase.reason} text={spanText(elapsed.likely_s)} />
      </td>
      <td className="number soft">
        {hasRange ? `${spanText(elapsed.low_s)} – ${spanText(elapsed.high_s)}` : '–'}
      </td>
      <td className="number">{crew === 0 ? '–' : hoursText((elapsed.likely_s * crew) / SECONDS_PER_HOUR)}</td>
      <td className="number">
        {units === 0 ? '–' : hoursText((elapsed.likely_s * units) / SECONDS_PER_HOUR)}
      </td>
    </tr>
  );
}
