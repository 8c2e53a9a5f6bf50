import type { WeekPlan } from '@brimline/planning';
import { describe, expect, it } from 'vitest';
import { cylinderPools, freeSpanAfter, rowOf, stays } from './week-rows.ts';

const at = (text: string): string => `2026-11-02T${text}:00Z`;
const ms = (text: string): number => Date.parse(at(text));

const phase = (id: string, from: string, to: string) => ({
  id,
  title: id,
  manner: 'attended',
  start: at(from),
  end: at(to),
  pieces: [{ start: at(from), end: at(to) }],
  people: ['mo'],
  gear: ['RM-1'],
  cylinders: [],
});
const job = (
  id: string,
  phases: readonly unknown[],
  cylinders: readonly string[],
  held: [string, string],
) => ({
  id,
  phases,
  cylinders,
  cylindersHeld: { start: at(held[0]), end: at(held[1]) },
});

/** Only the members that rows are made from; invented. */
const PLAN = {
  jobs: [
    job(
      '1',
      [phase('a', '08:00', '09:00'), phase('b', '09:00', '10:00'), phase('c', '14:00', '15:00')],
      ['C1', 'C2'],
      ['08:00', '15:00'],
    ),
    job('2', [phase('d', '16:00', '17:00')], ['C2', 'C3'], ['15:00', '17:00']),
  ],
  cylinders: [
    { id: 'C1', waterCapacity_kg: 55.7, ports: 2 },
    { id: 'C2', waterCapacity_kg: 55.7, ports: 2 },
    { id: 'C3', waterCapacity_kg: 454, ports: 2 },
  ],
  passages: [
    { unitId: 'mo', kind: 'travel', start: at('10:00'), end: at('10:30'), fromPlace: 'x', toPlace: 'y' },
  ],
} as unknown as WeekPlan;

describe('rows of the week', () => {
  it('join what follows without a pause and keep jobs and pauses apart', () => {
    const { blocks } = rowOf(PLAN, 'people', 'mo');
    expect(blocks.map(({ jobId, from_ms, to_ms, pieces }) => [jobId, from_ms, to_ms, pieces.length])).toEqual(
      [
        ['1', ms('08:00'), ms('10:00'), 2],
        ['1', ms('14:00'), ms('15:00'), 1],
        ['2', ms('16:00'), ms('17:00'), 1],
      ],
    );
  });

  it('say that a unit stays on site only where it does not travel', () => {
    expect(stays(rowOf(PLAN, 'people', 'mo'))).toEqual([]);
    expect(stays(rowOf(PLAN, 'gear', 'RM-1'))).toEqual([{ from_ms: ms('10:00'), to_ms: ms('14:00') }]);
  });

  it('know the room behind a booking, after the way home', () => {
    const row = rowOf(PLAN, 'people', 'mo');
    expect(freeSpanAfter(row, row.blocks[0]!)).toEqual({ from_ms: ms('10:30'), to_ms: ms('14:00') });
    expect(freeSpanAfter(row, row.blocks[2]!)).toEqual({ from_ms: ms('17:00'), to_ms: null });
  });

  it('count cylinders by their size: given back and taken at one instant is one step', () => {
    const [small, large] = cylinderPools(PLAN);
    expect(small).toMatchObject({ limit: 2, most: 2 });
    expect(small!.steps).toEqual([
      { at_ms: ms('08:00'), held: 2 },
      { at_ms: ms('15:00'), held: 1 },
      { at_ms: ms('17:00'), held: 0 },
    ]);
    expect(large).toMatchObject({ limit: 1, most: 1 });
  });
});
