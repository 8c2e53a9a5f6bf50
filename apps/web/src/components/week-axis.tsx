import { type DayOfClock, daysOf, hourMarks, nightsOf } from '../drawing/even-clock.ts';
import { textWidth } from '../drawing/labels.ts';
import type { WeekClock } from '../drawing/week-layout.ts';
import { dayText, weekdayText } from '../format/clock.ts';
import type { WeekDrawing } from './week-chart.tsx';

interface GroundProps {
  readonly drawing: WeekDrawing;
  readonly clock: WeekClock;
  readonly top: number;
  readonly height: number;
}

/** Nights of the zone shown, shaded from top to foot, and a line at each midnight. */
export function WeekGround({ drawing, clock, top, height }: GroundProps) {
  const { x, timeZone } = drawing;
  return (
    <g>
      {nightsOf(clock.from_ms, clock.to_ms, timeZone).map(({ from_ms, to_ms }) => (
        <rect
          key={from_ms}
          className="night"
          x={x(from_ms)}
          y={top}
          width={x(to_ms) - x(from_ms)}
          height={height}
        />
      ))}
      {daysOf(clock.from_ms, clock.to_ms, timeZone).map(({ day, from_ms }) => (
        <path key={day} className="edge" d={`M${x(from_ms)} ${top}v${height}`} />
      ))}
    </g>
  );
}

const HOUR_MS = 3_600_000;

interface AxisProps {
  readonly drawing: WeekDrawing;
  readonly clock: WeekClock;
  readonly top: number;
  readonly height: number;
}

/** Days and hours as the clock of the zone shows them; instants are even, so a change of the clock only moves names. */
export function WeekAxis({ drawing, clock, top, height }: AxisProps) {
  const { x, timeZone, width } = drawing;
  const days = daysOf(clock.from_ms, clock.to_ms, timeZone);
  const perHour = x(clock.from_ms + HOUR_MS);
  const every = [1, 2, 3, 6, 12].find((hours) => hours * perHour >= 24);
  const hours = every === undefined ? [] : hourMarks(days, timeZone, every);
  return (
    <g>
      <rect className="axis-ground" x={0} y={top} width={width} height={height} />
      {days.map((day) => (
        <DayName key={day.day} day={day} y={top + height - 22} drawing={drawing} />
      ))}
      {hours.map(({ at_ms, hour }) => (
        <text key={at_ms} className="soft middle" x={x(at_ms)} y={top + height - 7}>
          {hour}
        </text>
      ))}
    </g>
  );
}

/** A day wider than this says its name again, so that it stays in view when scrolled. */
const WIDE_DAY_PX = 600;
const REPEATS = 4;

interface DayProps {
  readonly day: DayOfClock;
  readonly y: number;
  readonly drawing: WeekDrawing;
}

function DayName({ day: { from_ms, to_ms }, y, drawing }: DayProps) {
  const { x, timeZone } = drawing;
  const noon_ms = (from_ms + to_ms) / 2;
  const room = x(to_ms) - x(from_ms);
  const text = [dayText(noon_ms, timeZone), weekdayText(noon_ms, timeZone)].find(
    (name) => textWidth(name) + 6 <= room,
  );
  const times = room > WIDE_DAY_PX ? REPEATS : 1;
  return (
    <g>
      <path className="edge" d={`M${x(from_ms)} ${y - 10}V${y + 22}`} />
      {text !== undefined &&
        Array.from({ length: times }, (_, index) => (
          <text key={index} className="head" x={x(from_ms) + 4 + (room * index) / times} y={y}>
            {text}
          </text>
        ))}
    </g>
  );
}
