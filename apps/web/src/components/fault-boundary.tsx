import { Component, type ReactNode } from 'react';
import { weekLink } from '../route.ts';
import { words } from '../words.ts';
import { FailedState } from './page-states.tsx';

interface Props {
  readonly children: ReactNode;
}

/** Keeps the frame standing when a screen can't be drawn. */
export class FaultBoundary extends Component<Props, { readonly fault: Error | null }> {
  override state: { readonly fault: Error | null } = { fault: null };

  static getDerivedStateFromError(fault: Error): { readonly fault: Error } {
    return { fault };
  }

  override render(): ReactNode {
    const { fault } = this.state;
    if (!fault) return this.props.children;
    return (
      <FailedState title={words.state.fault} message={fault.message}>
        <button type="button" onClick={() => window.location.reload()}>
          {words.state.tryAgain}
        </button>
        <a className="button" href={weekLink} onClick={() => this.setState({ fault: null })}>
          {words.state.toWeek}
        </a>
      </FailedState>
    );
  }
}
