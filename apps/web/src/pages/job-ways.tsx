import type { SetupOutcome, WayChange } from '@brimline/estimating';
import { useState } from 'react';
import { Flag } from '../components/marks.tsx';
import { moneyHeadline, spanText } from '../format/measures.ts';
import { words } from '../words.ts';
import { ScrollBox } from '../components/scroll-box.tsx';

const AT_FIRST = 6;

interface Props {
  readonly ways: readonly SetupOutcome[];
  /** Of the rate card; null where ways were ranked without one. */
  readonly currency: string | null;
}

/** Ways to do it, side by side: allowed ones by what they cost, then those that are not allowed and why. */
export function JobWays({ ways, currency }: Props) {
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
              {[head.elapsed, head.cost, head.liquidOut, head.liquidIn, head.attended, head.gear].map(
                (text) => (
                  <th key={text} scope="col" className="number">
                    {text}
                  </th>
                ),
              )}
              <th scope="col">{head.limitedBy}</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((way) => (
              <WayRow
                key={`${way.label} ${way.elapsed_s}`}
                way={way}
                longest_s={longest_s}
                currency={currency}
              />
            ))}
          </tbody>
        </table>
      </ScrollBox>
      <OneChange ways={ways} currency={currency} />
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
      (a.cost_minor ?? a.elapsed_s) - (b.cost_minor ?? b.elapsed_s) ||
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

interface WayRowProps {
  readonly way: SetupOutcome;
  readonly longest_s: number;
  readonly currency: string | null;
}

function WayRow({ way, longest_s, currency }: WayRowProps) {
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
      <td className="number">
        {isBarred || currency === null || way.cost_minor === null
          ? '–'
          : moneyHeadline({ currency, minorUnits: Math.round(way.cost_minor) })}
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

/** What one change of the chosen way would buy, the best first. */
function OneChange({ ways, currency }: Props) {
  const changes = ways.flatMap(({ change }) => (change === null ? [] : [change]));
  if (changes.length === 0) return null;
  return (
    <>
      <h3>{words.job.oneChange}</h3>
      <ul className="one-change">
        {changes.map((change) => (
          <li key={change.what}>
            {change.what}: {changeText(change, currency)}
          </li>
        ))}
      </ul>
    </>
  );
}

function changeText(
  { elapsed_s, attended_person_s, cost_minor }: WayChange,
  currency: string | null,
): string {
  const { moreOrLess } = words.job;
  const parts = [
    moreOrLess(elapsed_s, spanText(Math.abs(elapsed_s))),
    moreOrLess(attended_person_s, words.job.ofPeople(spanText(Math.abs(attended_person_s)))),
  ];
  if (currency !== null && cost_minor !== null)
    parts.push(
      moreOrLess(cost_minor, moneyHeadline({ currency, minorUnits: Math.round(Math.abs(cost_minor)) })),
    );
  return parts.join(', ');
}
