import type { Reason } from '@brimline/estimating';
import { createContext, type ReactNode, use, useEffect, useMemo, useRef, useState } from 'react';
import { quantityText } from '../format/measures.ts';
import { words } from '../words.ts';
import { useUnits } from './settings.tsx';

interface Opened {
  readonly key: string;
  readonly reason: Reason;
}

interface Reasons {
  readonly opened: Opened | null;
  readonly open: (opened: Opened | null) => void;
}

const Context = createContext<Reasons | null>(null);

/** Holds which number's reason stands open; one at a time. */
export function ReasonProvider({ children }: { readonly children: ReactNode }) {
  const [opened, open] = useState<Opened | null>(null);
  const reasons = useMemo(() => ({ opened, open }), [opened]);
  return <Context value={reasons}>{children}</Context>;
}

function useReasons(): Reasons {
  const reasons = use(Context);
  if (!reasons) throw new Error('reasons are read outside their provider');
  return reasons;
}

interface WithReasonProps {
  /** Unlike any other on the page. */
  readonly id: string;
  readonly reason: Reason;
  readonly text: string;
}

/** A number that opens its reason. */
export function WithReason({ id, reason, text }: WithReasonProps) {
  const { opened, open } = useReasons();
  const isOpen = opened?.key === id;
  return (
    <button
      type="button"
      id={buttonId(id)}
      className="with-reason"
      aria-expanded={isOpen}
      aria-controls={isOpen ? PANEL_ID : undefined}
      aria-label={words.reason.open(text)}
      onClick={() => open(isOpen ? null : { key: id, reason })}
    >
      {text}
    </button>
  );
}

const PANEL_ID = 'reason-panel';
const buttonId = (key: string): string => `reason-of-${key.replaceAll(/\W+/g, '-')}`;

/** Closes the reason and goes back to its number. */
function closeReason(key: string, open: Reasons['open']): void {
  open(null);
  document.getElementById(buttonId(key))?.focus();
}

/** The margin's answer: formula, what was put in and whence, what sets the pace. */
export function ReasonPanel() {
  const { opened, open } = useReasons();
  const heading = useRef<HTMLHeadingElement>(null);
  const key = opened?.key;
  useEffect(() => {
    if (key === undefined) return;
    heading.current?.focus();
    const closeOnEscape = (event: KeyboardEvent): void => {
      if (event.key === 'Escape') closeReason(key, open);
    };
    window.addEventListener('keydown', closeOnEscape);
    return () => window.removeEventListener('keydown', closeOnEscape);
  }, [key, open]);
  if (!opened) return null;
  return (
    <section id={PANEL_ID} className="reason-panel" aria-label={words.reason.panel}>
      <h2 ref={heading} tabIndex={-1}>
        {words.reason.title(opened.reason.label)}
      </h2>
      <ReasonText reason={opened.reason} />
      <button type="button" onClick={() => closeReason(opened.key, open)}>
        {words.reason.close}
      </button>
    </section>
  );
}

function ReasonText({ reason }: { readonly reason: Reason }) {
  const units = useUnits();
  return (
    <>
      <p className="reason-value">{quantityText(reason.value, reason.unit, units)}</p>
      <p className="formula">{reason.formula}</p>
      <dl className="reason-inputs">
        {reason.inputs.map(({ label, value, unit, source }) => (
          <div key={`${label} ${source}`}>
            <dt>{label}</dt>
            <dd>
              <strong>{quantityText(value, unit, units)}</strong>
              <span className="small soft">{source}</span>
            </dd>
          </div>
        ))}
      </dl>
      {reason.limitedBy !== null && <p>{words.reason.limitedBy(reason.limitedBy)}</p>}
      <p className="small soft">
        {words.reason.source}: {reason.source}
      </p>
    </>
  );
}
