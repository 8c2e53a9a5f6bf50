import { textWidth } from '../drawing/labels.ts';
import type { CylinderPool } from '../drawing/week-rows.ts';
import { weekdayTimeText } from '../format/clock.ts';
import { percentText } from '../format/measures.ts';
import { words } from '../words.ts';
import type { WeekDrawing } from './week-chart.tsx';

interface PoolProps {
  readonly pool: CylinderPool;
  readonly top: number;
  readonly height: number;
  readonly drawing: WeekDrawing;
}

/** Cylinders held against how many there are: a hatched area under a heavy line. */
export function PoolLine({ pool, top, height, drawing }: PoolProps) {
  const { x, width } = drawing;
  const ceiling = top + 14;
  const floor = top + height - 10;
  const y = (held: number): number => floor - (held / Math.max(1, pool.limit)) * (floor - ceiling);
  let path = `M0 ${floor}`;
  for (const { at_ms, held } of pool.steps) path += `H${x(at_ms)}V${y(held)}`;
  const busiest = pool.steps.find(({ held }) => held === pool.most);
  const text =
    busiest && pool.most > 0 ? words.week.held(pool.most, pool.limit - pool.most) : words.week.noneHeld;
  const textX = Math.min(busiest && pool.most > 0 ? x(busiest.at_ms) + 6 : 6, width - textWidth(text) - 8);
  return (
    <g>
      <path className="cylinder" d={`${path}H${width}V${floor}Z`} />
      <path className="cylinder-edge" d={`${path}H${width}`} />
      <path className="heavy" d={`M0 ${ceiling}H${width}`} />
      <path className="edge" d={`M0 ${floor}H${width}`} />
      <rect className="halo" x={textX - 4} y={floor - 17} width={textWidth(text) + 8} height={15} />
      <text x={textX} y={floor - 5}>
        {text}
      </text>
    </g>
  );
}

interface DoneProps {
  readonly top: number;
  readonly drawing: WeekDrawing;
}

/** When all is done, when no plan could be done earlier, and how far apart the two are. */
export function AllDoneLine({ top, drawing }: DoneProps) {
  const { x, timeZone, plan, width } = drawing;
  const { schedule } = plan;
  const [bound_ms, end_ms] = [Date.parse(schedule.lowerBound), Date.parse(schedule.end)];
  const [x0, x1] = [x(bound_ms), x(end_ms)];
  const y = top + 22;
  const bound = words.week.bound(weekdayTimeText(bound_ms, timeZone), schedule.bound);
  const planned = words.week.planned(weekdayTimeText(end_ms, timeZone));
  const gap = words.week.gap(percentText(schedule.gap, 1).replace(' %', ''));
  const room = textWidth(`${planned}, ${gap}`) + 8;
  const after = x1 + room <= width;
  return (
    <g>
      <path className="edge" d={`M0 ${y}H${x0}`} />
      <path className="heavy" d={`M${x0} ${y - 7}V${y + 7}M${x1} ${y - 7}V${y + 7}`} />
      {x1 > x0 && (
        <path className="ribbon-ticked" d={`M${x0} ${y}H${x1}`} strokeWidth={6} strokeDasharray="2.5 2.5" />
      )}
      <text
        className={x0 > textWidth(bound) + 8 ? 'end' : undefined}
        x={x0 > textWidth(bound) + 8 ? x0 - 6 : 6}
        y={y - 8}
      >
        {bound}
      </text>
      <text className={after ? undefined : 'end'} x={after ? x1 + 6 : x1 - 6} y={after ? y + 4 : y + 19}>
        {`${planned}, ${gap}`}
      </text>
    </g>
  );
}
