import type { ChargeCurve } from '@brimline/estimating';
import { scaleLinear } from 'd3-scale';
import { type ClockFace, dayText, faceTimeText, timeText } from '../format/clock.ts';
import { type ClockSpan, type FoldedClock, foldedClock, foldSpans, leastWidth } from './folded-clock.ts';
import { type Label, type LabelInRow, labelsInRows, textWidth } from './labels.ts';
import type { PlacedCurve, PlacedSpan } from './placed-curve.ts';
import { topOfScale } from './stack.ts';

export interface CurveFrame {
  readonly left: number;
  readonly width: number;
  readonly fold: number;
  readonly stackTop: number;
  readonly stackBottom: number;
  readonly ribbon: number;
  readonly pressureTop: number;
  readonly pressureBottom: number;
  readonly height: number;
}

const LEFT = 44;
const RIGHT = 14;
const FOLD_PX = 40;
const NARROW_FOLD_PX = 36;
const LEAST_HOUR_PX = 24;

/** Where the two panels and the ribbon stand, for a width; a phone's drawing is lower and names no steps. */
export function curveFrame(outer_px: number, spans: readonly ClockSpan[], isNarrow: boolean): CurveFrame {
  const fold = isNarrow ? NARROW_FOLD_PX : FOLD_PX;
  const least = leastWidth(spans, fold, LEAST_HOUR_PX);
  const width = Math.max(outer_px - LEFT - RIGHT, least);
  const stackTop = 58;
  const stackBottom = stackTop + (isNarrow ? 156 : 190);
  const ribbon = stackBottom + 6;
  const pressureTop = ribbon + 66;
  const pressureBottom = pressureTop + (isNarrow ? 84 : 92);
  return {
    left: LEFT,
    width,
    fold,
    stackTop,
    stackBottom,
    ribbon,
    pressureTop,
    pressureBottom,
    height: pressureBottom + 52,
  };
}

/** Full outer width of a frame, axis and margin included. */
export function outerWidth(frame: CurveFrame): number {
  return LEFT + frame.width + RIGHT;
}

export interface CurveScales {
  readonly clock: FoldedClock;
  readonly x: (at_ms: number) => number;
  readonly yMass: (mass_kg: number) => number;
  /** By gauge pressure in the unit shown. */
  readonly yPressure: (gauge: number) => number;
  readonly pressureTicks: readonly number[];
}

/** Scales of both panels: pounds from nothing to a little over the charge; pressure with room for zero and freezing. */
export function curveScales(
  curve: ChargeCurve,
  placed: PlacedCurve,
  frame: CurveFrame,
  gauge: (pressure_Pa: number) => number,
): CurveScales {
  const clock = foldedClock(foldSpans(placed.spans), frame.width, frame.fold);
  const top_kg = topOfScale(curve.nameplate_kg, placed.points);
  const values = placed.points.map(({ pressure_Pa }) => gauge(pressure_Pa));
  if (curve.freezing) values.push(gauge(curve.freezing.pressure_Pa));
  const pressure = scaleLinear()
    .domain([
      Math.min(0, ...values) * 1.05,
      scaleLinear()
        .domain([0, Math.max(1, ...values)])
        .nice(4)
        .domain()[1]!,
    ])
    .range([frame.pressureBottom, frame.pressureTop]);
  return {
    clock,
    x: (at_ms) => frame.left + clock.x(at_ms),
    yMass: (mass_kg) => frame.stackBottom - (mass_kg / top_kg) * (frame.stackBottom - frame.stackTop),
    yPressure: (value) => pressure(value),
    pressureTicks: pressure.ticks(4),
  };
}

/** The clock's times in two rows, the ends and the sides of folds first; those that fit nowhere keep only their tick. */
export function clockTimes(clock: FoldedClock, timeZone: ClockFace): LabelInRow[] {
  const edges = new Set(clock.spans.flatMap(({ from_ms, to_ms }) => [from_ms, to_ms]));
  const first = clock.spans[0]?.from_ms;
  const last = clock.spans.at(-1)?.to_ms;
  if (first === undefined || last === undefined) return [];
  const labelAt = (at_ms: number): Label => ({ x: clock.x(at_ms), text: faceTimeText(at_ms, timeZone) });
  const sides = labelsInRows([first, last, ...edges].map(labelAt), 2, 4);
  const hours = wholeHours(clock, timeZone).map(labelAt);
  return labelsInRows(hours, 1, 10, sides);
}

const HOUR_MS = 3_600_000;

/** Whole local hours inside the even spans, so far apart that they can be read. */
function wholeHours(clock: FoldedClock, timeZone: ClockFace): number[] {
  return clock.spans
    .filter(({ folded }) => !folded)
    .flatMap(({ from_ms, to_ms, x0, x1 }) => {
      const perHour = ((x1 - x0) * HOUR_MS) / Math.max(1, to_ms - from_ms);
      const every = [1, 2, 3, 6, 12].find((hours) => hours * perHour >= 44) ?? 24;
      const hours: number[] = [];
      for (let at = Math.ceil(from_ms / HOUR_MS) * HOUR_MS; at < to_ms; at += HOUR_MS) {
        if (hourOf(at, timeZone) % every === 0) hours.push(at);
      }
      return hours;
    });
}

function hourOf(at_ms: number, timeZone: ClockFace): number {
  return timeZone === null ? at_ms / HOUR_MS : Number(timeText(at_ms, timeZone).slice(0, 2));
}

/** Days under the clock: the first, then each where the drawing reaches it; the working clock has none. */
export function clockDays(clock: FoldedClock, timeZone: ClockFace): LabelInRow[] {
  if (timeZone === null) return [];
  const edges = clock.spans.flatMap(({ from_ms, to_ms }) => [from_ms, to_ms]);
  const seen = new Set<string>();
  const labels: Label[] = [];
  for (const at_ms of edges) {
    const text = dayText(at_ms, timeZone);
    if (!seen.has(text)) labels.push({ x: clock.x(at_ms), text });
    seen.add(text);
  }
  return labelsInRows(labels, 1, 8);
}

const LONGEST_NIGHT_MS = 18 * HOUR_MS;

/** A pause over midnight of less than 18 hours is a night, any other a wait. */
export function isNight(
  { from_ms, to_ms }: Pick<PlacedSpan, 'from_ms' | 'to_ms'>,
  timeZone: ClockFace,
): boolean {
  if (timeZone === null) return false;
  return to_ms - from_ms < LONGEST_NIGHT_MS && dayText(from_ms, timeZone) !== dayText(to_ms, timeZone);
}

/** Texts above the brim, each with a leader, pushed apart and kept on the drawing. */
export function leaderTexts(
  notes: readonly Label[],
  left: number,
  right: number,
): (LabelInRow & { readonly textX: number })[] {
  const placed: (LabelInRow & { textX: number })[] = [];
  for (const note of notes.toSorted((a, b) => a.x - b.x)) {
    const width = textWidth(note.text);
    const textX = Math.max(left, Math.min(note.x + 4, right - width));
    const isFree = (row: number): boolean =>
      placed.every((other) => other.row !== row || other.textX + textWidth(other.text) + 8 < textX);
    placed.push({ ...note, textX, row: isFree(0) ? 0 : 1 });
  }
  return placed;
}
