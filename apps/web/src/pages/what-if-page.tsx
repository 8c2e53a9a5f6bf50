import type { Firm } from '@brimline/firm';
import { useDeferredValue, useMemo, useState } from 'react';
import { ChargeCurve } from '../components/charge-curve.tsx';
import { Flag } from '../components/marks.tsx';
import { EmptyState, FailedState, LoadingState } from '../components/page-states.tsx';
import { ReasonPanel, ReasonProvider } from '../components/reason.tsx';
import { useFirm } from '../data/use-firm.ts';
import { unbookedPhases } from '../drawing/unbooked-phases.ts';
import { whatIfLink } from '../route.ts';
import { type Draft, draftOf, type FactProblem, firmOf, storedJob } from '../what-if/draft.ts';
import { DrawnWays } from '../what-if/drawn-ways.tsx';
import { FactFields } from '../what-if/fact-fields.tsx';
import { TrialFigures } from '../what-if/trial-figures.tsx';
import { WayFields } from '../what-if/way-fields.tsx';
import { workOut, type WorkedOut, workOutWays } from '../what-if/work-out.ts';
import { words } from '../words.ts';
import { JobAssumptions, JobCautions } from './job-cautions.tsx';
import { JobCylinders, RefrigerantAccount } from './job-cylinders.tsx';
import { JobDrivers } from './job-drivers.tsx';
import { JobNumbers } from './job-numbers.tsx';
import { JobWays } from './job-ways.tsx';

/** Facts on one side, what comes of them on the other, worked out here in the browser as they are typed. */
export default function WhatIfPage({ jobId }: { readonly jobId: string | null }) {
  const firm = useFirm();
  if (!firm) return <LoadingState message={words.whatIf.loading} />;
  if (!firm.ok) return <FailedState message={firm.message} />;
  const first = jobId ?? firm.value.jobs[0]?.id;
  if (first === undefined) return <EmptyState message={words.whatIf.noJobs} />;
  const stored = storedJob(firm.value, first);
  if (!stored) return <FailedState title={words.job.unknown(first)} message="" />;
  return <Trial key={first} firm={firm.value} stored={stored} />;
}

interface TrialProps {
  readonly firm: Firm;
  readonly stored: NonNullable<ReturnType<typeof storedJob>>;
}

function Trial({ firm, stored }: TrialProps) {
  const [draft, setDraft] = useState(() => draftOf(stored));
  const [problems, setProblems] = useState<readonly FactProblem[]>([]);
  const [readable, setReadable] = useState(firm);
  const change = (next: Draft): void => {
    setDraft(next);
    const read = firmOf(firm, stored, next);
    setProblems(read.ok ? [] : read.problems);
    if (read.ok) setReadable(read.value);
  };
  return (
    <ReasonProvider>
      <TrialHead firm={firm} jobId={stored.job.id} putBack={() => change(draftOf(stored))} />
      <form className="what-if" onSubmit={(event) => event.preventDefault()}>
        <WayFields firm={firm} draft={draft} change={change} />
        <div className="job-columns">
          <FactFields stored={stored} draft={draft} problems={problems} change={change} />
          <Outcome
            stored={firm}
            firm={useDeferredValue(readable)}
            jobId={stored.job.id}
            isStale={problems.length > 0}
          />
        </div>
      </form>
    </ReasonProvider>
  );
}

interface TrialHeadProps {
  readonly firm: Firm;
  readonly jobId: string;
  readonly putBack: () => void;
}

function TrialHead({ firm, jobId, putBack }: TrialHeadProps) {
  return (
    <div className="page-head">
      <div>
        <h1>{words.whatIf.title}</h1>
        <p className="soft">{words.whatIf.intro}</p>
      </div>
      <div className="actions">
        <label className="pick">
          <span className="hidden-words">{words.whatIf.job}</span>
          <select
            value={jobId}
            onChange={(event) => {
              window.location.hash = whatIfLink(event.target.value);
            }}
          >
            {firm.jobs.map(({ id, title }) => (
              <option key={id} value={id}>
                {id} {title}
              </option>
            ))}
          </select>
        </label>
        <button type="button" onClick={putBack}>
          {words.whatIf.putBack}
        </button>
      </div>
    </div>
  );
}

interface OutcomeProps {
  /** The registers as they are stored, to compare with. */
  readonly stored: Firm;
  /** The registers with the last facts that could be read. */
  readonly firm: Firm;
  readonly jobId: string;
  readonly isStale: boolean;
}

function Outcome({ stored, firm, jobId, isStale }: OutcomeProps) {
  const asStored = useMemo(() => workOut(stored, jobId), [stored, jobId]);
  const outcome = useMemo(() => workOut(firm, jobId), [firm, jobId]);
  const ways = useMemo(() => (outcome.ok ? workOutWays(firm, outcome.estimate) : []), [firm, outcome]);
  if (!outcome.ok) return <Refused outcome={outcome} />;
  const { estimate } = outcome;
  return (
    <>
      <div className={isStale ? 'job-main stale' : 'job-main'}>
        {isStale && <output className="working">{words.whatIf.stale}</output>}
        <TrialFigures estimate={estimate} asStored={asStored.ok ? asStored.estimate : null} />
        <section aria-labelledby="curve-title" className="keep">
          <h2 id="curve-title">
            {words.job.curve} <span className="small soft">{words.whatIf.curveNote}</span>
          </h2>
          <ChargeCurve estimate={estimate} phases={unbookedPhases(estimate)} timeZone={null} />
        </section>
        <DrawnWays ways={ways} />
        <JobWays ways={estimate.ways} currency={estimate.risk.cost?.currency ?? null} />
        <JobDrivers risk={estimate.risk} />
        <JobCylinders estimate={estimate} booked={[]} />
        <RefrigerantAccount account={estimate.account} />
        <JobNumbers reasons={estimate.reasons} />
      </div>
      <aside className="job-margin" aria-label={words.job.cautions}>
        <ReasonPanel />
        <JobCautions cautions={estimate.cautions} phases={estimate.phases} />
        <JobAssumptions assumptions={estimate.assumptions} />
      </aside>
    </>
  );
}

function Refused({ outcome }: { readonly outcome: Extract<WorkedOut, { readonly ok: false }> }) {
  return (
    <div className="job-main refused" aria-live="polite">
      <h2 className="caution-words">
        <Flag />
        {words.whatIf.refused}
      </h2>
      <ul>
        {outcome.refusal.reasons.map(({ code, path, message }) => (
          <li key={`${code} ${path} ${message}`}>
            {message} <span className="small soft">{words.week.reasonAt(path)}</span>
          </li>
        ))}
      </ul>
    </div>
  );
}
