import type { PlannedPassage } from '@brimline/planning';
import type { WeekLine } from '../drawing/week-layout.ts';
import { freeSpanAfter, stays, type WeekBlock, type WeekRow } from '../drawing/week-rows.ts';
import { spanOfDaysText } from '../format/clock.ts';
import { words } from '../words.ts';
import { Booking, type FreeSpan } from './booking.tsx';
import { Arrow } from './marks.tsx';
import type { WeekDrawing } from './week-chart.tsx';

interface Props {
  readonly line: Extract<WeekLine, { kind: 'unit' }>;
  readonly drawing: WeekDrawing;
}

/** A person's or a unit's row: bookings, where gear stays on site between them, travel and clean-out. */
export function UnitLine({ line, drawing }: Props) {
  const { row, top } = line;
  const { x } = drawing;
  return (
    <g>
      {line.isGear &&
        stays(row).map(({ from_ms, to_ms }) => (
          <path key={from_ms} className="stays" d={`M${x(from_ms)} ${top + 32}H${x(to_ms)}`} />
        ))}
      {row.passages.map((passage) => (
        <Passage key={`${passage.kind} ${passage.start}`} passage={passage} top={top} drawing={drawing} />
      ))}
      {row.blocks.map((block) => (
        <Booking
          key={block.from_ms}
          block={block}
          who={line.name}
          top={top}
          drawing={drawing}
          free={freeAfter(row, block, drawing)}
        />
      ))}
    </g>
  );
}

/** Free pixels after a booking, where its number may stand when the booking is too short for it. */
function freeAfter(row: WeekRow, block: WeekBlock, { x, width }: WeekDrawing): FreeSpan {
  const { from_ms, to_ms } = freeSpanAfter(row, block);
  return { x0: x(from_ms), x1: to_ms === null ? width : x(to_ms) };
}

interface PassageProps {
  readonly passage: PlannedPassage;
  readonly top: number;
  readonly drawing: WeekDrawing;
}

function Passage({ passage, top, drawing }: PassageProps) {
  const { x, timeZone } = drawing;
  const [from_ms, to_ms] = [Date.parse(passage.start), Date.parse(passage.end)];
  const [x0, x1] = [x(from_ms), x(to_ms)];
  const when = spanOfDaysText(from_ms, to_ms, timeZone);
  const isTravel = passage.kind === 'travel';
  const what = isTravel ? words.week.travelTo(passage.toPlace ?? '') : words.legend.cleanOut;
  return (
    <g>
      <title>{`${what}, ${when}`}</title>
      {isTravel ? (
        <Arrow x0={Math.min(x0, x1 - 3)} x1={x1} y={top + 20} />
      ) : (
        <rect className="clean-out" x={x0} y={top + 7} width={Math.max(2, x1 - x0)} height={26} />
      )}
    </g>
  );
}
