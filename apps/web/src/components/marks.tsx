import type { Manner } from '@brimline/estimating';
import type { ReactNode } from 'react';
import { tearPaths } from '../drawing/tear.ts';
import { words } from '../words.ts';

/** Fills shared by all drawings of the page; drawn once, referred to by name. */
export function Patterns() {
  return (
    <svg className="patterns" aria-hidden="true">
      <defs>
        <pattern id="hatch" width="8" height="8" patternUnits="userSpaceOnUse">
          <rect className="ground" width="8" height="8" />
          <path className="line" d="M-2 2L2 -2M0 8L8 0M6 10L10 6" />
        </pattern>
        <pattern id="dots" width="4" height="4" patternUnits="userSpaceOnUse">
          <rect className="paper" width="4" height="4" />
          <circle className="dot" cx="2" cy="2" r="1" />
        </pattern>
        <pattern id="cross" width="5" height="5" patternUnits="userSpaceOnUse">
          <path className="cross" d="M0 0L5 5M5 0L0 5" />
        </pattern>
      </defs>
    </svg>
  );
}

interface RibbonProps {
  readonly manner: Manner;
  readonly x0: number;
  readonly x1: number;
  readonly y: number;
  readonly height: number;
}

/** Who is needed: solid where attended, ticked where watched, dotted where nobody. */
export function Ribbon({ manner, x0, x1, y, height }: RibbonProps) {
  const middle = y + height / 2;
  const width = Math.max(0.75, x1 - x0);
  if (manner === 'attended') {
    return <rect className="ribbon-solid" x={x0} y={y} width={width} height={height} />;
  }
  if (manner === 'watched') {
    return (
      <path
        className="ribbon-ticked"
        d={`M${x0} ${middle}H${x0 + width}`}
        strokeWidth={height}
        strokeDasharray="2.5 2.5"
      />
    );
  }
  return <path className="ribbon-dotted" d={`M${x0} ${middle}H${x0 + width}`} />;
}

export function Flag() {
  return (
    <svg className="flag" viewBox="0 0 11 11" aria-hidden="true">
      <path d="M1 0h1.6v11H1zM2.6 .5H10L7.8 3.4 10 6.3H2.6z" />
    </svg>
  );
}

/** A level falling under a brim. */
export function Mark() {
  return (
    <svg className="drawing" viewBox="0 0 26 20" aria-hidden="true">
      <path className="chiller" d="M2 4V18H24C14 17 13 6 10 4z" />
      <path className="cylinder" d="M10 4C13 6 14 17 24 18V4z" />
      <path className="heavy" d="M0 3H26" />
    </svg>
  );
}

/** A horizontal arrow of ours: the text face has none. */
export function Arrow({ x0, x1, y }: { readonly x0: number; readonly x1: number; readonly y: number }) {
  const head = Math.min(4, Math.max(2, x1 - x0));
  return (
    <path
      className="ink-line"
      d={`M${x0} ${y}H${x1}M${x1 - head} ${y - head}L${x1} ${y}L${x1 - head} ${y + head}`}
    />
  );
}

export type LegendItem =
  | 'attended'
  | 'watched'
  | 'unattended'
  | 'swap'
  | 'folded'
  | 'travel'
  | 'cleanOut'
  | 'stays'
  | 'inChiller'
  | 'inTransit'
  | 'inCylinders';

const SAMPLES: Readonly<Record<LegendItem, { readonly text: string; readonly drawing: ReactNode }>> = {
  attended: {
    text: words.manner.attended,
    drawing: <Ribbon manner="attended" x0={0} x1={24} y={3} height={6} />,
  },
  watched: {
    text: words.manner.watched,
    drawing: <Ribbon manner="watched" x0={0} x1={24} y={3} height={6} />,
  },
  unattended: {
    text: words.manner.unattended,
    drawing: <Ribbon manner="unattended" x0={0} x1={24} y={3} height={6} />,
  },
  swap: { text: words.legend.swap, drawing: <path className="ink" d="M8 3h8l-4 6z" /> },
  folded: { text: words.legend.folded, drawing: <Tear x={12} top={0} bottom={12} /> },
  travel: { text: words.legend.travel, drawing: <Arrow x0={2} x1={22} y={6} /> },
  cleanOut: {
    text: words.legend.cleanOut,
    drawing: <rect className="clean-out" x="4" y="1" width="16" height="10" />,
  },
  stays: { text: words.legend.stays, drawing: <path className="stays" d="M0 6H24" /> },
  inChiller: {
    text: words.legend.inChiller,
    drawing: <rect className="chiller" x="4" y="1" width="16" height="10" />,
  },
  inTransit: {
    text: words.legend.inTransit,
    drawing: <rect className="transit" x="4" y="1" width="16" height="10" />,
  },
  inCylinders: {
    text: words.legend.inCylinders,
    drawing: <rect className="cylinder" x="4" y="1" width="16" height="10" />,
  },
};

export function Legend({ items }: { readonly items: readonly LegendItem[] }) {
  return (
    <ul className="legend">
      {items.map((item) => (
        <li key={item}>
          <svg className="drawing" viewBox="0 0 24 12" aria-hidden="true">
            {SAMPLES[item].drawing}
          </svg>
          {SAMPLES[item].text}
        </li>
      ))}
    </ul>
  );
}

/** The clock is torn here. */
export function Tear({
  x,
  top,
  bottom,
}: {
  readonly x: number;
  readonly top: number;
  readonly bottom: number;
}) {
  const [left, right] = tearPaths(x, top, bottom);
  return (
    <g>
      <path className="tear-ground" d={`${left}L${right.slice(1).split('L').toReversed().join('L')}Z`} />
      <path className="tear" d={left} />
      <path className="tear" d={right} />
    </g>
  );
}
