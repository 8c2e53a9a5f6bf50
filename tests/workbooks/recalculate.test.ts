import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { planFirm, type WeekPlan } from '@brimline/planning';
import { offerWorkbook, quoteWorkbook, timelineWorkbook } from '@brimline/workbooks';
import excel from 'exceljs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sampleFirm } from '../support/sample-firm.ts';

const OFFICE = process.env['SOFFICE_PATH'];
let folder: string;
let plan: WeekPlan;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'brimline-books-'));
  const outcome = planFirm(sampleFirm(), { seed: 1, schedules: 10 });
  if (outcome.kind !== 'planned') throw new Error('the sample week must be planned');
  plan = outcome.plan;
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

async function load(bytes: Uint8Array | Buffer): Promise<excel.Workbook> {
  const book = new excel.Workbook();
  await book.xlsx.load(bytes as never);
  return book;
}

function formulas(book: excel.Workbook): Map<string, unknown> {
  const found = new Map<string, unknown>();
  book.eachSheet((sheet) =>
    sheet.eachRow((row) =>
      row.eachCell((cell) => {
        if (cell.formula) found.set(`${sheet.name}!${cell.address}`, cell.result);
      }),
    ),
  );
  return found;
}

describe('the quote workbook', () => {
  it.skipIf(!OFFICE && process.env['CI'] !== 'true')(
    'recalculates to the cached values to the cent, with no error cell',
    async () => {
      expect(OFFICE, 'no spreadsheet program').toBeTruthy();
      for (const job of plan.jobs)
        writeFileSync(join(folder, `quote-${job.id}.xlsx`), await quoteWorkbook(job, plan));
      const files = plan.jobs.map(({ id }) => join(folder, `quote-${id}.xlsx`));
      const out = join(folder, 'again');
      const run = spawnSync(
        OFFICE!,
        [
          `-env:UserInstallation=${profile()}`,
          '--headless',
          '--norestore',
          '--convert-to',
          'xlsx',
          '--outdir',
          out,
          ...files,
        ],
        { encoding: 'utf8', timeout: 240_000 },
      );
      expect(run.status, run.stderr).toBe(0);
      for (const { id } of plan.jobs) {
        const cached = formulas(await load(readFileSync(join(folder, `quote-${id}.xlsx`))));
        const worked = formulas(await load(readFileSync(join(out, `quote-${id}.xlsx`))));
        expect(cached.size).toBeGreaterThan(40);
        for (const [cell, value] of cached) {
          expect(typeof worked.get(cell), `${id} ${cell}`).toBe('number');
          expect(Math.abs(Number(worked.get(cell)) - Number(value)), `${id} ${cell}`).toBeLessThan(
            cell.startsWith('Cost') || cell.startsWith('Offer') ? 0.005 : 0.06,
          );
        }
      }
    },
  );

  it('is the same twice, and carries the price of the plan', async () => {
    const job = plan.jobs[0]!;
    const book = await load(await quoteWorkbook(job, plan));
    const named = book.definedNames.getRanges('Price').ranges[0]!.split('!')[1]!.replaceAll('$', '');
    expect(book.getWorksheet('Cost')!.getCell(named).result).toBe(job.price.minorUnits / 100);
    expect(book.worksheets.map(({ name }) => name)).toEqual([
      'Offer',
      'Cost',
      'Hours',
      'Ways',
      'Booked',
      'Charge curve',
    ]);
  });
});

describe("the customer's copy", () => {
  it('holds neither cost nor margin anywhere in the file', async () => {
    for (const job of plan.jobs) {
      const bytes = await offerWorkbook(job, plan);
      const book = await load(bytes);
      expect(book.worksheets.map(({ name }) => name)).toEqual(['Offer']);
      expect(book.definedNames.model.filter(({ name }) => !name.startsWith('_xlnm'))).toEqual([]);
      const secrets = [job.quote.directCost, job.quote.cost, job.quote.margin, job.quote.overhead].map(
        ({ minorUnits }) => minorUnits / 100,
      );
      book.worksheets[0]!.eachRow((row) =>
        row.eachCell((cell) => {
          const value = cell.formula ? cell.result : cell.value;
          if (typeof value === 'number') expect(secrets).not.toContain(value);
          expect(String(value)).not.toMatch(/margin|overhead|cost of/i);
        }),
      );
      const { quote } = job;
      expect(JSON.stringify(book.model)).not.toContain(`"${quote.rateCardId}"`);
    }
  });

  it('keeps text that looks like a formula as text', async () => {
    const job = {
      ...plan.jobs[0]!,
      title: '=HYPERLINK("http://elsewhere.example","win")',
      site: { ...plan.jobs[0]!.site, name: '@SUM(A1)' },
    };
    const book = await load(await offerWorkbook(job, plan));
    let formulasFound = 0;
    book.worksheets[0]!.eachRow((row) =>
      row.eachCell((cell) => {
        if (cell.formula && !cell.formula.startsWith('D')) formulasFound += 1;
      }),
    );
    expect(formulasFound).toBe(0);
    expect(book.worksheets[0]!.getCell('B5').value ?? book.worksheets[0]!.getCell('B4').value).toBe(
      job.title,
    );
  });
});

describe('the timeline workbook', () => {
  it('lists every booking of people once, in local time', async () => {
    const book = await load(await timelineWorkbook(plan));
    const pieces = plan.jobs.flatMap(({ phases }) =>
      phases.flatMap(({ people, pieces: worked }) => people.flatMap(() => worked)),
    );
    const rows = book
      .getWorksheet('People')!
      .getColumn(2)
      .values.filter((value) => value instanceof Date);
    expect(rows).toHaveLength(pieces.length);
    expect(book.worksheets.map(({ name }) => name)).toContain('Week by gear');
  });
});
