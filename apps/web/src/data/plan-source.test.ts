import { afterEach, describe, expect, it, vi } from 'vitest';
import { PlanSource } from './plan-source.ts';

type Reply = readonly [status: number, body: unknown] | 'no line';

/** Answers requests in the order given, and fails the test when one more is asked. */
function answer(...replies: readonly Reply[]): string[] {
  const asked: string[] = [];
  const queue = [...replies];
  vi.stubGlobal('fetch', (path: string, request?: RequestInit) => {
    asked.push(`${request?.method ?? 'GET'} ${path}`);
    const reply = queue.shift();
    if (reply === undefined) throw new Error(`nobody answers ${path}`);
    if (reply === 'no line') return Promise.reject(new TypeError('no line'));
    return Promise.resolve(new Response(JSON.stringify(reply[1]), { status: reply[0] }));
  });
  return asked;
}

const source = (): PlanSource => new PlanSource(() => Promise.resolve());
const PLAN = { planFrom: '2026-10-29' };
const NEW_PLAN = { planFrom: '2026-11-05' };

describe('the plan as the pages hold it', () => {
  afterEach(() => vi.unstubAllGlobals());

  it('waits while the first plan is made, and says what is being worked out', async () => {
    answer(
      [202, {}],
      [200, { state: 'planning', message: 'Trying plans' }],
      [200, { state: 'ready', message: '' }],
      [200, PLAN],
    );
    const plans = source();
    const said: (string | null)[] = [];
    plans.subscribe(() => said.push(plans.current().working));
    await plans.load();
    expect(said).toContain('Trying plans');
    expect(plans.current()).toMatchObject({ plan: PLAN, working: null, failure: null });
  });

  it('keeps the last plan when a new one fails, with the reason', async () => {
    const asked = answer([200, PLAN], [202, {}], [200, { state: 'failed', message: 'no crew' }]);
    const plans = source();
    await plans.load();
    await plans.planAgain();
    expect(asked).toEqual(['GET api/plan', 'POST api/plan', 'GET api/plan/state']);
    expect(plans.current()).toMatchObject({ plan: PLAN, working: null, failure: 'no crew' });
  });

  it('waits for a plan that somebody else has begun', async () => {
    answer([200, PLAN], [409, { detail: 'already' }], [200, { state: 'ready', message: '' }], [200, NEW_PLAN]);
    const plans = source();
    await plans.load();
    await plans.planAgain();
    expect(plans.current()).toMatchObject({ plan: NEW_PLAN, failure: null });
  });

  it('does not ask for ever where the planner is ready but holds no plan', async () => {
    answer([404, {}], [200, { state: 'ready', message: '' }], [404, { detail: 'No plan was made yet.' }]);
    const plans = source();
    await plans.load();
    expect(plans.current()).toMatchObject({ plan: null, working: null, failure: 'No plan was made yet.' });
  });

  it('says that nobody answers when the line is away', async () => {
    answer('no line');
    const plans = source();
    await plans.load();
    expect(plans.current().failure).toMatch(/did not answer/);
  });
});
