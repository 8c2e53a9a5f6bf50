import type { ChargeCurve } from '@brimline/estimating';
import type { PlacedCurve, PlacedPoint } from '../drawing/placed-curve.ts';
import { brimOf } from '../drawing/stack.ts';
import { type ClockFace, faceDayTimeText } from '../format/clock.ts';
import { gaugeText, massText } from '../format/measures.ts';
import { words } from '../words.ts';
import { useUnits } from './settings.tsx';
import { ScrollBox } from './scroll-box.tsx';

interface Props {
  readonly curve: ChargeCurve;
  readonly placed: PlacedCurve;
  readonly timeZone: ClockFace;
}

/** The curve's figures at the end of each step, for eyes that don't see the drawing and for checking. */
export function ChargeCurveTable({ placed, timeZone }: Props) {
  const units = useUnits();
  const { head } = words.curve;
  return (
    <details>
      <summary>{words.curve.table}</summary>
      <ScrollBox label={words.curve.table}>
        <table>
          <thead>
            <tr>
              <th scope="col">{head.step}</th>
              <th scope="col">{head.time}</th>
              {[head.chiller, head.transit, head.cylinders, head.sum, head.pressure].map((text) => (
                <th key={text} scope="col" className="number">
                  {text}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rowsOf(placed).map(({ title, point }) => (
              <tr key={`${title} ${point.at_ms}`}>
                <th scope="row">{title}</th>
                <td>{faceDayTimeText(point.at_ms, timeZone)}</td>
                <td className="number">{massText(point.chiller_kg, units, 1)}</td>
                <td className="number">{massText(point.transit_kg, units, 1)}</td>
                <td className="number">{massText(sum(point.cylinder_kg), units, 1)}</td>
                <td className="number">{massText(brimOf(point), units, 1)}</td>
                <td className="number">{gaugeText(point.pressure_Pa, units)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
      <p className="small soft">{words.curve.gauge}</p>
    </details>
  );
}

function rowsOf({ spans, points }: PlacedCurve): { readonly title: string; readonly point: PlacedPoint }[] {
  return spans.flatMap(({ phase, to_ms }) => {
    const point = phase && points.find(({ at_ms }) => at_ms >= to_ms);
    return phase && point ? [{ title: phase.title, point }] : [];
  });
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
