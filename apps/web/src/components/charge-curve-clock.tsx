import { formatNumber, fromSi } from '@brimline/quantities';
import { clockDays, clockTimes, isNight } from '../drawing/curve-layout.ts';
import { linesWithin, textWidth } from '../drawing/labels.ts';
import { calmPlace } from '../drawing/calm-place.ts';
import type { PlacedSpan } from '../drawing/placed-curve.ts';
import { linePath } from '../drawing/stack.ts';
import type { ClockFace } from '../format/clock.ts';
import { gaugeIn, gaugeText, gaugeUnit } from '../format/measures.ts';
import { words } from '../words.ts';
import { type CurveParts, tearsOf } from './charge-curve-parts.ts';
import { Ribbon } from './marks.tsx';

const RIBBON_PX = 8;
/** Room for the panel's own name. */
const HEAD_PX = 150;

/** The ribbon of steps: who is needed, what is done, and the hours of what is folded. */
export function CurveRibbon({ placed, frame, scales, timeZone }: CurveParts) {
  const folded = new Set(scales.clock.spans.filter((span) => span.folded).map(({ from_ms }) => from_ms));
  return placed.spans.map((span) => {
    const [x0, x1] = [scales.x(span.from_ms), scales.x(span.to_ms)];
    const isFolded = folded.has(span.from_ms);
    const lines = linesWithin(nameOf(span, timeZone), x1 - x0 + 2, 3) ?? [];
    const hours = formatHours(fromSi((span.to_ms - span.from_ms) / 1000, 'time', 'h'));
    return (
      <g key={span.from_ms}>
        <Ribbon
          manner={span.manner}
          x0={x0}
          x1={Math.max(x0 + 0.75, x1 - 0.75)}
          y={frame.ribbon}
          height={RIBBON_PX}
        />
        {[...lines, ...(isFolded ? [hours] : [])].map((line, index) => (
          <text
            key={line}
            className={index < lines.length ? 'middle' : 'soft middle'}
            x={(x0 + x1) / 2}
            y={frame.ribbon + RIBBON_PX + 11 + index * 11.5}
          >
            <Chemical text={line} />
          </text>
        ))}
      </g>
    );
  });
}

/** The text face has no subscript figures: the 2 of N2 is set small and low. */
function Chemical({ text }: { readonly text: string }) {
  if (!text.startsWith('N2')) return text;
  return (
    <>
      N
      <tspan dy={2} fontSize={8}>
        2
      </tspan>
      <tspan dy={-2}>{text.slice(2)}</tspan>
    </>
  );
}

function formatHours(hours: number): string {
  return `${formatNumber(hours, hours < 9.95 ? 1 : 0)} h`;
}

function nameOf(span: PlacedSpan, timeZone: ClockFace): string {
  if (span.phase) return words.phase[span.phase.kind];
  return isNight(span, timeZone) ? words.pause.night : words.pause.wait;
}

/** Bottom panel: gauge pressure, with attended time shaded and the freezing line named. */
export function PressurePanel(parts: CurveParts) {
  const { placed, frame, scales, units, curve } = parts;
  const right = frame.left + frame.width;
  const line = placed.points.map(
    ({ at_ms, pressure_Pa }) => [scales.x(at_ms), scales.yPressure(gaugeIn(pressure_Pa, units))] as const,
  );
  return (
    <g>
      <text className="head" x={0} y={frame.pressureTop - 8}>
        {words.curve.pressure(gaugeUnit(units))}
      </text>
      <AttendedGround {...parts} />
      {scales.pressureTicks.map((tick) => (
        <g key={tick}>
          <path
            className={tick === 0 ? 'edge' : 'rule'}
            d={`M${frame.left} ${scales.yPressure(tick)}H${right}`}
          />
          <text className="soft end" x={frame.left - 6} y={scales.yPressure(tick) + 4}>
            {formatNumber(tick, 0)}
          </text>
        </g>
      ))}
      <path className="pressure" d={linePath(line)} />
      {curve.freezing && <FreezingLine {...parts} line={line} pressure_Pa={curve.freezing.pressure_Pa} />}
      <LevelNotes {...parts} />
    </g>
  );
}

function AttendedGround({ placed, frame, scales }: CurveParts) {
  return placed.spans
    .filter(({ manner }) => manner !== 'unattended')
    .map(({ from_ms, to_ms, manner }) => (
      <rect
        key={from_ms}
        className={manner === 'attended' ? 'attended-ground' : 'watched-ground'}
        x={scales.x(from_ms)}
        y={frame.pressureTop}
        width={Math.max(0, scales.x(to_ms) - scales.x(from_ms))}
        height={frame.pressureBottom - frame.pressureTop}
      />
    ));
}

interface FreezingProps extends CurveParts {
  readonly pressure_Pa: number;
  readonly line: readonly (readonly [number, number])[];
}

/** Least distance in which a name can be read beside the pressure line. */
const CALM_PX = 7;

/** Dash-dot at the pressure at which the evaporator's fluid would freeze, named above, below, or beside the head. */
function FreezingLine({ pressure_Pa, line, ...parts }: FreezingProps) {
  const { frame, scales, units } = parts;
  const y = scales.yPressure(gaugeIn(pressure_Pa, units));
  const text = words.curve.freezing(gaugeText(pressure_Pa, units));
  const room = { left: frame.left, right: frame.left + frame.width, tears: tearsOf(parts) };
  const baselines = [y - 4, y + 12];
  const found = baselines
    .map((baseline) => ({ baseline, place: calmPlace(line, baseline - 4, textWidth(text), room) }))
    .find(({ place }) => place !== null && place.distance >= CALM_PX);
  return (
    <g>
      <path className="freeze-line" d={`M${frame.left} ${y}H${frame.left + frame.width}`} />
      <text
        className={found ? 'freeze middle' : 'freeze'}
        x={found?.place?.x ?? HEAD_PX}
        y={found?.baseline ?? frame.pressureTop - 8}
      >
        {text}
      </text>
    </g>
  );
}

/** Levels reached, written where and when. */
function LevelNotes({ placed, frame, scales }: CurveParts) {
  return placed.marks
    .filter(({ kind }) => kind === 'level reached')
    .map(({ at_ms, text }) => {
      const x = Math.max(frame.left + textWidth(text) + 4, scales.x(at_ms));
      return (
        <text key={at_ms} className="soft end" x={x - 4} y={frame.pressureTop + 11}>
          {text}
        </text>
      );
    });
}

/** The one clock of both panels. */
export function CurveClock({ frame, scales, timeZone }: CurveParts) {
  const y = frame.pressureBottom;
  const edges = scales.clock.spans.flatMap(({ x0, x1 }) => [x0, x1]);
  const times = clockTimes(scales.clock, timeZone);
  const rows = 1 + Math.max(0, ...times.map(({ row }) => row));
  return (
    <g>
      <path className="ink-line" d={`M${frame.left} ${y}H${frame.left + frame.width}`} />
      {[...new Set(edges)].map((x) => (
        <path key={x} className="ink-line" d={`M${frame.left + x} ${y}v4`} />
      ))}
      {times.map(({ x, text, row }) => (
        <text key={`${x} ${text}`} className="soft middle" x={frame.left + x} y={y + 15 + row * 12}>
          {text}
        </text>
      ))}
      {clockDays(scales.clock, timeZone).map(({ x, text }) => (
        <text
          key={text}
          className={x === 0 ? 'head' : 'head middle'}
          x={x === 0 ? 0 : frame.left + x}
          y={y + 18 + rows * 12}
        >
          {text}
        </text>
      ))}
    </g>
  );
}
