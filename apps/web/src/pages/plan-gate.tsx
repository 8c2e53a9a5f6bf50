import type { WeekPlan } from '@brimline/planning';
import type { ReactNode } from 'react';
import { EmptyState, FailedState, LoadingState } from '../components/page-states.tsx';
import type { PlanSource, PlanView } from '../data/plan-source.ts';
import { words } from '../words.ts';

interface Props {
  readonly view: PlanView;
  readonly source: PlanSource;
  readonly children: (plan: WeekPlan) => ReactNode;
}

/** Shows what needs a plan once there is one, and says why where there is none. */
export function PlanGate({ view, source, children }: Props) {
  const { plan, working, failure } = view;
  if (!plan) {
    if (failure === null)
      return <LoadingState message={words.state.working(working ?? words.state.loading)} />;
    return (
      <FailedState message={failure}>
        <Again source={source} />
      </FailedState>
    );
  }
  if (plan.jobs.length === 0 && plan.refused.length === 0) {
    return (
      <EmptyState message={words.state.empty}>
        <button type="button" onClick={() => void source.planAgain()}>
          {words.state.planAgain}
        </button>
      </EmptyState>
    );
  }
  return (
    <>
      {working !== null && <output className="working">{words.state.loadingAgain(working)}</output>}
      {failure !== null && (
        <div className="working failed" role="alert">
          <p>{words.state.failedAgain}</p>
          <p>{failure}</p>
          <Again source={source} />
        </div>
      )}
      <div className={working === null ? undefined : 'stale'}>{children(plan)}</div>
    </>
  );
}

function Again({ source }: Pick<Props, 'source'>) {
  return (
    <div className="actions">
      <button type="button" onClick={() => void source.load()}>
        {words.state.tryAgain}
      </button>
      <button type="button" onClick={() => void source.planAgain()}>
        {words.state.planAgain}
      </button>
    </div>
  );
}
