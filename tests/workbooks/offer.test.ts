import { offerWorkbook, quoteWorkbook } from '@brimline/workbooks';
import { describe, expect, it } from 'vitest';
import { weekPlan } from '../support/week-plan.ts';
import { cellsOf, loadWorkbook } from '../support/workbook-cells.ts';
import { zipEntries } from '../support/zip-entries.ts';

const plan = weekPlan();
const job = plan.jobs[0]!;
const { quote } = job;

/** Every amount and share that a customer must not learn, in each way in which it could be written. */
const amounts = new Map<string, number>([
  ['direct cost', quote.directCost.minorUnits / 100],
  ['overhead', quote.overhead.minorUnits / 100],
  ['contingency', quote.contingency.minorUnits / 100],
  ['contingency an hour', quote.contingencyRate_minor / 100],
  ['cost', quote.cost.minorUnits / 100],
  ['margin', quote.margin.minorUnits / 100],
  ['share of overhead', quote.overheadShare],
  ['share of margin', quote.marginShare],
  ['percent of overhead', quote.overheadShare * 100],
  ['percent of margin', quote.marginShare * 100],
  ...quote.lines.flatMap(({ text, unitCost_minor, cost }): [string, number][] => [
    [`cost of one, ${text}`, unitCost_minor / 100],
    [`cost, ${text}`, cost.minorUnits / 100],
  ]),
]);
const writtenAs = (value: number): string[] => [
  String(value),
  value.toFixed(2),
  value.toLocaleString('en-US', { minimumFractionDigits: 2 }),
  String(Math.round(value * 100) / 100),
];
const WORDS = /margin(?!s|>)|overhead|contingenc|markup(?!-comp)|invented-card|cost(?!ing)/i;

/** Secrets that stand anywhere in a file: cells, cached results, names, properties, headers. */
function secretsIn(bytes: Uint8Array): Set<string> {
  const text = [...zipEntries(bytes).values()].join('\n');
  const numbers = new Set(text.match(/(?<![\d.,A-Za-z#-])\d[\d,]*(?:\.\d+)?(?![\d.])/g));
  return new Set(
    [...amounts]
      .filter(([, value]) => writtenAs(value).some((one) => numbers.has(one)))
      .map(([name]) => name),
  );
}

describe("the customer's copy", () => {
  it('holds no cost, rate, share or margin anywhere in the file', async () => {
    const bytes = await offerWorkbook(job, plan);
    expect([...secretsIn(bytes)]).toEqual([]);
    const book = await loadWorkbook(bytes);
    expect(book.worksheets.map(({ name, state }) => [name, state])).toEqual([['Offer', 'visible']]);
    expect(book.definedNames.model.filter(({ name }) => !name.startsWith('_xlnm'))).toEqual([]);
    for (const [address, cell] of cellsOf(book)) expect(cell.text, address).not.toMatch(WORDS);
    for (const [name, text] of zipEntries(bytes))
      if (/^docProps|workbook\.xml$|sharedStrings/.test(name)) expect(text, name).not.toMatch(WORDS);
  });

  it("would not pass with the office's copy: all of it is found there", async () => {
    const found = secretsIn(await quoteWorkbook(job, plan));
    const notWritten = new Set(['percent of overhead', 'percent of margin']);
    expect([...amounts.keys()].filter((name) => !found.has(name) && !notWritten.has(name))).toEqual([]);
  });

  it('carries what the customer must know: price, validity, invented data, cautions and who decides', async () => {
    const texts = [...cellsOf(await loadWorkbook(await offerWorkbook(job, plan))).values()].map(
      ({ text }) => text,
    );
    const has = (pattern: RegExp): boolean => texts.some((text) => pattern.test(text));
    expect(has(/^Invented data for tests\.$/)).toBe(true);
    expect(has(/^Good until 20 November 2026\./)).toBe(true);
    expect(has(/^The price of R-134a lapses on 2026-11-20, before the work is due\.$/)).toBe(true);
    expect(has(/^Lock and tag power\.$/)).toBe(true);
    expect(
      texts.filter((text) => text.includes('Local code and the licensed technician decide.')),
    ).toHaveLength(1);
    expect(has(/72 °F \(22 °C\)/)).toBe(true);
    expect(texts).toContain(String(quote.price.minorUnits / 100));
  });

  it('says nothing of invented data where the firm says nothing', async () => {
    const real = { ...plan, firm: { name: 'Some Firm', notice: '' } };
    const texts = [...cellsOf(await loadWorkbook(await offerWorkbook(job, real))).values()].map(
      ({ text }) => text,
    );
    expect(texts.some((text) => /invented data/i.test(text))).toBe(false);
  });
});
