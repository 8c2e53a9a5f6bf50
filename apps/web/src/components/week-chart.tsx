import type { PlannedJob, WeekPlan } from '@brimline/planning';
import { type RefObject, useMemo } from 'react';
import { evenClock } from '../drawing/even-clock.ts';
import {
  extentOf,
  HEADING_PX,
  sheetsOf,
  type WeekClock,
  type WeekLayout,
  type WeekLine,
} from '../drawing/week-layout.ts';
import { massText } from '../format/measures.ts';
import { words } from '../words.ts';
import { useUnits } from './settings.tsx';
import { WeekAxis, WeekGround } from './week-axis.tsx';
import { JobLine } from './week-job-line.tsx';
import { AllDoneLine, PoolLine } from './week-pool-line.tsx';
import { UnitLine } from './week-unit-line.tsx';
import { ScrollBox } from './scroll-box.tsx';

export interface WeekDrawing {
  readonly plan: WeekPlan;
  readonly jobs: ReadonlyMap<string, PlannedJob>;
  readonly timeZone: string;
  readonly width: number;
  readonly x: (at_ms: number) => number;
}

interface Props {
  readonly plan: WeekPlan;
  readonly layout: WeekLayout;
  readonly clock: WeekClock;
  readonly timeZone: string;
  readonly width: number;
  readonly scroller: RefObject<HTMLDivElement | null>;
  /** Sheets can't scroll: the rows are set in groups that fit on one. */
  readonly isPrinting: boolean;
}

/** Who, where, with what and when: people, gear and cylinders on one even clock. */
export function WeekChart({ plan, layout, clock, timeZone, width, scroller, isPrinting }: Props) {
  const drawing = useMemo<WeekDrawing>(
    () => ({
      plan,
      jobs: new Map(plan.jobs.map((job) => [job.id, job])),
      timeZone,
      width,
      x: evenClock(clock.from_ms, clock.to_ms, width),
    }),
    [plan, clock, timeZone, width],
  );
  if (isPrinting) {
    return sheetsOf(layout.lines).map((lines) => (
      <div key={lines[0]!.key} className="week-chart">
        <LineNames drawing={drawing} lines={lines} />
        <Lines drawing={drawing} clock={clock} lines={lines} />
      </div>
    ));
  }
  return (
    <div className="week-chart">
      <LineNames drawing={drawing} lines={layout.lines} />
      <ScrollBox label={words.week.scroller} box={scroller}>
        <Lines drawing={drawing} clock={clock} lines={layout.lines} />
      </ScrollBox>
    </div>
  );
}

interface LinesProps {
  readonly drawing: WeekDrawing;
  readonly clock: WeekClock;
  readonly lines: readonly WeekLine[];
}

function Lines({ drawing, clock, lines }: LinesProps) {
  const { top, height, needsClock } = extentOf(lines);
  const first = lines.find(({ kind }) => kind === 'job');
  return (
    <svg
      className="drawing"
      width={drawing.width}
      height={height}
      viewBox={`0 ${top} ${drawing.width} ${height}`}
    >
      <WeekGround drawing={drawing} clock={clock} top={top} height={height} />
      {needsClock && <WeekAxis drawing={drawing} clock={clock} top={top} height={HEADING_PX} />}
      {lines.map((line) => (
        <Line key={line.key} line={line} drawing={drawing} clock={clock} isFirst={line === first} />
      ))}
    </svg>
  );
}

interface LineProps {
  readonly line: WeekLine;
  readonly drawing: WeekDrawing;
  readonly clock: WeekClock;
  readonly isFirst: boolean;
}

function Line({ line, drawing, clock, isFirst }: LineProps) {
  const foot = line.top + line.height - 0.5;
  const rule = <path className="rule" d={`M0 ${foot}H${drawing.width}`} />;
  switch (line.kind) {
    case 'heading':
      return <WeekAxis drawing={drawing} clock={clock} top={line.top} height={line.height} />;
    case 'job':
      return (
        <g>
          {rule}
          <JobLine job={drawing.jobs.get(line.jobId)!} top={line.top} drawing={drawing} isFirst={isFirst} />
        </g>
      );
    case 'unit':
      return (
        <g>
          {rule}
          <UnitLine line={line} drawing={drawing} />
        </g>
      );
    case 'pool':
      return <PoolLine pool={line.pool} top={line.top} height={line.height} drawing={drawing} />;
    case 'done':
      return <AllDoneLine top={line.top} drawing={drawing} />;
  }
}

function LineNames({ drawing, lines }: Omit<LinesProps, 'clock'>) {
  const units = useUnits();
  const { top, height } = extentOf(lines);
  return (
    <div className="week-names" style={{ height }}>
      {lines.map((line) => {
        const [name, detail] = namesOf(line, drawing.jobs, units);
        return (
          <div
            key={line.key}
            className={`name-of-${line.kind}`}
            style={{ top: line.top - top, height: line.height }}
          >
            <span>{name}</span>
            {detail !== '' && <span className="small soft">{detail}</span>}
          </div>
        );
      })}
    </div>
  );
}

function namesOf(
  line: WeekLine,
  jobs: ReadonlyMap<string, PlannedJob>,
  units: 'us' | 'si',
): readonly [string, string] {
  switch (line.kind) {
    case 'heading':
      return [words.week[line.text], ''];
    case 'job': {
      const job = jobs.get(line.jobId)!;
      return [`${job.id} ${job.site.name}`, `${job.refrigerant}, ${massText(job.charge_kg, units)}`];
    }
    case 'unit':
      return [line.name, line.detail];
    case 'pool':
      return [words.week.poolOf(massText(line.pool.waterCapacity_kg, units)), `${line.pool.limit}`];
    case 'done':
      return [words.week.allDone, ''];
  }
}
