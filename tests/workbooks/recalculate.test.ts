import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { planFirm } from '@brimline/planning';
import { offerWorkbook, quoteWorkbook, timelineWorkbook } from '@brimline/workbooks';
import type { Cell } from 'exceljs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sampleFirm } from '../support/sample-firm.ts';
import { RATE_CARD, weekPlan } from '../support/week-plan.ts';
import { cellsOf, loadWorkbook } from '../support/workbook-cells.ts';

const OFFICE =
  process.env['SOFFICE_PATH'] ??
  (process.env['PATH'] ?? '')
    .split(delimiter)
    .map((folder) => join(folder, 'soffice'))
    .find((file) => existsSync(file));
const isWanted = OFFICE !== undefined || process.env['CI'] === 'true';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'brimline-books-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** By default the program keeps cached results; this profile makes it work out every formula. */
function profile(): string {
  const user = join(folder, 'profile', 'user');
  mkdirSync(user, { recursive: true });
  writeFileSync(
    join(user, 'registrymodifications.xcu'),
    `<?xml version="1.0" encoding="UTF-8"?><oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"><item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item></oor:items>`,
  );
  return pathToFileURL(join(folder, 'profile')).href;
}

type Cells = Map<string, Cell>;

/** Cells as they were written, and as a spreadsheet program works them out anew. */
async function recalculated(
  books: ReadonlyMap<string, Uint8Array>,
): Promise<Map<string, { readonly written: Cells; readonly worked: Cells }>> {
  expect(OFFICE, 'no spreadsheet program was found').toBeTruthy();
  const out = join(folder, 'again');
  const files = [...books].map(([name, bytes]) => {
    const file = join(folder, `${name}.xlsx`);
    writeFileSync(file, bytes);
    return file;
  });
  const options = [`-env:UserInstallation=${profile()}`, '--headless', '--norestore'];
  const run = spawnSync(OFFICE!, [...options, '--convert-to', 'xlsx', '--outdir', out, ...files], {
    encoding: 'utf8',
    timeout: 240_000,
  });
  expect(run.status, run.stderr).toBe(0);
  const results = new Map<string, { written: Cells; worked: Cells }>();
  for (const [name, bytes] of books) {
    results.set(name, {
      written: cellsOf(await loadWorkbook(bytes)),
      worked: cellsOf(await loadWorkbook(readFileSync(join(out, `${name}.xlsx`)))),
    });
  }
  return results;
}

/** Amounts agree to the cent; masses and hours far below what they show. */
function expectSame(name: string, written: Cells, worked: Cells): number {
  let formulas = 0;
  for (const [address, cell] of written) {
    const again = worked.get(address);
    const value = again?.formula ? again.result : again?.value;
    expect(
      typeof value === 'object' && value !== null && 'error' in value,
      `${name} ${address} is an error`,
    ).toBe(false);
    if (!cell.formula) continue;
    formulas += 1;
    expect(typeof value, `${name} ${address} = ${cell.formula}`).toBe('number');
    expect(
      Math.abs(Number(value) - Number(cell.result)),
      `${name} ${address} = ${cell.formula}`,
    ).toBeLessThan(1e-6);
  }
  return formulas;
}

describe.skipIf(!isWanted)('a spreadsheet program', () => {
  it(
    'works out every cached value of the sample week again, with no error cell',
    { timeout: 300_000 },
    async () => {
      const outcome = planFirm(sampleFirm(), { seed: 1, schedules: 10 });
      if (outcome.kind !== 'planned') throw new Error('the sample week must be planned');
      const books = new Map<string, Uint8Array>();
      for (const job of outcome.plan.jobs) {
        books.set(`quote-${job.id}`, await quoteWorkbook(job, outcome.plan));
        books.set(`offer-${job.id}`, await offerWorkbook(job, outcome.plan));
      }
      for (const [name, { written, worked }] of await recalculated(books))
        expect(expectSame(name, written, worked), name).toBeGreaterThan(name.startsWith('quote') ? 40 : 0);
    },
  );

  it(
    'agrees for awkward amounts, other currencies and text that looks like a formula',
    { timeout: 300_000 },
    async () => {
      const books = new Map<string, Uint8Array>();
      const add = async (name: string, plan: ReturnType<typeof weekPlan>): Promise<void> => {
        for (const job of plan.jobs) books.set(`${name}-${job.id}`, await quoteWorkbook(job, plan));
      };
      await add('plain', weekPlan());
      await add('yen', weekPlan({ rateCard: { ...RATE_CARD, currency: 'JPY' } }));
      await add('dinar', weekPlan({ rateCard: { ...RATE_CARD, currency: 'KWD' } }));
      // Products that end on half a cent: 0.5 h at 78.17 is 39.085, and 1.5 h at 41.23 is 61.845.
      const half = (labourClass: string, hours: number) =>
        ({ jobId: '7101', labourClass, rule: 'straight', multiplier: 1, hours }) as const;
      await add('halves', weekPlan({ usage: { pay: [half('lead technician', 0.5), half('helper', 1.5)] } }));
      await add('no-labour', weekPlan({ usage: { pay: [] } }));
      const typed = '=1+1';
      books.set('typed', await timelineWorkbook(weekPlan({ typed })));
      await add('typed', weekPlan({ typed }));
      const results = await recalculated(books);
      for (const [name, { written, worked }] of results) expectSame(name, written, worked);
      for (const name of ['typed', 'typed-7101']) {
        const texts = [...results.get(name)!.worked.values()].filter(({ value }) => value === typed);
        expect(texts.length, name).toBeGreaterThan(2);
      }
    },
  );

  it('is made to work formulas out, not to repeat what is cached', { timeout: 300_000 }, async () => {
    const plan = weekPlan();
    const job = plan.jobs[0]!;
    const book = await loadWorkbook(await quoteWorkbook(job, plan));
    const price = [...cellsOf(book).values()].find(
      ({ value, formula }) =>
        formula !== undefined && (value as { result?: number }).result === job.price.minorUnits / 100,
    )!;
    const { address } = price;
    const sheet = price.worksheet.name;
    price.value = { formula: price.formula, result: 999 };
    const stale = new Map([['stale', new Uint8Array(await book.xlsx.writeBuffer())]]);
    const { written, worked } = (await recalculated(stale)).get('stale')!;
    expect(written.get(`${sheet}!${address}`)!.result).toBe(999);
    expect(worked.get(`${sheet}!${address}`)!.result).toBeCloseTo(job.price.minorUnits / 100, 6);
  });
});
