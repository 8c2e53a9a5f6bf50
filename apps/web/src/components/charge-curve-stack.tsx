import { formatNumber } from '@brimline/quantities';
import { leaderTexts } from '../drawing/curve-layout.ts';
import { swapLabels, textWidth } from '../drawing/labels.ts';
import type { PlacedMark } from '../drawing/placed-curve.ts';
import { layerLabels } from '../drawing/layer-labels.ts';
import { fromStock_kg, stockCylinders } from '../drawing/job-pounds.ts';
import { brimOf, linePath, stackLayers } from '../drawing/stack.ts';
import { massIn, massText, massUnit, type UnitSystem } from '../format/measures.ts';
import { words } from '../words.ts';
import { type CurveParts, tearsOf } from './charge-curve-parts.ts';

/** Top panel: chiller, in transit and cylinders stacked under the brim. */
export function StackPanel(parts: CurveParts) {
  const { curve, placed, frame, scales } = parts;
  const layers = stackLayers(placed.points, scales.x, scales.yMass);
  const brim = placed.points.map((point) => [scales.x(point.at_ms), scales.yMass(brimOf(point))] as const);
  return (
    <g>
      <text className="head" x={0} y={11}>
        {words.curve.mass(massUnit(parts.units))}
      </text>
      <MassGrid {...parts} />
      {layers.map(({ what, cylinder, area, edge }) => (
        <g key={`${what} ${cylinder}`}>
          <path className={what} d={area} />
          {what === 'cylinder' && <path className="cylinder-edge" d={edge} />}
        </g>
      ))}
      <path className="heavy" d={linePath(brim)} />
      <path className="edge" d={`M${frame.left} ${frame.stackBottom}H${frame.left + frame.width}`} />
      <LayerNames {...parts} />
      <BrimMarks {...parts} />
      {curve.cylinders.length > 0 && <Swaps {...parts} />}
    </g>
  );
}

function MassGrid({ curve, frame, scales, units }: CurveParts) {
  return [0, 0.25, 0.5, 0.75, 1].map((share) => {
    const y = scales.yMass(share * curve.nameplate_kg);
    return (
      <g key={share}>
        <path className="rule" d={`M${frame.left} ${y}H${frame.left + frame.width}`} />
        <text className="soft end" x={frame.left - 6} y={y + 4}>
          {formatNumber(massIn(share * curve.nameplate_kg, units), 0)}
        </text>
      </g>
    );
  });
}

function LayerNames(parts: CurveParts) {
  const { curve, placed, scales, units, frame } = parts;
  const stock = stockCylinders(curve);
  const axes = { x: scales.x, y: scales.yMass, tears: tearsOf(parts) };
  const labels = layerLabels(placed.points, axes, {
    chiller: (mass_kg) =>
      mass_kg >= curve.nameplate_kg * 0.99
        ? [words.curve.nameplate(massText(mass_kg, units)), words.curve.inChiller, words.curve.chiller]
        : [words.curve.inChiller, words.curve.chiller],
    cylinder: (index, mass_kg) => [
      stock.includes(index)
        ? words.curve.stockCylinder(index + 1, massText(mass_kg, units))
        : words.curve.cylinder(index + 1, massText(mass_kg, units)),
      String(index + 1),
    ],
    cylinders: words.curve.cylinders,
  });
  return labels.map(({ x, y, text, on }) => {
    const half = textWidth(text) / 2 + 4;
    const middle = Math.max(frame.left + half, Math.min(x, frame.left + frame.width - half));
    return (
      <g key={`${text} ${x}`}>
        {on === 'cylinder' && (
          <rect className="halo" x={middle - half} y={y - 8} width={half * 2} height={15} />
        )}
        <text className={on === 'chiller' ? 'on-chiller middle' : 'middle'} x={middle} y={y + 4}>
          {text}
        </text>
      </g>
    );
  });
}

/** What the brim loses and gains, named where it happens. */
function BrimMarks({ curve, placed, frame, scales, units }: CurveParts) {
  const notes = placed.marks
    .filter(({ kind, mass_kg }) => (kind === 'not recovered' || kind === 'from stock') && mass_kg !== 0)
    .map((mark) => ({ x: scales.x(mark.at_ms), text: noteText(mark, units) }));
  const stock_kg = fromStock_kg(curve);
  if (stock_kg > 0) notes.push({ x: frame.left + 1, text: words.curve.fromStock(massText(stock_kg, units)) });
  return leaderTexts(notes, frame.left, frame.left + frame.width).map(({ x, text, textX, row }) => (
    <g key={`${text} ${x}`}>
      <path
        className="ink-line"
        d={`M${x} ${row * 13 + 16}V${scales.yMass(curve.nameplate_kg) - 4}`}
        strokeWidth={0.75}
      />
      <text className="soft" x={textX} y={row * 13 + 24}>
        {text}
      </text>
    </g>
  ));
}

function noteText({ kind, text, mass_kg }: PlacedMark, units: UnitSystem): string {
  if (mass_kg === null) return text;
  const mass = massText(mass_kg, units);
  return kind === 'from stock' ? words.curve.fromStock(mass) : words.curve.notRecovered(mass);
}

function Swaps({ curve, placed, frame, scales }: CurveParts) {
  const numbers = new Map(curve.cylinders.map(({ id }, index) => [id, index + 1]));
  const swaps = placed.marks
    .filter(({ kind }) => kind === 'cylinder swap')
    .map(({ at_ms, text }) => ({ x: scales.x(at_ms), number: numbers.get(text) ?? 0 }));
  const y = frame.stackTop - 2;
  return swapLabels(swaps).map(({ x, text, at }) => (
    <g key={x}>
      <text className="head middle" x={x} y={y - 8}>
        {text}
      </text>
      {at.map((mark) => (
        <path key={mark} className="ink" d={`M${mark - 4} ${y - 5}h8l-4 6z`} />
      ))}
    </g>
  ));
}
