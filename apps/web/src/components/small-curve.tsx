import type { Estimate } from '@brimline/estimating';
import { scaleLinear } from 'd3-scale';
import { foldedClock, foldSpans, leastWidth } from '../drawing/folded-clock.ts';
import { jobPounds } from '../drawing/job-pounds.ts';
import { placeCurve } from '../drawing/placed-curve.ts';
import { brimOf, linePath, stackLayers, topOfScale } from '../drawing/stack.ts';
import { unbookedPhases } from '../drawing/unbooked-phases.ts';

const FOLD_PX = 9;
const STACK_PX = 62;
const GAP_PX = 6;
const PRESSURE_PX = 24;

/** Scales that a row of small curves shares, so that a shorter job simply ends sooner. */
export interface SmallScale {
  readonly hour_px: number;
  readonly top_kg: number;
  readonly pressure_Pa: readonly [low: number, high: number];
}

function placed(estimate: Estimate) {
  const curve = jobPounds(estimate.curve);
  return { curve, ...placeCurve(curve, unbookedPhases(estimate)) };
}

/** The one scale at which the longest of the curves fits the width. */
export function smallScale(estimates: readonly Estimate[], width_px: number): SmallScale {
  const all = estimates.map(placed);
  const hour_px = Math.min(
    ...all.map(({ spans }) => {
      const clock = foldSpans(spans);
      const folds_px = leastWidth(clock, FOLD_PX, 0);
      const hours = leastWidth(clock, 0, 1);
      return (width_px - folds_px) / Math.max(hours, 1 / 60);
    }),
  );
  const pressures = all.flatMap(({ points }) => points.map(({ pressure_Pa }) => pressure_Pa));
  return {
    hour_px: Math.max(0.5, hour_px),
    top_kg: Math.max(...all.map(({ curve, points }) => topOfScale(curve.nameplate_kg, points))),
    pressure_Pa: [Math.min(...pressures), Math.max(...pressures)],
  };
}

interface Props {
  readonly estimate: Estimate;
  readonly scale: SmallScale;
  readonly spoken: string;
}

/** The charge curve without words: stack, brim, pressure and freezing line. */
export function SmallCurve({ estimate, scale, spoken }: Props) {
  const { curve, spans, points, marks } = placed(estimate);
  const folds = foldSpans(spans);
  const width = leastWidth(folds, FOLD_PX, scale.hour_px);
  const clock = foldedClock(folds, width, FOLD_PX);
  const y = (mass_kg: number): number => STACK_PX * (1 - mass_kg / scale.top_kg);
  const bottom = STACK_PX + GAP_PX + PRESSURE_PX;
  const pressure = scaleLinear()
    .domain(scale.pressure_Pa)
    .range([bottom, STACK_PX + GAP_PX]);
  const swaps = marks.filter(({ kind }) => kind === 'cylinder swap');
  return (
    <svg
      className="drawing"
      width={width}
      height={bottom + 2}
      viewBox={`0 0 ${width} ${bottom + 2}`}
      role="img"
      aria-label={spoken}
    >
      {stackLayers(points, clock.x, y).map(({ what, cylinder, area }) => (
        <path key={`${what} ${cylinder}`} className={what} d={area} />
      ))}
      <path
        className="heavy"
        d={linePath(points.map((point) => [clock.x(point.at_ms), y(brimOf(point))] as const))}
      />
      {swaps.map(({ at_ms }) => (
        <path key={at_ms} className="ink-line" d={`M${clock.x(at_ms)} 0v4`} />
      ))}
      {clock.spans
        .filter(({ folded }) => folded)
        .map(({ from_ms, x0, x1 }) => (
          <path key={from_ms} className="rule" d={`M${(x0 + x1) / 2} 4V${bottom}`} />
        ))}
      <path
        className="pressure"
        d={linePath(points.map(({ at_ms, pressure_Pa }) => [clock.x(at_ms), pressure(pressure_Pa)] as const))}
      />
      {curve.freezing && (
        <path className="freeze-line" d={`M0 ${pressure(curve.freezing.pressure_Pa)}H${width}`} />
      )}
    </svg>
  );
}
