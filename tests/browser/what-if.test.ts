import { formatNumber } from '@brimline/quantities';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sampleFirm } from '../support/sample-firm.ts';
import { accessibilityFaults, launchBrowser, leftOut, openPage } from './browser.ts';
import { type PageServer, servePages } from './page-server.ts';
import { samplePlan } from './sample-plan.ts';

describe.skipIf(leftOut !== null)('what if', () => {
  let server: PageServer;
  let browser: Browser;

  beforeAll(async () => {
    server = await servePages(samplePlan());
    browser = await launchBrowser();
  });
  afterAll(async () => {
    await browser?.close();
    await server?.stop();
  });

  async function openTrial(id: string) {
    const opened = await openPage(browser, `${server.address}/#/what-if/${id}`);
    await opened.page.getByLabel('Scope').waitFor();
    return opened;
  }

  /** Hours of work, P50, as shown. */
  async function hours(page: Page): Promise<number> {
    return Number.parseFloat(await page.locator('.figure').first().innerText());
  }

  it('more charge takes longer, and says by how much; put back, it is as stored again', async () => {
    const { page, errors, close } = await openTrial('1101');
    await page.waitForSelector('figure svg[role=img]');
    const before = await hours(page);
    await page.getByLabel('Nameplate charge').fill('900 lb');
    await expect.poll(() => hours(page)).toBeGreaterThan(before);
    const more = (await hours(page)) - before;
    expect(await page.getByText(`${formatNumber(more, 1)} h more than as stored`).count()).toBeGreaterThan(0);
    await page.getByRole('button', { name: 'Put everything back' }).click();
    await expect.poll(() => hours(page)).toBe(before);
    expect(errors).toEqual([]);
    await close();
  });

  it('a fact that can’t be read is named with what is allowed; the last drawing stays', async () => {
    const { page, close } = await openTrial('1101');
    await page.waitForSelector('figure svg[role=img]');
    const before = await hours(page);
    await page.getByLabel('Nameplate charge').fill('240');
    await page.getByText('“240” is not allowed; expected a number and one of: kg').waitFor();
    expect(await page.getByLabel('Nameplate charge').getAttribute('aria-invalid')).toBe('true');
    expect(await hours(page)).toBe(before);
    expect(await accessibilityFaults(page)).toEqual([]);
    await close();
  });

  it('units switch without losing what was typed', async () => {
    const { page, close } = await openTrial('1101');
    await page.getByLabel('Nameplate charge').fill('480 lb');
    await page.getByLabel('Units').selectOption('si');
    expect(await page.getByLabel('Nameplate charge').inputValue()).toBe('480 lb');
    const chiller = sampleFirm().chillers.find(({ id }) => id === 'CH-11')!;
    const bore = `${formatNumber(chiller.liquidPort_m * 1000, 1)} mm`;
    await expect.poll(() => page.getByLabel('Bore of the liquid port').inputValue()).toBe(bore);
    await close();
  });

  it('holding the work to direct charging takes the push-pull ways away', async () => {
    const { page, close } = await openTrial('1102');
    await page.waitForSelector('figure svg[role=img]');
    await page.getByLabel('Method').selectOption('direct');
    await expect.poll(() => page.locator('.drawn-ways .chosen').innerText()).toMatch(/^direct/);
    await page.getByLabel('Valve cores').selectOption('in');
    await expect.poll(() => page.locator('.drawn-ways .chosen').innerText()).toMatch(/cores in/);
    await close();
  });

  it('a refusal says why, and a changed fact lifts it', async () => {
    const { page, close } = await openTrial('1110');
    await page.getByText(/not rated for flammable refrigerants/).waitFor();
    expect(await accessibilityFaults(page)).toEqual([]);
    await page.getByRole('combobox', { name: 'Refrigerant' }).selectOption('R-134a');
    await page.waitForSelector('figure svg[role=img]');
    await close();
  });
});
