import { join } from 'node:path';
import type { WeekPlan } from '@brimline/planning';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessibilityFaults, launchBrowser, leftOut, openPage, SHOTS } from './browser.ts';
import { type PageServer, type Script, servePages } from './page-server.ts';
import { samplePlan } from './sample-plan.ts';

describe.skipIf(leftOut !== null)('the states of the screens', () => {
  let plan: WeekPlan;
  let server: PageServer;
  let browser: Browser;

  beforeAll(async () => {
    plan = samplePlan();
    server = await servePages(plan);
    browser = await launchBrowser();
  });
  afterAll(async () => {
    await browser?.close();
    await server?.stop();
  });

  async function open(hash: string, script: Script) {
    server.answer(script);
    return openPage(browser, `${server.address}/${hash}`);
  }

  it('while the first plan is made, the brim stands and the page says what is worked out, then follows', async () => {
    let isReady = false;
    const { page, errors, close } = await open('#/week', ({ path }) => {
      if (isReady) return undefined;
      if (path === '/api/plan') return { status: 202, body: {} };
      if (path === '/api/plan/state')
        return { status: 200, body: { state: 'planning', message: 'Trying plans: 40 of 2000' } };
      return undefined;
    });
    await page.getByText('Trying plans: 40 of 2000.').waitFor();
    await page.screenshot({ path: join(SHOTS, 'loading.png') });
    expect(await accessibilityFaults(page)).toEqual([]);
    isReady = true;
    await page.waitForSelector('svg a.booking');
    expect(errors).toEqual([]);
    await close();
  });

  it('when planning fails, says why and gives two ways on', async () => {
    const { page, close } = await open('#/week', ({ path }) => {
      if (path === '/api/plan') return { status: 404, body: { detail: 'No plan was made yet.' } };
      return { status: 200, body: { state: 'failed', message: 'No job can be planned. 1110: no machine.' } };
    });
    await page.getByText('No job can be planned. 1110: no machine.').waitFor();
    await page.screenshot({ path: join(SHOTS, 'failed.png') });
    expect(await accessibilityFaults(page)).toEqual([]);
    server.answer(() => undefined);
    await page.getByRole('button', { name: 'Try again' }).click();
    await page.waitForSelector('svg a.booking');
    await close();
  });

  it('with no job, says what to do next', async () => {
    const empty = { ...plan, jobs: [], refused: [] };
    const { page, close } = await open('#/week', ({ path }) =>
      path === '/api/plan' ? { status: 200, body: empty } : undefined,
    );
    await page.getByText('No job is waiting.').waitFor();
    expect(await page.getByRole('button', { name: 'Plan again' }).isVisible()).toBe(true);
    expect(await accessibilityFaults(page)).toEqual([]);
    await close();
  });

  it('with only refused jobs, still says why each is refused', async () => {
    const { page, errors, close } = await open('#/week', ({ path }) =>
      path === '/api/plan' ? { status: 200, body: { ...plan, jobs: [], passages: [] } } : undefined,
    );
    await page.getByText('Not planned, and why').waitFor();
    expect(errors).toEqual([]);
    await close();
  });

  it('plans again on request, keeps the last plan meanwhile, and after a failure says that nothing changed', async () => {
    let state = { state: 'planning', message: 'Estimating jobs: 3 of 12' };
    const { page, close } = await open('#/week', ({ path }) =>
      path === '/api/plan/state' ? { status: 200, body: state } : undefined,
    );
    await page.waitForSelector('svg a.booking');
    await page.getByRole('button', { name: 'Plan again' }).click();
    await page.getByText('Planning again: Estimating jobs: 3 of 12.').waitFor();
    expect(server.asked).toContain('POST /api/plan');
    expect(await page.locator('svg a.booking').count()).toBeGreaterThan(0);
    expect(await page.getByRole('button', { name: 'Plan again' }).isDisabled()).toBe(true);
    expect(await accessibilityFaults(page)).toEqual([]);
    state = { state: 'failed', message: 'No crew on any day.' };
    await page.getByText('No crew on any day.').waitFor();
    expect(await page.getByText('The last plan stays; nothing changed.').isVisible()).toBe(true);
    expect(await page.locator('svg a.booking').count()).toBeGreaterThan(0);
    await close();
  });

  it('a job that is refused or unknown says so and leads back', async () => {
    const refused = plan.refused[0]!;
    const { page, close } = await open(`#/job/${refused.id}`, () => undefined);
    await page.getByText(refused.reasons[0]!.message).waitFor();
    expect(await accessibilityFaults(page)).toEqual([]);
    await page.goto(`${server.address}/#/job/nothing`);
    await page.getByText('Job nothing is not in this plan').waitFor();
    await page.getByRole('link', { name: 'Back to the week' }).click();
    await page.waitForSelector('svg a.booking');
    await close();
  });

  it('without a line, the strip says since when and the last plan stays', async () => {
    const { page, close } = await open('#/week', () => undefined);
    await page.waitForSelector('svg a.booking');
    await page.context().setOffline(true);
    await page.getByText('No connection since').waitFor();
    expect(await page.locator('svg a.booking').count()).toBeGreaterThan(0);
    expect(await accessibilityFaults(page)).toEqual([]);
    await page.context().setOffline(false);
    await page.getByText('No connection since').waitFor({ state: 'detached' });
    await close();
  });

  it('the calculators wait, fail and recover by themselves', async () => {
    const { page, close } = await open('#/calculators', ({ path }) =>
      path === '/api/calc' ? { status: 500, body: { detail: 'Something failed here.' } } : undefined,
    );
    await page.getByText('Something failed here.').waitFor();
    expect(await accessibilityFaults(page)).toEqual([]);
    server.answer(({ path }) => (path === '/api/calc' ? 'hang' : undefined));
    await page.getByRole('button', { name: 'Try again' }).click();
    await page.getByText('The list of calculations is on its way.').waitFor();
    server.answer(() => undefined);
    await page.reload();
    await page.waitForSelector('.calculators nav a');
    await close();
  });
});
