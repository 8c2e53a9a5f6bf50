import type { ChargeCurve } from '@brimline/estimating';
import type { CurveFrame, CurveScales } from '../drawing/curve-layout.ts';
import type { PlacedCurve } from '../drawing/placed-curve.ts';
import type { ClockFace } from '../format/clock.ts';
import type { UnitSystem } from '../format/measures.ts';

/** What every part of the charge curve's drawing is given. */
export interface CurveParts {
  readonly curve: ChargeCurve;
  readonly placed: PlacedCurve;
  readonly frame: CurveFrame;
  readonly scales: CurveScales;
  readonly timeZone: ClockFace;
  readonly units: UnitSystem;
  readonly isNarrow: boolean;
}

/** Where the tears stand in the drawing. */
export function tearsOf({ frame, scales }: CurveParts): number[] {
  return scales.clock.spans.filter(({ folded }) => folded).map(({ x0, x1 }) => frame.left + (x0 + x1) / 2);
}
