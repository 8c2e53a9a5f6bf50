import { planFirm, type PlannedJob } from '@brimline/planning';
import { describe, expect, it } from 'vitest';
import { sampleFirm } from '../../tests/support/sample-firm.ts';
import { explainText } from './explain.ts';

function planned(ids: readonly string[]): readonly PlannedJob[] {
  const firm = sampleFirm();
  const jobs = firm.jobs.filter(({ id }) => ids.includes(id));
  const outcome = planFirm({ ...firm, jobs }, { seed: 1, schedules: 2 });
  if (outcome.kind !== 'planned') throw new Error('these jobs can be planned');
  return outcome.plan.jobs;
}

describe('a job explained on the terminal', () => {
  const jobs = planned(['1103', '1105', '1111', '1101']);

  it.each(jobs.map((job) => [job.id, job] as const))('%s unfolds every number to its cause', (_, job) => {
    const text = explainText(job);
    const { phases, ways, cautions, assumptions, reasons, risk } = job.estimate;
    for (const { title } of phases) expect(text).toContain(title);
    for (const { label } of ways) expect(text).toContain(label);
    for (const { change } of ways) if (change) expect(text).toContain(`${change.what}: `);
    for (const { cause } of cautions) expect(text).toContain(`[${cause}]`);
    for (const { label } of assumptions) expect(text).toContain(label);
    for (const { formula, source, inputs } of reasons) {
      expect(text).toContain(formula);
      expect(text).toContain(`source: ${source}`);
      for (const { label } of inputs) expect(text).toContain(`${label} = `);
    }
    for (const { test } of risk.loops) expect(text).toContain(`The ${test} fails with`);
    expect(text).toContain('P80');
    expect(text).not.toMatch(/undefined|NaN|Infinity|\[object/);
  });

  it('sets jobs on one site side by side', () => {
    const text = explainText(
      jobs.find(({ id }) => id === '1101')!,
      jobs,
    );
    expect(text).toContain('This site together (1101, 1111)');
    expect(text).toMatch(/one machine after the other: .* 2 persons/);
    expect(text).toMatch(/side by side: .* 4 persons/);
  });

  it('tells a top-up how much is missing and what that says of the leak', () => {
    const text = explainText(jobs.find(({ id }) => id === '1105')!);
    expect(text).toMatch(/Missing 60\.0 lb, known from: given\. Leak rate 19\.4 % a year of 10 % allowed/);
  });
});
