import { planFirm, type WeekPlan } from '@brimline/planning';
import { beforeAll, describe, expect, it } from 'vitest';
import { sampleFirm } from '../support/sample-firm.ts';

let plan: WeekPlan;

beforeAll(() => {
  const outcome = planFirm(sampleFirm(), { seed: 1, schedules: 60 });
  if (outcome.kind !== 'planned') throw new Error('the sample week must be planned');
  plan = outcome.plan;
});

const overlaps = (a: { start: string; end: string }, b: { start: string; end: string }): boolean =>
  a.start < b.end && b.start < a.end;

/** Every span in which a person or unit is taken, read from the plan alone. */
function spansOf(id: string): { start: string; end: string; where: string }[] {
  return plan.jobs.flatMap((job) => [
    ...job.phases.flatMap((phase) => {
      if (phase.people.includes(id))
        return phase.pieces.map((piece) => ({ ...piece, where: `${job.id} ${phase.id}` }));
      return phase.gear.includes(id)
        ? [{ start: phase.start, end: phase.end, where: `${job.id} ${phase.id}` }]
        : [];
    }),
    ...(job.cylindersHeld && job.cylinders.includes(id) ? [{ ...job.cylindersHeld, where: job.id }] : []),
  ]);
}

describe('the sample week', () => {
  it('plans eleven jobs and refuses the impossible one with its reason', () => {
    expect(plan.jobs).toHaveLength(11);
    expect(plan.refused.map(({ id }) => id)).toEqual(['1110']);
    expect(plan.refused[0]!.reasons[0]!.message).toMatch(/flammable/);
  });

  it('promises nobody, no gear and no cylinder twice', () => {
    for (const { id } of [...plan.people, ...plan.gear, ...plan.cylinders]) {
      const spans = spansOf(id);
      for (const [index, span] of spans.entries()) {
        for (const other of spans.slice(index + 1))
          expect(overlaps(span, other), `${id}: ${span.where} and ${other.where}`).toBe(false);
      }
    }
  });

  it('keeps the hospital to its nights and the data hall to its outage', () => {
    const hospital = plan.jobs.find(({ id }) => id === '1107')!;
    for (const phase of hospital.phases.filter(({ people }) => people.length > 0)) {
      for (const { start, end } of phase.pieces) {
        const clock = (instant: string): string =>
          new Intl.DateTimeFormat('en-GB', {
            timeZone: 'America/Chicago',
            hour: '2-digit',
            minute: '2-digit',
            hour12: false,
          }).format(new Date(instant));
        expect(clock(start) >= '20:00' || clock(start) < '06:00', `${phase.id} starts ${clock(start)}`).toBe(
          true,
        );
        expect(clock(end) > '20:00' || clock(end) <= '06:00', `${phase.id} ends ${clock(end)}`).toBe(true);
      }
    }
    const hall = plan.jobs.find(({ id }) => id === '1108')!;
    const out = hall.phases.filter(
      ({ kind }) => kind !== 'arrive and lock out' && kind !== 'rig up' && kind !== 'rig down and records',
    );
    // 30 October 06:00 and 3 November 18:00 in America/Chicago: UTC-5 before, UTC-6 after the change of the clock.
    expect(out[0]!.start >= '2026-10-30T11:00:00.000Z').toBe(true);
    expect(out.at(-1)!.end <= '2026-11-04T00:00:00.000Z').toBe(true);
  });

  it('charges no machine before its rise test, and starts none before the whole charge is in', () => {
    for (const { phases } of plan.jobs) {
      const order = phases.map(({ kind }) => kind);
      const [test, charge, start] = ['rise test', 'liquid recharge', 'start-up check'].map((kind) =>
        order.indexOf(kind as never),
      );
      if (charge! >= 0 && test! >= 0) expect(test!).toBeLessThan(charge!);
      if (start! >= 0) expect(charge!).toBeLessThan(start!);
      for (const [index, phase] of phases.slice(1).entries())
        expect(phase.start >= phases[index]!.end).toBe(true);
    }
  });

  it('holds a certificate for every step that needs one', () => {
    const people = new Map(sampleFirm().people.map((person) => [person.id, person]));
    for (const job of plan.jobs) {
      const needed = job.refrigerant === 'R-1233zd(E)' ? 'type III' : 'type II';
      for (const phase of job.phases.filter(
        ({ kind }) => kind === 'liquid recovery' || kind === 'liquid recharge',
      )) {
        const day = phase.end.slice(0, 10);
        const certified = phase.people.some((id) =>
          people
            .get(id)!
            .certificates.some(
              ({ kind, validUntil }) =>
                (kind === needed || kind === 'universal') && (validUntil === null || validUntil >= day),
            ),
        );
        expect(certified, `${job.id} ${phase.id}`).toBe(true);
        expect(phase.people.length).toBeGreaterThanOrEqual(2);
      }
    }
  });

  it('ends no earlier than its lower bound and prices every job to the cent', () => {
    expect(plan.schedule.end >= plan.schedule.lowerBound).toBe(true);
    for (const { quote, price } of plan.jobs) {
      expect(quote.lines.reduce((sum, { cost }) => sum + cost.minorUnits, 0)).toBe(
        quote.directCost.minorUnits,
      );
      expect(price.minorUnits).toBe(quote.price.minorUnits);
    }
  });

  it('is the same from the same seed, to the byte', () => {
    const again = planFirm(sampleFirm(), { seed: 1, schedules: 60 });
    expect(again.kind === 'planned' && JSON.stringify(again.plan)).toBe(JSON.stringify(plan));
  });
});
