import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { planOf, removeData, type RunningServer, startServer } from '../support/server.ts';
import { accessibilityFaults, launchBrowser, leftOut, openPage } from './browser.ts';

/** An address in BRIMLINE_URL is used as it is; else the built server is started with data of its own. */
const GIVEN = process.env['BRIMLINE_URL'];

describe.skipIf(leftOut !== null)('the pages on the real server', () => {
  let server: RunningServer | null = null;
  let address = GIVEN ?? '';
  let browser: Browser;

  beforeAll(async () => {
    browser = await launchBrowser();
    if (GIVEN === undefined) {
      server = await startServer();
      address = server.address;
    }
  });
  afterAll(async () => {
    await browser?.close();
    if (server) {
      await server.stop();
      removeData(server);
    }
  });

  it('wait for the first plan, then show it and every job of it without an error', async () => {
    const { page, errors, close } = await openPage(browser, `${address}/`);
    await page.waitForSelector('svg a.booking', { timeout: 90_000 });
    const plan = (await planOf(address)) as { readonly jobs: readonly { readonly id: string }[] };
    for (const { id } of plan.jobs) {
      await page.goto(`${address}/#/job/${id}`);
      await page.getByText(`Job ${id}`, { exact: true }).waitFor();
      await page.waitForSelector('figure svg[role=img]');
      expect(await page.getByText('Both sides are equal.').count(), `account of ${id}`).toBe(1);
    }
    expect(await accessibilityFaults(page)).toEqual([]);
    expect(errors).toEqual([]);
    await close();
  });

  it('hand out every workbook that they link to', async () => {
    const { page, close } = await openPage(browser, `${address}/`);
    await page.waitForSelector('svg a.booking', { timeout: 90_000 });
    const links = [
      await page
        .locator('a[download]')
        .evaluateAll((all) => all.map((link) => (link as HTMLAnchorElement).href)),
    ];
    await page.locator('svg a.booking').first().focus();
    await page.keyboard.press('Enter');
    await page.waitForSelector('figure svg[role=img]');
    links.push(
      await page
        .locator('a[download]')
        .evaluateAll((all) => all.map((link) => (link as HTMLAnchorElement).href)),
    );
    expect(links.flat()).toHaveLength(3);
    for (const link of links.flat()) {
      const response = await fetch(link);
      expect(response.status, link).toBe(200);
      expect(new Uint8Array(await response.arrayBuffer()).subarray(0, 2), link).toEqual(
        new TextEncoder().encode('PK'),
      );
    }
    await close();
  });

  it('calculate, and show what the server says of a value that is not allowed', async () => {
    const { page, close } = await openPage(browser, `${address}/#/calculators/cylinder-fill`);
    await page.getByRole('button', { name: 'Calculate' }).click();
    const result = page.getByRole('region', { name: 'Result' });
    await expect.poll(() => result.innerText()).toMatch(/ kg/);
    await page.locator('#field-waterCapacity_kg').fill('-1');
    await page.getByRole('button', { name: 'Calculate' }).click();
    await expect.poll(() => result.innerText()).toMatch(/waterCapacity_kg/);
    await close();
  });

  it('plan again on request', async () => {
    const { page, errors, close } = await openPage(browser, `${address}/`);
    await page.waitForSelector('svg a.booking', { timeout: 90_000 });
    await page.getByRole('button', { name: 'Plan again' }).click();
    await page.getByText('Planning again').waitFor();
    await page.getByText('Planning again').waitFor({ state: 'detached', timeout: 90_000 });
    expect(await page.locator('svg a.booking').count()).toBeGreaterThan(0);
    expect(errors).toEqual([]);
    await close();
  });
});
