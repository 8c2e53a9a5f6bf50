import type { ChargeCurve, Manner, PhaseKind } from '@brimline/estimating';
import type { BookedPhase } from '@brimline/planning';
import { describe, expect, it } from 'vitest';
import { fromStock_kg, jobPounds } from './job-pounds.ts';
import { placeCurve } from './placed-curve.ts';
import { brimOf, stackLayers, stackLevels, topOfScale } from './stack.ts';

const at = (text: string): number => Date.parse(`2026-11-${text}:00Z`);

function phase(id: string, kind: PhaseKind, manner: Manner, ...pieces: [string, string][]): BookedPhase {
  const iso = pieces.map(([start, end]) => ({ start: `2026-11-${start}:00Z`, end: `2026-11-${end}:00Z` }));
  return {
    id,
    kind,
    title: kind,
    manner,
    start: iso[0]!.start,
    end: iso.at(-1)!.end,
    pieces: iso,
    attended_h: 0,
    people: [],
    gear: [],
    cylinders: [],
  };
}

const point = (time_s: number, chiller_kg: number, one_kg: number, stock_kg: number, transit_kg = 0) => ({
  time_s,
  chiller_kg,
  transit_kg,
  cylinder_kg: [one_kg, stock_kg],
  pressure_Pa: 500_000,
});

/** Two hours out, four of open work in two pieces, one hour in: invented, small enough to work by hand. */
const CURVE: ChargeCurve = {
  nameplate_kg: 100,
  cylinders: [
    { id: 'A', limit_kg: 120 },
    { id: 'S', limit_kg: 60 },
  ],
  points: [
    point(0, 100, 0, 50),
    point(3600, 49, 50, 50, 1),
    point(7200, 0, 98, 50),
    point(21_600, 0, 98, 50),
    point(25_200, 100, 0, 48),
  ],
  steps: [
    { phaseId: 'out', title: 'out', manner: 'attended', from_s: 0, to_s: 7200 },
    { phaseId: 'open', title: 'open', manner: 'unattended', from_s: 7200, to_s: 21_600 },
    { phaseId: 'in', title: 'in', manner: 'attended', from_s: 21_600, to_s: 25_200 },
  ],
  marks: [
    { time_s: 7200, kind: 'not recovered', text: '', mass_kg: 2 },
    { time_s: 21_600, kind: 'from stock', text: '', mass_kg: 2 },
    { time_s: 23_400, kind: 'cylinder swap', text: 'S', mass_kg: null },
  ],
  freezing: null,
};

const PHASES = [
  phase('out', 'liquid recovery', 'attended', ['02T08:00', '02T10:00']),
  phase('open', 'open work', 'unattended', ['02T14:00', '02T17:00'], ['03T07:00', '03T08:00']),
  phase('in', 'liquid recharge', 'attended', ['03T09:00', '03T10:00']),
];

describe('the curve on the calendar', () => {
  const placed = placeCurve(CURVE, PHASES);

  it('puts pauses and nights between the worked pieces, and knows where pounds move', () => {
    expect(
      placed.spans.map(({ from_ms, to_ms, phase: one, moves }) => [from_ms, to_ms, one?.id ?? null, moves]),
    ).toEqual([
      [at('02T08:00'), at('02T10:00'), 'out', true],
      [at('02T10:00'), at('02T14:00'), null, false],
      [at('02T14:00'), at('02T17:00'), 'open', false],
      [at('02T17:00'), at('03T07:00'), null, false],
      [at('03T07:00'), at('03T08:00'), 'open', false],
      [at('03T08:00'), at('03T09:00'), null, false],
      [at('03T09:00'), at('03T10:00'), 'in', true],
    ]);
  });

  it('keeps the points in order of time, each with the pounds of its moment', () => {
    const times = placed.points.map(({ at_ms }) => at_ms);
    expect(times).toEqual(times.toSorted((a, b) => a - b));
    expect(placed.points.find(({ at_ms }) => at_ms === at('02T09:00'))).toMatchObject({ chiller_kg: 49 });
    expect(placed.points.at(-1)).toMatchObject({ at_ms: at('03T10:00'), chiller_kg: 100 });
  });

  it('leaves a loss at the end of what went before and stock at the start of what comes after', () => {
    expect(placed.marks.map(({ kind, at_ms }) => [kind, at_ms])).toEqual([
      ['not recovered', at('02T10:00')],
      ['from stock', at('03T09:00')],
      ['cylinder swap', at('03T09:30')],
    ]);
  });
});

describe('the stack', () => {
  it('adds up to the brim: chiller, in transit, last cylinder up to the first', () => {
    expect(stackLevels(CURVE.points[1]!)).toEqual([49, 50, 100, 150]);
    for (const { chiller_kg, transit_kg, cylinder_kg } of CURVE.points) {
      const sum = chiller_kg + transit_kg + cylinder_kg.reduce((total, mass_kg) => total + mass_kg, 0);
      expect(brimOf({ chiller_kg, transit_kg, cylinder_kg })).toBe(sum);
    }
  });

  it('counts of a stock cylinder only what it gives, so that brim and account agree', () => {
    const curve = jobPounds(CURVE);
    expect(fromStock_kg(curve)).toBe(2);
    expect(curve.points.map(brimOf)).toEqual([102, 102, 100, 100, 100]);
    const placed = placeCurve(curve, PHASES);
    expect(topOfScale(curve.nameplate_kg, placed.points)).toBeCloseTo(1.09 * 102, 10);
  });

  it('draws a layer each, from the floor up, without a gap between neighbours', () => {
    const { points } = placeCurve(jobPounds(CURVE), PHASES);
    const layers = stackLayers(
      points,
      (at_ms) => (at_ms - points[0]!.at_ms) / 1000,
      (mass_kg) => -mass_kg,
    );
    expect(layers.map(({ what, cylinder }) => [what, cylinder])).toEqual([
      ['chiller', null],
      ['transit', null],
      ['cylinder', 1],
      ['cylinder', 0],
    ]);
    for (const [index, { edge }] of layers.slice(0, -1).entries()) {
      const backwards = edge.slice(1).split('L').toReversed().join('L');
      expect(layers[index + 1]!.area).toContain(`L${backwards}Z`);
    }
  });
});
