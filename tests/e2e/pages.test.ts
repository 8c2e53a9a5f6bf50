import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { planOf, removeData, type RunningServer, startServer } from '../support/server.ts';

const CHROMIUM = process.env['CHROMIUM_PATH'];
const ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-dev-shm-usage',
];
const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js');

/** Without a browser these tests are skipped where somebody said so, and fail where nobody did. */
const isLeftOut = !CHROMIUM && process.env['SKIP_BROWSER'] === '1';

describe.skipIf(isLeftOut)('the main job in a real browser, on the real server', () => {
  let server: RunningServer;
  let browser: Browser;
  const complaints: string[] = [];

  beforeAll(async () => {
    expect(CHROMIUM, 'no browser: set CHROMIUM_PATH or SKIP_BROWSER=1').toBeTruthy();
    server = await startServer();
    await planOf(server.address);
    browser = await chromium.launch({ executablePath: CHROMIUM!, args: ARGS });
  });
  afterAll(async () => {
    await browser?.close();
    await server?.stop();
    if (server) removeData(server);
  });

  async function open(
    hash: string,
    width: number,
    height: number,
    colorScheme: 'light' | 'dark' = 'light',
  ): Promise<Page> {
    const page = await browser.newPage({ viewport: { width, height }, colorScheme, acceptDownloads: true });
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
    page.on('pageerror', (error) => complaints.push(error.message));
    await page.goto(`${server.address}/${hash}`);
    await page.getByRole('heading', { level: 1 }).waitFor();
    await page.locator('[aria-busy="true"]').waitFor({ state: 'detached' });
    return page;
  }

  async function violations(page: Page): Promise<string[]> {
    await page.evaluate(readFileSync(AXE, 'utf8'));
    const { violations: found } = await page.evaluate(() =>
      (globalThis as any).axe.run(document, { resultTypes: ['violations'] }),
    );
    return found.map(
      ({ id, nodes }: { id: string; nodes: { html: string }[] }) => `${id}: ${nodes[0]!.html.slice(0, 200)}`,
    );
  }

  it('shows the week: every planned job, the refused one with its reason, the bound beside the end', async () => {
    const page = await open('#/week', 1440, 900);
    for (const id of ['1101', '1102', '1112'])
      await page
        .getByRole('link', { name: new RegExp(`^${id} `) })
        .first()
        .waitFor();
    expect(await page.getByText(/not rated for flammable refrigerants/).count()).toBeGreaterThan(0);
    expect(await page.getByText(/no plan can end before/).count()).toBeGreaterThan(0);
    expect(await page.getByText(/Invented firm/).count()).toBeGreaterThan(0);
    await page.close();
  });

  it('leads from the week to a job with its charge curve, reasons and workbooks', async () => {
    const page = await open('#/week', 1440, 900);
    await page
      .getByRole('link', { name: /^1102 / })
      .first()
      .click();
    await page.getByRole('heading', { level: 1, name: /Tube repair/ }).waitFor();
    expect(await page.getByRole('img', { name: /R-134a|lb/ }).count()).toBeGreaterThan(0);
    for (const [name, file] of [
      [/^Offer/, 'offer-1102.xlsx'],
      [/^Quote workbook/, 'quote-1102.xlsx'],
    ] as const) {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('link', { name }).first().click(),
      ]);
      expect(download.suggestedFilename()).toBe(file);
      const bytes = readFileSync(await download.path());
      // Every .xlsx file is a zip archive: "PK".
      expect(bytes.subarray(0, 2).toString()).toBe('PK');
    }
    await page.close();
  });

  it('runs a calculation that the command line runs too', async () => {
    const page = await open('#/calculators/pump-down', 1440, 900);
    await page.locator('form button[type="submit"]').first().click();
    // 1.084 h: computed independently, exact.
    await page
      .getByText(/3,?90[23]/)
      .first()
      .waitFor();
    await page.close();
  });

  it.each([
    ['#/week', 1440, 900, 'light'],
    ['#/week', 390, 844, 'dark'],
    ['#/job/1101', 1440, 900, 'dark'],
    ['#/job/1101', 390, 844, 'light'],
    ['#/job/1105', 1440, 900, 'light'],
    ['#/calculators/transfer-time', 390, 844, 'light'],
  ] as const)(
    '%s at %s x %s, %s, has no accessibility fault, no console error, and no sideways scroll',
    async (hash, width, height, scheme) => {
      const page = await open(hash, width, height, scheme);
      expect(await violations(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      expect(complaints).toEqual([]);
      await page.close();
    },
  );

  it('switches units and keeps them', async () => {
    const page = await open('#/job/1101', 1440, 900);
    await page
      .getByText(/240 lb/)
      .first()
      .waitFor();
    await page.getByLabel(/Units/).selectOption({ index: 1 });
    await page
      .getByText(/108\.?\d* kg|109 kg/)
      .first()
      .waitFor();
    await page.reload();
    await page
      .getByText(/108\.?\d* kg|109 kg/)
      .first()
      .waitFor();
    await page.close();
  });
});
