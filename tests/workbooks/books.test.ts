import { offerWorkbook, quoteWorkbook, timelineWorkbook } from '@brimline/workbooks';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RATE_CARD, weekPlan } from '../support/week-plan.ts';
import { cellsOf, loadWorkbook } from '../support/workbook-cells.ts';

describe('the quote workbook', () => {
  it('has a sheet for each question, and names for its totals', async () => {
    const plan = weekPlan();
    const job = plan.jobs[0]!;
    const book = await loadWorkbook(await quoteWorkbook(job, plan));
    expect(book.worksheets.map(({ name }) => name)).toEqual([
      'Offer',
      'Cost',
      'Charge curve',
      'Ways',
      'Hours',
      'Booked',
      'Curve numbers',
    ]);
    const named = (name: string): unknown => {
      const [sheet, address] = book.definedNames.getRanges(name).ranges[0]!.split('!') as [string, string];
      return book.getWorksheet(sheet)!.getCell(address.replaceAll('$', '')).result;
    };
    expect(named('DirectCost')).toBe(job.quote.directCost.minorUnits / 100);
    expect(named('Cost')).toBe(job.quote.cost.minorUnits / 100);
    expect(named('PriceBeforeTax')).toBe(job.quote.priceBeforeTax.minorUnits / 100);
    expect(named('Tax')).toBe(job.quote.tax.minorUnits / 100);
    expect(named('Price')).toBe(job.price.minorUnits / 100);
  });

  it('has a formula for every amount: none but quantities, rates and shares is typed in', async () => {
    const plan = weekPlan();
    const book = await loadWorkbook(await quoteWorkbook(plan.jobs[0]!, plan));
    const typed = book
      .getWorksheet('Cost')!
      .getColumn(6)
      .values.filter((value) => typeof value === 'number');
    expect(typed).toEqual([]);
    const offer = book
      .getWorksheet('Offer')!
      .getColumn(4)
      .values.map((value) => (value as { formula?: string })?.formula);
    expect(offer.filter(Boolean)).toEqual(['PriceBeforeTax', 'Tax', expect.stringMatching(/^D\d+\+D\d+$/)]);
  });

  it('says in the office what the card has no rate for, and nowhere else', async () => {
    const plan = weekPlan();
    const cells = cellsOf(await loadWorkbook(await quoteWorkbook(plan.jobs[0]!, plan)));
    const places = [...cells]
      .filter(([, { text }]) => text.includes('day rate of a heater'))
      .map(([at]) => at);
    expect(places).toEqual([expect.stringMatching(/^Cost!/)]);
  });

  it('draws a curve whose stack is the sum of the ledger', async () => {
    const plan = weekPlan();
    const sheet = (await loadWorkbook(await quoteWorkbook(plan.jobs[0]!, plan))).getWorksheet(
      'Curve numbers',
    )!;
    const sums = sheet.getColumn(8).values.map((value) => (value as { result?: number })?.result);
    // By hand: 240 lb and 11 lb in a cylinder from stock, less 2 lb that stay as vapour.
    expect([...new Set(sums.filter((one) => one !== undefined))]).toEqual([251, 249]);
  });
});

describe('amounts', () => {
  it('have the decimals of their currency', async () => {
    const plan = weekPlan({ rateCard: { ...RATE_CARD, currency: 'JPY' } });
    const job = plan.jobs[0]!;
    const cells = [...cellsOf(await loadWorkbook(await offerWorkbook(job, plan))).values()];
    const price = cells.find(({ value }) => value === job.quote.priceBeforeTax.minorUnits);
    expect(price?.numFmt).toBe('#,##0');
  });
});

describe('text that a person typed', () => {
  const hostile = fc.constantFrom(
    '=HYPERLINK("http://elsewhere.example","win")',
    '=1+1',
    '+1-2',
    '-2+3',
    '@SUM(A1)',
    '\t=1+1',
    'A & B <c> "d" \'e\' 24',
    '24/7 & more',
    'bell \u0007 and null \u0000',
    '&R&"Wingdings"x',
    'é 冷 ❄',
  );

  it('stays text in every workbook, and the file can be read', async () => {
    await fc.assert(
      fc.asyncProperty(hostile, async (typed) => {
        const plan = weekPlan({ typed });
        // XML can't carry control characters; they are left out.
        // oxlint-disable-next-line no-control-regex
        const kept = typed.replaceAll(/[\u0000-\u0008]/g, '');
        const writers = [quoteWorkbook, offerWorkbook].map((write) => () => write(plan.jobs[0]!, plan));
        for (const write of [...writers, () => timelineWorkbook(plan)]) {
          const cells = [...cellsOf(await loadWorkbook(await write())).values()];
          expect(cells.filter(({ value }) => value === kept).length).toBeGreaterThan(0);
          for (const { formula } of cells) expect(formula ?? '').not.toMatch(/HYPERLINK|1\+1|1-2|2\+3|A1\b/);
        }
      }),
      { numRuns: 11 },
    );
  });

  it('cannot command a header', async () => {
    const plan = weekPlan({ typed: '24 & Sons &P' });
    const book = await loadWorkbook(await offerWorkbook(plan.jobs[0]!, plan));
    expect(book.worksheets[0]!.headerFooter.oddHeader).toBe('&L&8 24 && Sons &&P');
  });
});

describe('the timeline workbook', () => {
  it('lists every piece of work once, on the clock of its site', async () => {
    const plan = weekPlan();
    const book = await loadWorkbook(await timelineWorkbook(plan));
    const rows = (name: string): unknown[][] => {
      const found: unknown[][] = [];
      book.getWorksheet(name)!.eachRow((row) => {
        if (row.getCell(2).value instanceof Date) found.push((row.values as unknown[]).slice(1));
      });
      return found;
    };
    const pieces = plan.jobs.flatMap(({ phases }) =>
      phases.flatMap(({ people, pieces: worked }) => people.flatMap(() => worked)),
    );
    expect(rows('People')).toHaveLength(pieces.length + plan.passages.length);
    // By hand: 20:00 UTC is 15:00 in Chicago on 31 October; cells hold the wall clock as if it were UTC.
    expect(rows('People')[1]!.slice(1, 3)).toEqual([
      new Date('2026-10-31T15:00:00Z'),
      new Date('2026-10-31T16:30:00Z'),
    ]);
    // By hand: nine hours across the night in which 01:59 is followed by 01:00 again.
    const evacuation = rows('Gear').find((row) => row[7] === 'evacuation')!;
    expect(evacuation.slice(1, 4)).toEqual([
      new Date('2026-11-01T01:30:00Z'),
      new Date('2026-11-01T09:30:00Z'),
      9,
    ]);
    expect(evacuation[8]).toBe('America/Chicago');
    expect(rows('Cylinders')).toHaveLength(3);
  });

  it('tells attended from watched by a sign, not by colour alone', async () => {
    const plan = weekPlan();
    const sheet = (await loadWorkbook(await timelineWorkbook(plan))).getWorksheet('Week by person')!;
    const lane = sheet.getColumn(1).values.indexOf('Ada Invented, lead') - 1;
    // By hand: the grid begins at local midnight, 05:00 UTC; arrival 15:00, vapour recovery 17:30 to 19:30.
    const at = (hour: number) => sheet.getRow(lane).getCell(2 + hour);
    expect([at(14), at(15), at(18), at(20)].map(({ value }) => value)).toEqual(['>', null, '|', null]);
    expect(at(15).fill).toMatchObject({ pattern: 'solid', fgColor: { argb: 'FF10272E' } });
    expect(at(20).fill).toEqual({ type: 'pattern', pattern: 'none' });
    expect(sheet.getRow(lane + 1).getCell(2 + 15).value).toBe('7101');
  });

  it('says why a job is not planned', async () => {
    const book = await loadWorkbook(await timelineWorkbook(weekPlan()));
    const texts = [...cellsOf(book)]
      .filter(([at]) => at.startsWith('Not planned!'))
      .map(([, { text }]) => text);
    expect(texts).toContain('the nameplate cannot be read');
  });
});
