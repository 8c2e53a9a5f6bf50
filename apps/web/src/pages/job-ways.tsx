import type { SetupOutcome } from '@brimline/estimating';
import { useState } from 'react';
import { Flag } from '../components/marks.tsx';
import { spanText } from '../format/measures.ts';
import { words } from '../words.ts';
import { ScrollBox } from '../components/scroll-box.tsx';

const AT_FIRST = 6;

/** Ways to do it, side by side: allowed ones by their hours, then those that are not allowed and why. */
export function JobWays({ ways }: { readonly ways: readonly SetupOutcome[] }) {
  const [all, setAll] = useState(false);
  const { way: head } = words.job;
  const ranked = rankWays(ways);
  const shown = all ? ranked : firstWays(ranked);
  const longest_s = Math.max(...shown.map(({ elapsed_s }) => elapsed_s), 1);
  return (
    <section aria-labelledby="ways-title">
      <h2 id="ways-title">
        {words.job.ways} <span className="small soft">{words.job.waysNote}</span>
      </h2>
      <ScrollBox label={words.job.ways}>
        <table className="ways">
          <thead>
            <tr>
              <th scope="col">{head.way}</th>
              {[head.elapsed, head.liquidOut, head.liquidIn, head.attended, head.gear].map((text) => (
                <th key={text} scope="col" className="number">
                  {text}
                </th>
              ))}
              <th scope="col">{head.limitedBy}</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((way) => (
              <WayRow key={`${way.label} ${way.elapsed_s}`} way={way} longest_s={longest_s} />
            ))}
          </tbody>
        </table>
      </ScrollBox>
      {ranked.length > AT_FIRST && (
        <button type="button" className="no-print" aria-expanded={all} onClick={() => setAll(!all)}>
          {all ? words.job.fewerWays : words.job.allWays(ranked.length)}
        </button>
      )}
    </section>
  );
}

function rankWays(ways: readonly SetupOutcome[]): SetupOutcome[] {
  return ways.toSorted(
    (a, b) =>
      Number(a.forbidden.length > 0) - Number(b.forbidden.length > 0) ||
      a.elapsed_s - b.elapsed_s ||
      Number(b.chosen) - Number(a.chosen),
  );
}

/** The first ones, always with the chosen way, the best of the other method, and one that is not allowed. */
function firstWays(ranked: readonly SetupOutcome[]): SetupOutcome[] {
  if (ranked.length <= AT_FIRST) return [...ranked];
  const chosen = ranked.find((way) => way.chosen);
  const other = ranked.find(
    ({ setup, forbidden }) => setup.method !== chosen?.setup.method && forbidden.length === 0,
  );
  const barred = ranked.find(({ forbidden }) => forbidden.length > 0);
  const kept = new Set([chosen, other, barred].filter((way) => way !== undefined));
  for (const way of ranked) if (kept.size < AT_FIRST) kept.add(way);
  return ranked.filter((way) => kept.has(way));
}

function WayRow({ way, longest_s }: { readonly way: SetupOutcome; readonly longest_s: number }) {
  const isBarred = way.forbidden.length > 0;
  return (
    <tr className={way.chosen ? 'chosen' : undefined}>
      <th scope="row">
        {way.label}
        {way.chosen && <span className="small soft"> {words.job.way.chosen}</span>}
        {isBarred && (
          <span className="small caution-words barred">
            <Flag />
            {words.job.way.forbidden}: {way.forbidden.join('; ')}
          </span>
        )}
      </th>
      <td className="number">
        <strong>{isBarred ? '–' : spanText(way.elapsed_s)}</strong>
        {!isBarred && (
          <svg className="drawing bar" width="72" height="4" aria-hidden="true">
            <rect className="ink" width={(72 * way.elapsed_s) / longest_s} height="3" />
          </svg>
        )}
      </td>
      <Time time_s={isBarred ? 0 : way.liquidRecovery_s} />
      <Time time_s={isBarred ? 0 : way.liquidRecharge_s} />
      <Time time_s={isBarred ? 0 : way.attended_person_s} />
      <Time time_s={isBarred ? 0 : way.gear_s} />
      <td>{isBarred ? '–' : way.limitedBy}</td>
    </tr>
  );
}

function Time({ time_s }: { readonly time_s: number }) {
  return <td className="number">{time_s === 0 ? '–' : spanText(time_s)}</td>;
}
