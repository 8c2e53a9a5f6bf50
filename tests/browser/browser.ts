import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';

/** Why the browser tests are left out; null when they run. */
export const leftOut: string | null =
  process.env['SKIP_BROWSER'] === '1'
    ? 'SKIP_BROWSER=1'
    : process.env['BRIMLINE_FAST'] === '1'
      ? 'fast run'
      : null;

export const DESK = { width: 1440, height: 900 };
export const PHONE = { width: 390, height: 844 };

/** Where the screenshots of a run are put, to be looked at. */
export const SHOTS = process.env['BRIMLINE_SHOTS'] ?? join(tmpdir(), 'brimline-screens');

export function launchBrowser(): Promise<Browser> {
  if (!existsSync('dist/web/index.html')) throw new Error('the pages are not built: run npm run build first');
  mkdirSync(SHOTS, { recursive: true });
  return chromium.launch({
    executablePath: process.env['CHROMIUM_PATH'] ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--disable-dev-shm-usage',
    ],
  });
}

export interface OpenPage {
  readonly page: Page;
  /** Errors of the page and its console, but for answers of 4xx and 5xx, which a test may have asked for. */
  readonly errors: readonly string[];
  close(): Promise<void>;
}

interface Options {
  readonly size?: { readonly width: number; readonly height: number };
  readonly scheme?: 'light' | 'dark';
  readonly timeZone?: string;
}

export async function openPage(browser: Browser, url: string, options: Options = {}): Promise<OpenPage> {
  const context = await browser.newContext({
    viewport: options.size ?? DESK,
    colorScheme: options.scheme ?? 'light',
    timezoneId: options.timeZone ?? 'America/Chicago',
  });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  page.on('console', (message) => {
    const isAnswer = message.text().startsWith('Failed to load resource');
    if (['error', 'warning'].includes(message.type()) && !isAnswer) errors.push(message.text());
  });
  await page.goto(url);
  return { page, errors, close: () => context.close() };
}

const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js');

interface AxeResult {
  readonly violations: readonly {
    readonly id: string;
    readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
  }[];
}

/** Faults against WCAG 2.2 AA and good practice that axe-core finds on the page as it stands. */
export async function accessibilityFaults(page: Page): Promise<string[]> {
  // The page's own policy forbids added scripts, so axe is evaluated by the debugger instead.
  await page.evaluate(readFileSync(AXE, 'utf8'));
  const { violations } = (await page.evaluate('axe.run(document)')) as AxeResult;
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 160)} ${failureSummary ?? ''}`),
  );
}
