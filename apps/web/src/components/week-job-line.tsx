import { instantOfLocal } from '@brimline/calendar';
import type { PlannedJob } from '@brimline/planning';
import { useMemo } from 'react';
import { jobPounds } from '../drawing/job-pounds.ts';
import { placeCurve } from '../drawing/placed-curve.ts';
import { brimOf, linePath, stackLayers, topOfScale } from '../drawing/stack.ts';
import { blocksOf } from '../drawing/week-rows.ts';
import { dayTimeText, spanOfDaysText, zoneName } from '../format/clock.ts';
import { jobLink } from '../route.ts';
import { words } from '../words.ts';
import { Ribbon } from './marks.tsx';
import { moveBetweenBookings } from './move-between-bookings.ts';
import type { WeekDrawing } from './week-chart.tsx';

interface Props {
  readonly job: PlannedJob;
  readonly top: number;
  readonly drawing: WeekDrawing;
  /** The drawing's one way in for the Tab key. */
  readonly isFirst: boolean;
}

const RIBBON_PX = 6;
const STACK_PX = 26;

/** A job's own row: its ribbon and its charge curve, small, on the week's even clock. */
export function JobLine({ job, top, drawing, isFirst }: Props) {
  const { x, timeZone } = drawing;
  const placed = useMemo(() => placeCurve(jobPounds(job.estimate.curve), job.phases), [job]);
  const blocks = useMemo(() => blocksOf(job, job.phases), [job]);
  const [first, last] = [blocks[0], blocks.at(-1)];
  if (!first || !last) return null;
  const floor = top + 6 + RIBBON_PX + 2 + STACK_PX;
  const scale = STACK_PX / topOfScale(job.estimate.curve.nameplate_kg, placed.points);
  const y = (mass_kg: number): number => floor - mass_kg * scale;
  const [x0, x1] = [x(first.from_ms), x(last.to_ms)];
  const spoken = words.week.block(
    job.id,
    job.title,
    `${spanOfDaysText(first.from_ms, last.to_ms, timeZone)} ${zoneName(last.to_ms, timeZone)}`,
    job.site.name,
  );
  return (
    <>
      <a
        className="booking"
        href={jobLink(job.id)}
        tabIndex={isFirst ? 0 : -1}
        data-row={top}
        data-from={Math.round(x0)}
        onKeyDown={moveBetweenBookings}
        aria-label={spoken}
      >
        <title>{spoken}</title>
        {stackLayers(placed.points, x, y).map(({ what, cylinder, area, edge }) => (
          <g key={`${what} ${cylinder}`}>
            <path className={what} d={area} />
            {what === 'cylinder' && <path className="cylinder-edge" d={edge} strokeWidth={0.75} />}
          </g>
        ))}
        <path
          className="heavy"
          strokeWidth={2}
          d={linePath(placed.points.map((point) => [x(point.at_ms), y(brimOf(point))] as const))}
        />
        <path className="edge" d={`M${x0} ${floor}H${x1}`} />
        {placed.spans.map(({ from_ms, to_ms, manner }) => (
          <Ribbon
            key={from_ms}
            manner={manner}
            x0={x(from_ms)}
            x1={Math.max(x(from_ms) + 0.75, x(to_ms))}
            y={top + 6}
            height={RIBBON_PX}
          />
        ))}
        <rect
          className="ring"
          x={x0 - 2}
          y={top + 4}
          width={Math.max(2, x1 - x0) + 4}
          height={floor - top - 2}
        />
      </a>
      <DueMark job={job} top={top} floor={floor} drawing={drawing} />
    </>
  );
}

interface DueProps {
  readonly job: PlannedJob;
  readonly top: number;
  readonly floor: number;
  readonly drawing: WeekDrawing;
}

/** A heavy stroke where the job is due, on the site's clock. */
function DueMark({ job, top, floor, drawing }: DueProps) {
  const due_ms = instantOfLocal(job.due, job.site.timeZone).getTime();
  const x = drawing.x(due_ms);
  if (x > drawing.width) return null;
  return (
    <g>
      <title>{words.week.dueAt(dayTimeText(due_ms, job.site.timeZone))}</title>
      <path className="heavy" d={`M${x} ${top + 6}V${floor}`} />
      <text x={x + 5} y={floor - 2} className="soft">
        {words.week.due}
      </text>
    </g>
  );
}
