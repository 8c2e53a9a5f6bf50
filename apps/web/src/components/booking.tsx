import { SECONDS_PER_HOUR } from '@brimline/quantities';
import { textWidth } from '../drawing/labels.ts';
import type { WeekBlock } from '../drawing/week-rows.ts';
import { spanOfDaysText, zoneName } from '../format/clock.ts';
import { jobLink } from '../route.ts';
import { words } from '../words.ts';
import { Ribbon } from './marks.tsx';
import { moveBetweenBookings } from './move-between-bookings.ts';
import type { WeekDrawing } from './week-chart.tsx';

interface Props {
  readonly block: WeekBlock;
  readonly who: string;
  readonly top: number;
  readonly drawing: WeekDrawing;
  readonly free: FreeSpan;
}

/** Pixels beside a booking that hold nothing. */
export interface FreeSpan {
  readonly x0: number;
  readonly x1: number;
}

const RIBBON_PX = 6;
const BODY_PX = 20;

/** One unbroken booking: its ribbon, its job, and the way to the job. */
export function Booking({ block, who, top, drawing, free }: Props) {
  const { x, timeZone } = drawing;
  const [x0, x1] = [x(block.from_ms), x(block.to_ms)];
  const width = Math.max(2, x1 - x0);
  const attended = block.pieces.some(({ manner }) => manner !== 'unattended');
  const text = labelFor(block, width);
  const y = top + 7;
  return (
    <a
      className="booking"
      href={jobLink(block.jobId)}
      tabIndex={-1}
      data-row={top}
      data-from={Math.round(x0)}
      onKeyDown={moveBetweenBookings}
      aria-label={spokenBlock(block, who, timeZone)}
    >
      <title>{spokenBlock(block, who, timeZone)}</title>
      <rect
        className="body"
        x={x0}
        y={y}
        width={width}
        height={RIBBON_PX + BODY_PX}
        strokeDasharray={attended ? undefined : '1.5 3'}
      />
      {block.pieces.map(({ from_ms, to_ms, manner }) => (
        <Ribbon
          key={from_ms}
          manner={manner}
          x0={x(from_ms)}
          x1={Math.max(x(from_ms) + 0.75, x(to_ms))}
          y={y}
          height={RIBBON_PX}
        />
      ))}
      {text !== null && (
        <text x={x0 + 4} y={y + RIBBON_PX + 14}>
          {text}
        </text>
      )}
      {text === null && textWidth(block.jobId) + 8 <= free.x1 - free.x0 && (
        <text className="soft" x={free.x0 + 4} y={y + RIBBON_PX + 14}>
          {block.jobId}
        </text>
      )}
      <rect className="ring" x={x0 - 2} y={y - 2} width={width + 4} height={RIBBON_PX + BODY_PX + 4} />
    </a>
  );
}

/** The job's number, with what is done most where there is room. */
function labelFor(block: WeekBlock, width: number): string | null {
  const texts = [`${block.jobId} ${longestOf(block)}`, block.jobId];
  return texts.find((text) => textWidth(text) + 8 <= width) ?? null;
}

function longestOf({ pieces }: WeekBlock): string {
  return pieces.toSorted((a, b) => b.to_ms - b.from_ms - (a.to_ms - a.from_ms))[0]?.title ?? '';
}

/** The booking in words; begins as its label does, so that who sees one and says it is understood. */
function spokenBlock(block: WeekBlock, who: string, timeZone: string): string {
  const when = `${spanOfDaysText(block.from_ms, block.to_ms, timeZone)} ${zoneName(block.to_ms, timeZone)}`;
  const what = block.pieces.map(({ title, manner, from_ms, to_ms }) => {
    const hours = (to_ms - from_ms) / 1000 / SECONDS_PER_HOUR;
    return `${title} ${hours.toFixed(1)} h, ${words.manner[manner]}`;
  });
  return words.week.block(`${block.jobId} ${longestOf(block)}`, who, when, what.join('; '));
}
