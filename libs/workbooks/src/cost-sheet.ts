import type { PlannedJob, WeekPlan } from '@brimline/planning';
import type { Workbook, Worksheet } from 'exceljs';
import { addHeading, addSheet, addTitle, FACE, hairline, heavyLine, moneyFormat } from './sheet-style.ts';

const GROUPS: Readonly<Record<PlannedJob['quote']['lines'][number]['group'], string>> = {
  labour: 'Labour',
  travel: 'Travel',
  gear: 'Gear',
  cylinders: 'Cylinders',
  refrigerant: 'Refrigerant',
  consumables: 'Consumables',
  permits: 'Permits',
};

/** The office's page: every line and total a live formula; change a quantity or a rate and the price follows. */
export function addCostSheet(book: Workbook, job: PlannedJob, plan: WeekPlan): void {
  const sheet = addSheet(book, {
    name: 'Cost',
    widths: [16, 40, 12, 12, 16, 18],
    footer: `${plan.firm.name}, job ${job.id}, internal`,
  });
  const { quote } = job;
  const format = moneyFormat(quote.currency);
  addTitle(sheet, `Cost of job ${job.id}`, [
    `Internal. Rate card ${quote.rateCardId}; amounts in ${quote.currency}.`,
  ]);
  addHeading(sheet, ['Group', 'Line', 'Quantity', 'Unit', 'Cost of one', 'Cost'], 3);
  const first = sheet.rowCount + 1;
  for (const line of quote.lines) {
    const row = sheet.addRow([
      GROUPS[line.group],
      line.text,
      line.quantity,
      line.unit,
      line.unitCost_minor / 100,
    ]);
    row.getCell(6).value = {
      formula: `ROUND(C${row.number}*E${row.number},2)`,
      result: line.cost.minorUnits / 100,
    };
    row.getCell(3).numFmt = '#,##0.00';
    row.getCell(4).alignment = { horizontal: 'right' };
    row.getCell(5).numFmt = format;
    row.getCell(6).numFmt = format;
    for (let column = 1; column <= 6; column += 1) row.getCell(column).border = hairline;
  }
  addTotals(sheet, job, first, sheet.rowCount, format);
  sheet.pageSetup.printArea = `A1:F${sheet.rowCount}`;
  sheet.views = [{ state: 'frozen', ySplit: first - 1, showGridLines: false }];
}

function addTotals(
  sheet: Worksheet,
  { quote, id }: PlannedJob,
  first: number,
  last: number,
  format: string,
): void {
  const total = (
    label: string,
    input: number | null,
    formula: string,
    minorUnits: number,
    name?: string,
  ): string => {
    const row = sheet.addRow(['', label, '', '', input ?? '']);
    row.getCell(6).value = { formula, result: minorUnits / 100 };
    row.getCell(6).numFmt = format;
    if (input !== null) row.getCell(5).numFmt = '0.00 %';
    if (name) sheet.workbook.definedNames.add(`Cost!$F$${row.number}`, name);
    return `F${row.number}`;
  };
  const heavy = (): void => {
    const row = sheet.lastRow!;
    row.font = { name: FACE, size: 11, bold: true };
    for (let column = 1; column <= 6; column += 1) row.getCell(column).border = heavyLine;
  };
  const direct = total(
    'Direct cost',
    null,
    `SUM(F${first}:F${last})`,
    quote.directCost.minorUnits,
    'DirectCost',
  );
  heavy();
  const overhead = total(
    'Overhead',
    quote.overheadShare,
    `ROUND(${direct}*E${sheet.rowCount + 1},2)`,
    quote.overhead.minorUnits,
  );
  const hours = sheet.addRow([
    '',
    'Contingency, P80 less P50 of attended hours',
    quote.contingencyHours,
    'h',
    quote.contingencyRate_minor / 100,
  ]);
  hours.getCell(3).numFmt = '#,##0.00';
  hours.getCell(4).alignment = { horizontal: 'right' };
  hours.getCell(5).numFmt = format;
  hours.getCell(6).numFmt = format;
  hours.getCell(6).value = {
    formula: `ROUND(C${hours.number}*E${hours.number},2)`,
    result: quote.contingency.minorUnits / 100,
  };
  const cost = total('Cost', null, `${direct}+${overhead}+F${hours.number}`, quote.cost.minorUnits, 'Cost');
  heavy();
  const marginRow = sheet.rowCount + 1;
  total(
    'Margin, share of the price',
    quote.marginShare,
    `F${marginRow + 1}-${cost}`,
    quote.margin.minorUnits,
  );
  const before = total(
    'Price before tax',
    null,
    `ROUND(${cost}/(1-E${marginRow}),2)`,
    quote.priceBeforeTax.minorUnits,
    'PriceBeforeTax',
  );
  heavy();
  const tax = total('Tax', quote.taxShare, `ROUND(${before}*E${sheet.rowCount + 1},2)`, quote.tax.minorUnits);
  total(`Price of job ${id}`, null, `${before}+${tax}`, quote.price.minorUnits, 'Price');
  heavy();
}
