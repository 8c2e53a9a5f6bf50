import { lazy, Suspense, useEffect, useRef, useState, useSyncExternalStore } from 'react';
import { FaultBoundary } from './components/fault-boundary.tsx';
import { Frame } from './components/frame.tsx';
import { TitleStrip } from './components/title-strip.tsx';
import type { PlanSource, PlanView } from './data/plan-source.ts';
import { CalculatorsPage } from './pages/calculators-page.tsx';
import { JobPage } from './pages/job-page.tsx';
import { PlanGate } from './pages/plan-gate.tsx';
import { WeekPage } from './pages/week-page.tsx';
import { LoadingState } from './components/page-states.tsx';
import { type Route, routeOf, useHash } from './route.ts';
import { words } from './words.ts';

/** Brings the engines with it: fetched when it is first opened. */
const WhatIfPage = lazy(() => import('./pages/what-if-page.tsx'));

export function App({ source }: { readonly source: PlanSource }) {
  const view = useSyncExternalStore(source.subscribe, source.current);
  const hash = useHash();
  const route = routeOf(hash);
  const [lastJob, setLastJob] = useState<string | null>(null);
  const jobId =
    route.page === 'job' || (route.page === 'what if' && route.id !== null)
      ? route.id
      : (lastJob ?? view.plan?.jobs[0]?.id ?? null);
  const seen = route.page === 'job' || route.page === 'what if' ? route.id : null;
  if (seen !== null && seen !== lastJob) setLastJob(seen);
  useArrival(hash, route);
  return (
    <Frame route={route} notice={view.plan?.firm.notice ?? null} jobId={jobId}>
      <FaultBoundary key={hash}>
        <Page route={route} view={view} source={source} />
      </FaultBoundary>
      <TitleStrip what={titleOf(route)} view={view} rateCard={rateCardOf(route, view)} />
    </Frame>
  );
}

interface PageProps {
  readonly route: Route;
  readonly view: PlanView;
  readonly source: PlanSource;
}

function Page({ route, view, source }: PageProps) {
  if (route.page === 'calculators') return <CalculatorsPage name={route.name} />;
  if (route.page === 'what if') {
    return (
      <Suspense fallback={<LoadingState message={words.whatIf.loading} />}>
        <WhatIfPage jobId={route.id} />
      </Suspense>
    );
  }
  return (
    <PlanGate view={view} source={source}>
      {(plan) =>
        route.page === 'job' ? (
          <JobPage key={route.id} plan={plan} id={route.id} />
        ) : (
          <WeekPage plan={plan} isWorking={view.working !== null} planAgain={source.planAgain} />
        )
      }
    </PlanGate>
  );
}

function titleOf(route: Route): string {
  if (route.page === 'job') return words.strip.job(route.id);
  if (route.page === 'what if') return words.strip.whatIf;
  return route.page === 'calculators' ? words.strip.calculators : words.strip.week;
}

function rateCardOf(route: Route, { plan }: PlanView): string | null {
  if (!plan || route.page === 'calculators' || route.page === 'what if') return null;
  const job = route.page === 'job' ? plan.jobs.find(({ id }) => id === route.id) : plan.jobs[0];
  return job?.quote.rateCardId ?? null;
}

/** On a new screen the reader starts at its top, and is told where that is. */
function useArrival(hash: string, route: Route): void {
  const arrived = useRef(hash);
  const title = titleOf(route);
  useEffect(() => {
    document.title = `${title} · ${words.product}`;
  }, [title]);
  useEffect(() => {
    if (arrived.current === hash) return;
    arrived.current = hash;
    window.scrollTo(0, 0);
    document.querySelector<HTMLElement>('main')?.focus();
  }, [hash]);
}
