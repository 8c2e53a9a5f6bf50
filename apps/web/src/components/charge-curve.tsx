import type { ChargeCurve as Curve, Estimate } from '@brimline/estimating';
import type { BookedPhase } from '@brimline/planning';
import { useMemo } from 'react';
import { curveFrame, curveScales, outerWidth } from '../drawing/curve-layout.ts';
import { foldSpans } from '../drawing/folded-clock.ts';
import { jobPounds } from '../drawing/job-pounds.ts';
import { type PlacedCurve, placeCurve } from '../drawing/placed-curve.ts';
import { type ClockFace, faceDayTimeText } from '../format/clock.ts';
import { gaugeIn, massText, type UnitSystem } from '../format/measures.ts';
import { words } from '../words.ts';
import { CurveClock, CurveRibbon, PressurePanel } from './charge-curve-clock.tsx';
import { StackPanel } from './charge-curve-stack.tsx';
import { ChargeCurveTable } from './charge-curve-table.tsx';
import { Legend, Tear } from './marks.tsx';
import { useUnits } from './settings.tsx';
import { useWidth } from './use-width.ts';
import { ScrollBox } from './scroll-box.tsx';

interface Props {
  readonly estimate: Pick<Estimate, 'curve' | 'refrigerant'>;
  readonly phases: readonly BookedPhase[];
  readonly timeZone: ClockFace;
}

const NARROW_PX = 560;

/** The charge curve: pounds in the chiller, in transit and in cylinders, and the pressure below, on one folded clock. */
export function ChargeCurve({ estimate, phases, timeZone }: Props) {
  const units = useUnits();
  const [box, width] = useWidth<HTMLDivElement>();
  const curve = useMemo(() => jobPounds(estimate.curve), [estimate]);
  const placed = useMemo(() => placeCurve(curve, phases), [curve, phases]);
  if (placed.points.length === 0) return <p>{words.curve.none}</p>;
  return (
    <figure>
      <ScrollBox label={words.curve.scroller} box={box}>
        {width > 0 && (
          <Drawing
            curve={curve}
            placed={placed}
            timeZone={timeZone}
            units={units}
            width={width}
            spoken={spokenCurve(curve, estimate.refrigerant, placed, timeZone, units)}
          />
        )}
      </ScrollBox>
      <Legend
        items={[
          'attended',
          'watched',
          'unattended',
          'inChiller',
          'inTransit',
          'inCylinders',
          'swap',
          'folded',
        ]}
      />
      <ChargeCurveTable curve={curve} placed={placed} timeZone={timeZone} />
    </figure>
  );
}

interface DrawingProps {
  readonly curve: Curve;
  readonly placed: PlacedCurve;
  readonly timeZone: ClockFace;
  readonly units: UnitSystem;
  readonly width: number;
  readonly spoken: string;
}

function Drawing({ curve, placed, timeZone, units, width, spoken }: DrawingProps) {
  const isNarrow = width < NARROW_PX;
  const frame = curveFrame(width, foldSpans(placed.spans), isNarrow);
  const scales = curveScales(curve, placed, frame, (pressure_Pa) => gaugeIn(pressure_Pa, units));
  const shared = { curve, placed, frame, scales, timeZone, units, isNarrow };
  const tears = scales.clock.spans.filter(({ folded }) => folded);
  return (
    <svg
      className="drawing"
      width={outerWidth(frame)}
      height={frame.height}
      viewBox={`0 0 ${outerWidth(frame)} ${frame.height}`}
      role="img"
      aria-label={spoken}
    >
      <StackPanel {...shared} />
      <PressurePanel {...shared} />
      {tears.map(({ from_ms, x0, x1 }) => (
        <g key={from_ms}>
          <Tear x={frame.left + (x0 + x1) / 2} top={frame.stackTop - 4} bottom={frame.stackBottom} />
          <Tear x={frame.left + (x0 + x1) / 2} top={frame.pressureTop} bottom={frame.pressureBottom} />
        </g>
      ))}
      <CurveRibbon {...shared} />
      <CurveClock {...shared} />
    </svg>
  );
}

function spokenCurve(
  curve: Curve,
  refrigerant: string,
  { points }: PlacedCurve,
  timeZone: ClockFace,
  units: UnitSystem,
): string {
  const first = points[0]!;
  const last = points.at(-1)!;
  const held = points.map(({ cylinder_kg }) => cylinder_kg.reduce((sum, mass_kg) => sum + mass_kg, 0));
  return words.curve.spoken({
    refrigerant,
    before: massText(first.chiller_kg, units),
    most: massText(Math.max(...held), units),
    cylinders: curve.cylinders.length,
    after: massText(last.chiller_kg, units),
    from: faceDayTimeText(first.at_ms, timeZone),
    to: faceDayTimeText(last.at_ms, timeZone),
  });
}
