import type { PlannedJob, WeekPlan } from '@brimline/planning';
import { decimalsOf } from '@brimline/quantities';
import type { Row, Workbook, Worksheet } from 'exceljs';
import {
  addHeading,
  addSheet,
  addTitle,
  ATTENDED,
  CAUTION,
  face,
  majorUnits,
  makeTotal,
  moneyFormat,
  printArea,
  solid,
  spanText,
  underline,
} from './sheet-style.ts';

type Quote = PlannedJob['quote'];
type Group = Quote['lines'][number]['group'];

const GROUPS: Readonly<Record<Group, string>> = {
  labour: 'Labour',
  travel: 'Travel',
  gear: 'Gear',
  cylinders: 'Cylinders',
  refrigerant: 'Refrigerant',
  consumables: 'Consumables',
  permits: 'Permits',
};

const COLUMNS = 6;
const [QUANTITY, EACH, COST] = [3, 5, 6] as const;

/** Names by which the offer of the same workbook reads its amounts. */
export const PRICE_NAMES = { beforeTax: 'PriceBeforeTax', tax: 'Tax' } as const;

/** The office's page: every line, subtotal and total a live formula; change a shaded cell and the price follows. */
export function addCostSheet(book: Workbook, job: PlannedJob, plan: WeekPlan): void {
  const { quote } = job;
  const sheet = addSheet(book, {
    name: 'Cost',
    widths: [14, 42, 11, 11, 16, 16],
    header: `${plan.firm.name}, internal`,
    footer: `Cost of job ${job.id}, internal`,
  });
  addTitle(sheet, `Cost of job ${job.id}`, [
    `Internal, not for customers. Rate card ${quote.rateCardId}, good until ${quote.goodUntil}.`,
    'Shaded cells may be changed; everything else follows.',
    ...(plan.firm.notice === '' ? [] : [plan.firm.notice]),
  ]);
  const heading = addHeading(
    sheet,
    ['Group', 'Line', 'Quantity', 'Unit', `Cost of one, ${quote.currency}`, `Cost, ${quote.currency}`],
    [QUANTITY, EACH, COST],
  );
  const lines = new CostLines(sheet, quote);
  lines.addGroups();
  lines.addTotals(job.id);
  for (const text of quote.unpriced)
    spanText(sheet.addRow([]), 1, COLUMNS, `Not in this cost: ${text}; the rate card has none.`, CAUTION);
  printArea(sheet, 1, COLUMNS);
  sheet.pageSetup.printTitlesRow = `${heading.number}:${heading.number}`;
  sheet.views = [{ state: 'frozen', ySplit: heading.number, showGridLines: false }];
}

/** Rows of the cost, each with a formula and the same amount as the quote. */
class CostLines {
  private readonly format: string;
  private readonly decimals: number;
  /** Cells of the subtotals. */
  private readonly subtotals: string[] = [];
  private labourRate = '0';

  constructor(
    private readonly sheet: Worksheet,
    private readonly quote: Quote,
  ) {
    this.format = moneyFormat(quote.currency);
    this.decimals = decimalsOf(quote.currency);
  }

  addGroups(): void {
    for (const group of Object.keys(GROUPS) as Group[]) {
      const lines = this.quote.lines.filter((line) => line.group === group);
      if (lines.length > 0) this.addGroup(group, lines);
    }
  }

  addTotals(jobId: string): void {
    const { quote } = this;
    const direct = this.total('Direct cost', this.subtotals.join('+') || '0', quote.directCost.minorUnits, {
      name: 'DirectCost',
    });
    const overheadRow = this.sheet.rowCount + 1;
    const overhead = this.total(
      'Overhead, share of direct cost',
      this.rounded(`${direct}*E${overheadRow}`),
      quote.overhead.minorUnits,
      { share: quote.overheadShare },
    );
    const contingency = this.addContingency();
    const cost = this.total('Cost', `${direct}+${overhead}+${contingency}`, quote.cost.minorUnits, {
      name: 'Cost',
    });
    const marginRow = this.sheet.rowCount + 1;
    this.total('Margin, share of the price', `F${marginRow + 1}-${cost}`, quote.margin.minorUnits, {
      share: quote.marginShare,
    });
    const before = this.total(
      'Price before tax',
      this.rounded(`${cost}/(1-E${marginRow})`),
      quote.priceBeforeTax.minorUnits,
      { name: PRICE_NAMES.beforeTax },
    );
    const taxRow = this.sheet.rowCount + 1;
    const tax = this.total(
      'Tax, share of the price',
      this.rounded(`${before}*E${taxRow}`),
      quote.tax.minorUnits,
      {
        share: quote.taxShare,
        name: PRICE_NAMES.tax,
      },
    );
    this.total(`Price of job ${jobId}`, `${before}+${tax}`, quote.price.minorUnits, { name: 'Price' });
  }

  private rounded(formula: string): string {
    return `ROUND(${formula},${this.decimals})`;
  }

  private addGroup(group: Group, lines: Quote['lines']): void {
    const first = this.sheet.rowCount + 1;
    for (const line of lines) {
      const row = this.sheet.addRow([GROUPS[group], line.text, line.quantity, line.unit]);
      this.price(row, line.unitCost_minor, line.cost.minorUnits);
    }
    const last = this.sheet.rowCount;
    const subtotal = last > first ? this.addSubtotal(group, lines, first, last) : `F${first}`;
    this.subtotals.push(subtotal);
    if (group === 'labour') {
      const hours = `SUM(C${first}:C${last})`;
      this.labourRate = `IF(${hours}>0,${this.rounded(`${subtotal}/${hours}`)},0)`;
    }
  }

  private addSubtotal(group: Group, lines: Quote['lines'], first: number, last: number): string {
    const row = this.sheet.addRow(['', `${GROUPS[group]}, together`]);
    const minorUnits = lines.reduce((sum, { cost }) => sum + cost.minorUnits, 0);
    row.getCell(COST).value = { formula: `SUM(F${first}:F${last})`, result: this.major(minorUnits) };
    row.getCell(COST).numFmt = this.format;
    underline(row, COLUMNS);
    for (const column of [2, COST]) row.getCell(column).font = face(10, undefined, true);
    return `F${row.number}`;
  }

  /** Quantity times the cost of one, rounded once. */
  private price(row: Row, unitCost_minor: number, cost_minor: number): void {
    row.getCell(EACH).value = this.major(unitCost_minor);
    this.finish(row, cost_minor);
    row.getCell(EACH).fill = solid(ATTENDED);
  }

  private finish(row: Row, cost_minor: number): void {
    row.getCell(COST).value = {
      formula: this.rounded(`C${row.number}*E${row.number}`),
      result: this.major(cost_minor),
    };
    row.getCell(QUANTITY).numFmt = '#,##0.00';
    row.getCell(EACH).numFmt = this.format;
    row.getCell(COST).numFmt = this.format;
    underline(row, COLUMNS);
    row.getCell(QUANTITY).fill = solid(ATTENDED);
  }

  private addContingency(): string {
    const { contingencyHours, contingencyRate_minor, contingency } = this.quote;
    const row = this.sheet.addRow([
      '',
      'Contingency, P80 less planned attended hours',
      contingencyHours,
      'h',
    ]);
    row.getCell(EACH).value = { formula: this.labourRate, result: this.major(contingencyRate_minor) };
    this.finish(row, contingency.minorUnits);
    return `F${row.number}`;
  }

  private total(
    label: string,
    formula: string,
    minorUnits: number,
    { share, name }: { readonly share?: number; readonly name?: string },
  ): string {
    const row = this.sheet.addRow(['', label]);
    row.getCell(COST).value = { formula, result: this.major(minorUnits) };
    row.getCell(COST).numFmt = this.format;
    if (share === undefined) makeTotal(row, COLUMNS);
    else {
      underline(row, COLUMNS);
      row.getCell(EACH).value = share;
      row.getCell(EACH).numFmt = '0.00 %';
      row.getCell(EACH).fill = solid(ATTENDED);
    }
    if (name !== undefined) this.sheet.workbook.definedNames.add(`Cost!$F$${row.number}`, name);
    return `F${row.number}`;
  }

  private major(minorUnits: number): number {
    return majorUnits(minorUnits, this.quote.currency);
  }
}
