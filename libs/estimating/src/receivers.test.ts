import type { Cylinder } from '@brimline/firm';
import { refrigerant } from '@brimline/refrigerants';
import { describe, expect, it } from 'vitest';
import { planReceivers, type ReceiverRequest } from './receivers.ts';

function cylinder(id: string, changes: Partial<Cylinder> = {}): Cylinder {
  return {
    id,
    baseId: 'yard',
    waterCapacity_kg: 56.7,
    tare_kg: 25,
    ports: 2,
    servicePressure_Pa_gauge: 2.8e6,
    refillable: true,
    requalificationDue: '2028-01-01',
    owner: 'the firm',
    refrigerant: null,
    contents_kg: 0,
    contentsKind: 'empty',
    ...changes,
  };
}

const plan = (mass_kg: number, cylinders: readonly Cylinder[], changes: Partial<ReceiverRequest> = {}) =>
  planReceivers({
    refrigerant: refrigerant('R-134a'),
    mass_kg,
    cylinders,
    needsTwoPorts: true,
    neededFrom: '2026-11-01',
    neededUntil: '2026-11-20',
    spare: 1,
    ...changes,
  });

const small = ['A', 'B', 'C'].map((id) => cylinder(id));
const large = cylinder('L', { waterCapacity_kg: 453.6, tare_kg: 172 });

describe('cylinders for what is recovered', () => {
  it('come from one class under its limit, a spare beside', () => {
    const found = plan(100, [...small, large]);
    if (!found.ok) throw new Error(found.problems[0]!.message);
    const [chosen, other] = found.value;
    // 0.8 x 56.7 kg x 1.2065 (R-134a at 77 degF, reference equation) = 54.7 kg: two are needed.
    expect(chosen).toMatchObject({ needed: 2, spare: 1, swaps: 1, chosenIds: ['A', 'B', 'C'] });
    expect(chosen!.fills.map(({ planned_kg }) => planned_kg).reduce((a, b) => a + b)).toBeCloseTo(100, 9);
    expect(other).toMatchObject({ needed: 1, spare: 0, chosenIds: ['L'] });
    const wished = plan(100, [...small, large], { wished_kg: 453.6 });
    expect(wished.ok && wished.value[0]!.chosenIds).toEqual(['L']);
  });

  it('are of mixed classes where no class is enough, the largest first', () => {
    const found = plan(540, [...small, large]);
    if (!found.ok) throw new Error(found.problems[0]!.message);
    expect(found.value).toHaveLength(1);
    expect(found.value[0]!.fills.map(({ id }) => id)).toEqual(['L', 'A', 'B']);
    for (const { planned_kg, limit_kg } of found.value[0]!.fills)
      expect(planned_kg).toBeLessThanOrEqual(limit_kg);
  });

  it('are passed over for a reason, and what would do is said', () => {
    const stock = [
      cylinder('late', { availableFrom: '2026-11-05' }),
      cylinder('due', { requalificationDue: '2026-11-19' }),
      cylinder('other', { refrigerant: 'R-22' }),
      cylinder('full', { contents_kg: 3, refrigerant: 'R-134a', contentsKind: 'recovered' }),
      cylinder('weak', { servicePressure_Pa_gauge: 3e5 }),
      cylinder('single', { refillable: false }),
      cylinder('one', { ports: 1 }),
    ];
    const found = plan(100, stock);
    if (found.ok) throw new Error('these can not take it');
    const { message } = found.problems[0]!;
    for (const why of [
      'delivered too late',
      'requalification due',
      'last held R-22',
      'not empty',
      'service pressure too low',
      'single-trip',
      'one port',
    ])
      expect(message).toContain(`1 ${why}`);
    expect(message).toMatch(/what would do: delivered in time, 2 of 125 lb .* or 1 of 1,000 lb/);
    const inTime = plan(50, [cylinder('late', { availableFrom: '2026-11-01' })]);
    expect(inTime.ok && inTime.value[0]!.delivered).toEqual([{ id: 'late', on: '2026-11-01' }]);
  });
});
