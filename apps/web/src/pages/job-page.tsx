import type { Reason } from '@brimline/estimating';
import type { PlannedJob, WeekPlan } from '@brimline/planning';
import { ChargeCurve } from '../components/charge-curve.tsx';
import { FailedState } from '../components/page-states.tsx';
import { ReasonPanel, ReasonProvider } from '../components/reason.tsx';
import { jobLink, weekLink, whatIfLink } from '../route.ts';
import { words } from '../words.ts';
import { JobAssumptions, JobCautions } from './job-cautions.tsx';
import { JobCylinders, RefrigerantAccount } from './job-cylinders.tsx';
import { JobDrivers } from './job-drivers.tsx';
import { JobFacts } from './job-facts.tsx';
import { JobFigures } from './job-figures.tsx';
import { JobNumbers } from './job-numbers.tsx';
import { JobPrice } from './job-price.tsx';
import { JobSteps } from './job-steps.tsx';
import { JobWays } from './job-ways.tsx';

interface Props {
  readonly plan: WeekPlan;
  readonly id: string;
}

/** The estimate of one job: facts, figures, the charge curve, and the reason of every number. */
export function JobPage({ plan, id }: Props) {
  const job = plan.jobs.find((one) => one.id === id);
  if (!job) return <MissingJob plan={plan} id={id} />;
  return (
    <ReasonProvider>
      <JobHead plan={plan} job={job} />
      <div className="job-columns">
        <JobFacts job={job} plan={plan} />
        <div className="job-main">
          <JobFigures job={job} />
          <section aria-labelledby="curve-title" className="keep">
            <h2 id="curve-title" className="hidden-words">
              {words.job.curve}
            </h2>
            <ChargeCurve estimate={job.estimate} phases={job.phases} timeZone={job.site.timeZone} />
          </section>
          <JobWays ways={job.estimate.ways} currency={job.estimate.risk.cost?.currency ?? null} />
          <JobDrivers risk={job.estimate.risk} />
          <JobSteps job={job} />
          <JobCylinders estimate={job.estimate} booked={job.cylinders} />
          <RefrigerantAccount account={job.estimate.account} />
          <JobPrice quote={job.quote} />
          <JobNumbers reasons={otherReasons(job)} />
        </div>
        <aside className="job-margin" aria-label={words.job.cautions}>
          <ReasonPanel />
          <JobCautions cautions={job.cautions} phases={job.estimate.phases} />
          <JobAssumptions assumptions={job.assumptions} />
        </aside>
      </div>
    </ReasonProvider>
  );
}

/** Reasons that neither a step nor the cylinders show already. */
function otherReasons({ estimate }: PlannedJob): readonly Reason[] {
  const shown = [...estimate.phases.map(({ reason }) => reason), estimate.cylinders?.reason];
  return estimate.reasons.filter(
    ({ label, value }) => !shown.some((reason) => reason?.label === label && reason.value === value),
  );
}

function JobHead({ plan, job }: { readonly plan: WeekPlan; readonly job: PlannedJob }) {
  const file = (name: string): string => `api/jobs/${encodeURIComponent(job.id)}/${name}`;
  return (
    <div className="page-head">
      <div>
        <span className="label">{words.job.title(job.id)}</span>
        <h1>{job.title}</h1>
      </div>
      <div className="actions">
        <label className="pick">
          <span className="hidden-words">{words.job.pick}</span>
          <select
            value={job.id}
            onChange={(event) => {
              window.location.hash = jobLink(event.target.value);
            }}
          >
            {plan.jobs.map(({ id, title }) => (
              <option key={id} value={id}>
                {id} {title}
              </option>
            ))}
          </select>
        </label>
        <a className="button" href={whatIfLink(job.id)}>
          {words.job.changeFact}
        </a>
        <a className="button" href={file('offer.xlsx')} download>
          {words.job.offer}
        </a>
        <a className="button" href={file('quote.xlsx')} download>
          {words.job.quote}
        </a>
      </div>
    </div>
  );
}

function MissingJob({ plan, id }: Props) {
  const refusal = plan.refused.find((one) => one.id === id);
  const back = (
    <a className="button" href={weekLink}>
      {words.state.toWeek}
    </a>
  );
  if (!refusal)
    return (
      <FailedState title={words.job.unknown(id)} message="">
        {back}
      </FailedState>
    );
  const message = refusal.reasons.map((reason) => reason.message).join(' ');
  return (
    <FailedState title={words.job.refused(id)} message={`${refusal.title}: ${message}`}>
      <a className="button" href={whatIfLink(id)}>
        {words.job.changeFact}
      </a>
      {back}
    </FailedState>
  );
}
