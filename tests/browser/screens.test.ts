import { join } from 'node:path';
import type { WeekPlan } from '@brimline/planning';
import { formatMoney } from '@brimline/quantities';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessibilityFaults, DESK, launchBrowser, leftOut, openPage, PHONE, SHOTS } from './browser.ts';
import { type PageServer, servePages } from './page-server.ts';
import { samplePlan } from './sample-plan.ts';

const SCREENS = [
  ['week', '#/week', 'svg a.booking'],
  ['estimate', '#/job/1101', 'figure svg[role=img]'],
  ['night job', '#/job/1107', 'figure svg[role=img]'],
  ['recharge', '#/job/1106', 'figure svg[role=img]'],
  ['what if', '#/what-if/1101', 'figure svg[role=img]'],
  ['calculators', '#/calculators/hose-flow', 'form'],
] as const;
const LOOKS = [
  ['desk', DESK, 'light'],
  ['desk', DESK, 'dark'],
  ['phone', PHONE, 'light'],
  ['phone', PHONE, 'dark'],
] as const;

describe.skipIf(leftOut !== null)('the screens', () => {
  let plan: WeekPlan;
  let server: PageServer;
  let browser: Browser;
  const at = (hash: string): string => `${server.address}/${hash}`;

  beforeAll(async () => {
    plan = samplePlan();
    server = await servePages(plan);
    browser = await launchBrowser();
  });
  afterAll(async () => {
    await browser?.close();
    await server?.stop();
  });

  const cases = SCREENS.flatMap(([name, hash, ready]) =>
    LOOKS.map(([size, viewport, scheme]) => ({ name, hash, ready, size, viewport, scheme })),
  );
  it.each(cases)(
    '$name, $size, $scheme: no fault of access, no error, nothing wider than the screen',
    async ({ name, hash, ready, size, viewport, scheme }) => {
      const { page, errors, close } = await openPage(browser, at(hash), { size: viewport, scheme });
      await page.waitForSelector(ready);
      await page.evaluate('document.fonts.ready');
      await page.screenshot({ path: join(SHOTS, `${name}-${size}-${scheme}.png`) });
      expect(await accessibilityFaults(page)).toEqual([]);
      expect(errors).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
        viewport.width,
      );
      expect(await page.getByText(plan.firm.notice).isVisible()).toBe(true);
      await close();
    },
  );

  it('the week names every job, person and piece of booked gear, and every job that is refused with its reason', async () => {
    const { page, close } = await openPage(browser, at('#/week'));
    await page.waitForSelector('svg a.booking');
    const names = await page.locator('.week-names').innerText();
    for (const { id } of plan.jobs) expect(names).toContain(id);
    for (const { name } of plan.people) expect(names).toContain(name);
    const booked = new Set(plan.jobs.flatMap(({ phases }) => phases.flatMap(({ gear }) => gear)));
    for (const id of booked) expect(names).toContain(id);
    const refused = await page.locator('.refused').innerText();
    for (const { title, reasons } of plan.refused) {
      expect(refused).toContain(title);
      for (const { message } of reasons) expect(refused).toContain(message);
    }
    expect(await page.getByText(plan.schedule.bound).count()).toBeGreaterThan(0);
    await close();
  });

  it('a booking stands on the even clock where its instants say, through the change of the clock', async () => {
    const { page, close } = await openPage(browser, at('#/week'));
    await page.waitForSelector('svg a.booking');
    const drawn = await page.locator('svg a.booking').evaluateAll((links) =>
      links.map((link) => ({
        label: link.getAttribute('aria-label') ?? '',
        x: Number(link.querySelector('rect.body')?.getAttribute('x')),
        width: Number(link.querySelector('rect.body')?.getAttribute('width')),
      })),
    );
    const person = plan.people.find(({ id }) =>
      plan.jobs.some((job) => job.phases.some((one) => one.people.includes(id))),
    )!;
    const mine = drawn.filter(({ label }) => label.includes(person.name));
    const pieces = plan.jobs
      .flatMap(({ phases }) => phases.filter(({ people }) => people.includes(person.id)))
      .flatMap(({ pieces: worked }) =>
        worked.map(({ start, end }) => [Date.parse(start), Date.parse(end)] as const),
      );
    const first = Math.min(...pieces.map(([start]) => start));
    const last = Math.max(...pieces.map(([, end]) => end));
    const x0 = Math.min(...mine.map(({ x }) => x));
    const x1 = Math.max(...mine.map(({ x, width }) => x + width));
    const days = await page.locator('.week-chart svg').evaluate((svg) => Number(svg.getAttribute('width')));
    const perMs = (x1 - x0) / (last - first);
    for (const [start, end] of pieces) {
      const holds = mine.some(
        ({ x, width }) =>
          x <= x0 + (start - first) * perMs + 1 && x + width >= x0 + (end - first) * perMs - 1,
      );
      expect(holds).toBe(true);
    }
    expect(x1).toBeLessThanOrEqual(days);
    expect(await page.getByText('25 h (CDT – CST)').isVisible()).toBe(true);
    await close();
  });

  it('is worked by the keyboard: in by Tab, between bookings by arrows, to the job by Enter', async () => {
    const { page, close } = await openPage(browser, at('#/week'));
    await page.waitForSelector('svg a.booking');
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Skip to the page');
    for (let presses = 0; presses < 25; presses += 1) {
      await page.keyboard.press('Tab');
      if (await page.evaluate(() => document.activeElement?.classList.contains('booking'))) break;
    }
    const focused = (): Promise<string> =>
      page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? '');
    expect(await focused()).toMatch(new RegExp(`^Job ${plan.jobs[0]!.id},`));
    await page.keyboard.press('ArrowDown');
    expect(await focused()).toMatch(new RegExp(`^Job ${plan.jobs[1]!.id},`));
    await page.keyboard.press('Enter');
    await page.waitForSelector('figure svg[role=img]');
    expect(page.url()).toContain(`#/job/${plan.jobs[1]!.id}`);
    await close();
  });

  it('the clock can be that of another zone of the plan', async () => {
    const { page, close } = await openPage(browser, at('#/week'));
    const end = (): Promise<string> => page.locator('.week-end').innerText();
    await page.waitForSelector('svg a.booking');
    const before = await end();
    await page.getByLabel('Clock of').selectOption('America/Denver');
    expect(await end()).not.toBe(before);
    expect(await end()).toMatch(/MST|MDT/);
    await close();
  });

  it('shows a day, a week or all days, and scrolls by whole views', async () => {
    const { page, close } = await openPage(browser, at('#/week'));
    await page.waitForSelector('svg a.booking');
    const width = (): Promise<number> =>
      page.locator('.week-chart svg').evaluate((svg) => Number(svg.getAttribute('width')));
    const week = await width();
    await page.getByText('a day', { exact: true }).click();
    const day = await width();
    expect(day / week).toBeCloseTo(7, 1);
    const scroller = page.locator('.week-chart .scroll-x');
    const left = await scroller.evaluate((box) => box.scrollLeft);
    await page.getByRole('button', { name: 'Later' }).click();
    await expect
      .poll(() => scroller.evaluate((box) => box.scrollLeft))
      .toBeCloseTo(left + (await scroller.evaluate((box) => box.clientWidth)), -1);
    await page.getByText('all days', { exact: true }).click();
    expect(await width()).toBeLessThanOrEqual(DESK.width);
    await close();
  });

  it.each(['1101', '1105', '1106', '1111', '1112'])(
    'job %s: the figures, account and price of the page are those of the plan',
    async (id) => {
      const { page, errors, close } = await openPage(browser, at(`#/job/${id}`));
      const job = plan.jobs.find((one) => one.id === id)!;
      await page.waitForSelector('figure svg[role=img]');
      expect(await page.locator('.figures').innerText()).toContain(`${job.hours.p50.toFixed(1)} h`);
      expect(await page.locator('.figures').innerText()).toContain(`P80 ${job.hours.p80.toFixed(1)} h`);
      const text = await page.locator('.job-main').innerText();
      for (const { title } of job.estimate.phases) expect(text).toContain(title);
      for (const line of job.quote.lines) expect(text).toContain(formatMoney(line.cost));
      expect(text).toContain(formatMoney(job.quote.price));
      expect(text).toContain('Both sides are equal.');
      for (const { text: caution } of job.cautions) {
        expect(await page.locator('.cautions').innerText()).toContain(caution);
      }
      const chosen = job.estimate.ways.find((way) => way.chosen)!;
      expect(await page.locator('.ways tr.chosen').innerText()).toContain(chosen.label);
      expect(errors).toEqual([]);
      await close();
    },
  );

  it('any number opens its reason in the margin, and closing leads back to it', async () => {
    const { page, close } = await openPage(browser, at('#/job/1101'));
    const evacuation = plan.jobs[0]!.estimate.phases.find(({ kind }) => kind === 'evacuation')!;
    await page.waitForSelector('figure svg[role=img]');
    const row = page.locator('tr', { hasText: evacuation.title }).locator('button.with-reason').last();
    await row.focus();
    await page.keyboard.press('Enter');
    const panel = page.getByRole('region', { name: 'Reason of a number' });
    expect(await panel.innerText()).toContain(evacuation.reason.formula);
    expect(await panel.innerText()).toContain(evacuation.reason.source);
    for (const { label } of evacuation.reason.inputs) expect(await panel.innerText()).toContain(label);
    expect(await accessibilityFaults(page)).toEqual([]);
    await page.keyboard.press('Escape');
    expect(await panel.count()).toBe(0);
    expect(await page.evaluate(() => document.activeElement?.className)).toBe('with-reason');
    await close();
  });

  it('the charge curve is spoken in a sentence, and its table adds up to the brim', async () => {
    const { page, close } = await openPage(browser, at('#/job/1102'));
    const drawing = page.locator('figure svg[role=img]');
    expect(await drawing.getAttribute('aria-label')).toMatch(
      /^Charge curve of R-134a: 1,800 lb in the chiller/,
    );
    await page.getByText('Charge curve as a table').click();
    const rows = await page
      .locator('figure tbody tr')
      .evaluateAll((list) =>
        list.map((row) =>
          [...row.querySelectorAll('td.number')].map((cell) =>
            parseFloat(cell.textContent!.replace(',', '')),
          ),
        ),
      );
    expect(rows.length).toBe(
      plan.jobs.find(({ id }) => id === '1102')!.phases.flatMap(({ pieces }) => pieces).length,
    );
    for (const [chiller, transit, cylinders, brim] of rows) {
      // Each figure is rounded to 0.1 lb, so three of them may miss the fourth by 0.2.
      expect(Math.abs(chiller! + transit! + cylinders! - brim!)).toBeLessThanOrEqual(0.21);
    }
    await close();
  });

  it('each fold of the clock says its hours', async () => {
    const { page, close } = await openPage(browser, at('#/job/1107'));
    await page.waitForSelector('figure svg[role=img]');
    const tears = await page.locator('figure svg[role=img] path.tear').count();
    const texts = await page.locator('figure svg[role=img] text.soft').allTextContents();
    const hours = texts.filter((text) => /^\d+(\.\d)? h$/.test(text));
    expect(tears).toBeGreaterThan(0);
    expect(hours).toHaveLength(tears / 4);
    await close();
  });

  it('units are switched, and stay switched', async () => {
    const { page, close } = await openPage(browser, at('#/job/1101'));
    await page.waitForSelector('figure svg[role=img]');
    await page.getByLabel('Units').selectOption('si');
    expect(await page.locator('figure').first().innerText()).toContain('System pressure, kPa gauge');
    expect(await page.locator('.job-facts').innerText()).toContain('109 kg');
    await page.reload();
    await page.waitForSelector('figure svg[role=img]');
    expect(await page.locator('.job-facts').innerText()).toContain('109 kg');
    await close();
  });

  it('light can be chosen against the system', async () => {
    const { page, close } = await openPage(browser, at('#/week'), { scheme: 'dark' });
    const ground = (): Promise<string> =>
      page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    const dark = await ground();
    await page.getByLabel('Light').selectOption('light');
    expect(await ground()).toBe('rgb(244, 247, 245)');
    expect(dark).toBe('rgb(13, 25, 29)');
    await close();
  });

  it('a calculation answers with its units, and says what is wrong with a value', async () => {
    const { page, close } = await openPage(browser, at('#/calculators/saturation'));
    await page.getByRole('button', { name: 'Calculate' }).click();
    const result = page.getByRole('region', { name: 'Result' });
    await expect.poll(() => result.innerText()).toMatch(/[\d,]+ Pa/);
    // 25 °C: 665 kPa saturation of R-134a by the equation of state of the refrigerants engine; 96.5 psia = 665.4 kPa.
    expect(await result.innerText()).toContain('96.5 psia');
    await page.getByLabel('temperature; give this or the pressure').fill('9000');
    expect(await result.innerText()).toContain('The result stands for earlier values.');
    await page.getByRole('button', { name: 'Calculate' }).click();
    await expect.poll(() => result.innerText()).toMatch(/allowed/);
    await page.getByLabel('temperature; give this or the pressure').fill('warm');
    await page.getByRole('button', { name: 'Calculate' }).click();
    expect(await page.getByRole('alert').innerText()).toContain('Nothing was sent.');
    await close();
  });

  it('every calculation of the list gives a form that answers its own example', async () => {
    const { page, errors, close } = await openPage(browser, at('#/calculators'));
    await page.waitForSelector('.calculators nav a');
    const names = await page
      .locator('.calculators nav a')
      .evaluateAll((links) => links.map((link) => link.getAttribute('href')!));
    expect(names.length).toBeGreaterThan(20);
    for (const name of names) {
      await page.goto(at(name));
      await page.getByRole('button', { name: 'Calculate' }).click();
      await expect
        .poll(() => page.locator('.result table tbody tr').count(), { message: name })
        .toBeGreaterThan(0);
    }
    expect(errors).toEqual([]);
    await close();
  });

  it('prints on white paper without menu or buttons, and no drawing is wider than the sheet', async () => {
    const { page, close } = await openPage(browser, at('#/job/1101'), {
      size: { width: 720, height: 960 },
      scheme: 'dark',
    });
    await page.waitForSelector('figure svg[role=img]');
    await page.emulateMedia({ media: 'print' });
    await page.screenshot({ path: join(SHOTS, 'estimate-print.png'), fullPage: true });
    expect(await page.evaluate(() => getComputedStyle(document.body).backgroundColor)).toBe(
      'rgb(255, 255, 255)',
    );
    expect(await page.getByRole('navigation').isVisible()).toBe(false);
    expect(await page.locator('figure svg[role=img]').evaluate((svg) => svg.clientWidth)).toBeLessThanOrEqual(
      720,
    );
    await page.goto(at('#/week'));
    await page.waitForSelector('svg a.booking');
    await page.screenshot({ path: join(SHOTS, 'week-print.png'), fullPage: true });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(720);
    await close();
  });
});
