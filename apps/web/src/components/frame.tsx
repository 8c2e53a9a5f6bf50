import { type ReactNode, useEffect, useRef, useState } from 'react';
import { ownZone, timeText } from '../format/clock.ts';
import type { UnitSystem } from '../format/measures.ts';
import { calculatorLink, jobLink, type Route, weekLink, whatIfLink } from '../route.ts';
import { words } from '../words.ts';
import { Mark, Patterns } from './marks.tsx';
import { type Theme, useSettings } from './settings.tsx';

interface Props {
  readonly route: Route;
  readonly notice: string | null;
  /** The job that the menu's estimate opens: the last one seen. */
  readonly jobId: string | null;
  readonly children: ReactNode;
}

/** What every screen stands in: name, menu, switches, and the notice that data are invented. */
export function Frame({ route, notice, jobId, children }: Props) {
  const main = useRef<HTMLElement>(null);
  return (
    <>
      <Patterns />
      <button type="button" className="skip" onClick={() => main.current?.focus()}>
        {words.skip}
      </button>
      <header>
        <div className="masthead">
          <span className="name">
            <Mark />
            {words.product}
          </span>
          <nav aria-label={words.pages.menu}>
            <ul>
              <Entry href={weekLink} text={words.pages.week} isHere={route.page === 'week'} />
              {jobId !== null && (
                <Entry href={jobLink(jobId)} text={words.pages.estimate} isHere={route.page === 'job'} />
              )}
              <Entry href={whatIfLink(jobId)} text={words.pages.whatIf} isHere={route.page === 'what if'} />
              <Entry
                href={calculatorLink(null)}
                text={words.pages.calculators}
                isHere={route.page === 'calculators'}
              />
            </ul>
          </nav>
          <Switches />
        </div>
        <OfflineStrip />
        {notice !== null && notice !== '' && <p className="data-notice">{notice}</p>}
      </header>
      <main ref={main} tabIndex={-1}>
        {children}
      </main>
    </>
  );
}

interface EntryProps {
  readonly href: string;
  readonly text: string;
  readonly isHere: boolean;
}

function Entry({ href, text, isHere }: EntryProps) {
  return (
    <li>
      <a href={href} aria-current={isHere ? 'page' : undefined}>
        {text}
      </a>
    </li>
  );
}

function Switches() {
  const { units, theme, chooseUnits, chooseTheme } = useSettings();
  return (
    <div className="switches">
      <label>
        <span className="label">{words.units.label}</span>
        <select value={units} onChange={(event) => chooseUnits(event.target.value as UnitSystem)}>
          <option value="us">{words.units.us}</option>
          <option value="si">{words.units.si}</option>
        </select>
      </label>
      <label>
        <span className="label">{words.theme.label}</span>
        <select value={theme} onChange={(event) => chooseTheme(event.target.value as Theme)}>
          <option value="system">{words.theme.system}</option>
          <option value="light">{words.theme.light}</option>
          <option value="dark">{words.theme.dark}</option>
        </select>
      </label>
    </div>
  );
}

/** Nothing is wrong when the line is away: the last plan stays, and the strip says since when. */
function OfflineStrip() {
  const [since_ms, setSince] = useState<number | null>(() => (navigator.onLine ? null : Date.now()));
  useEffect(() => {
    const away = (): void => setSince(Date.now());
    const back = (): void => setSince(null);
    window.addEventListener('offline', away);
    window.addEventListener('online', back);
    return () => {
      window.removeEventListener('offline', away);
      window.removeEventListener('online', back);
    };
  }, []);
  if (since_ms === null) return null;
  return <output className="notice">{words.offline(timeText(since_ms, ownZone()))}</output>;
}
