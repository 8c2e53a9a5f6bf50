import type { ReactNode } from 'react';
import { words } from '../words.ts';

/** Brim and clock at no charge: what stands before there are pounds to draw. */
function EmptyBrim() {
  return (
    <svg className="drawing" viewBox="0 0 720 150" aria-hidden="true">
      <path className="heavy" d="M40 30H700" />
      {[60, 90, 120].map((y) => (
        <path key={y} className="rule" d={`M40 ${y}H700`} />
      ))}
      <path className="ink-line" d="M40 130H700" />
      {[40, 150, 260, 370, 480, 590, 700].map((x) => (
        <path key={x} className="ink-line" d={`M${x} 130v5`} />
      ))}
    </svg>
  );
}

export function LoadingState({ message }: { readonly message: string }) {
  return (
    <section className="state" aria-busy="true">
      <h1 className="hidden-words">{words.product}</h1>
      <EmptyBrim />
      <output>{message}</output>
    </section>
  );
}

interface StateProps {
  readonly title?: string;
  readonly message: string;
  readonly children?: ReactNode;
}

export function EmptyState({ message, children }: StateProps) {
  return (
    <section className="state">
      <h1 className="hidden-words">{words.product}</h1>
      <EmptyBrim />
      <p>{message}</p>
      <div className="actions">{children}</div>
    </section>
  );
}

export function FailedState({ title = words.state.failed, message, children }: StateProps) {
  return (
    <section className="state failed" role="alert">
      <h1>{title}</h1>
      <p>{message}</p>
      <div className="actions">{children}</div>
    </section>
  );
}
