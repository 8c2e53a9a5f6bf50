import { decimalsOf } from '@brimline/quantities';
import type { Borders, Cell, Fill, Row, Workbook, Worksheet } from 'exceljs';

/** Colours of our own drawing rules. */
export const INK = 'FF10272E';
export const SOFT = 'FF4A5D63';
export const RULE = 'FFC9D3D1';
export const EDGE = 'FF6F8085';
export const WHITE = 'FFFFFFFF';
export const CHILLER = 'FF0F5E73';
export const CYLINDER = 'FFF3DDA6';
export const CYLINDER_LINE = 'FF8A5A00';
export const ATTENDED = 'FFDCE7E6';
export const HOLD = 'FFE9EEED';
export const FREEZING = 'FF2B5FA8';
export const CAUTION = 'FFA11457';

/** On every desk, or with a twin of the same widths there. */
const FACE = 'Arial';

export const solid = (argb: string): Fill => ({ type: 'pattern', pattern: 'solid', fgColor: { argb } });
export const face = (size: number, argb = INK, bold = false): { name: string } & Record<string, unknown> => ({
  name: FACE,
  size,
  bold,
  color: { argb },
});

const hairline: Partial<Borders> = { bottom: { style: 'thin', color: { argb: RULE } } };
const heavyLine: Partial<Borders> = { top: { style: 'medium', color: { argb: INK } } };

/** A fresh workbook that names the project alone and bears no clock of its own. */
export async function newWorkbook(title: string): Promise<Workbook> {
  const { default: excel } = await import('exceljs');
  const book = new excel.Workbook();
  book.creator = 'Brimline';
  book.title = title;
  book.calcProperties.fullCalcOnLoad = true;
  return book;
}

/** @param epoch the plan's, so that the same plan bears the same dates whenever it is written */
export async function bytesOf(book: Workbook, epoch: string): Promise<Uint8Array> {
  book.created = new Date(epoch);
  book.modified = new Date(epoch);
  return new Uint8Array(await book.xlsx.writeBuffer());
}

export interface SheetFacts {
  readonly name: string;
  readonly widths: readonly number[];
  readonly landscape?: boolean;
  /** Pages side by side; 1 unless given. */
  readonly pagesWide?: number;
  /** Shrink to one page in height too. */
  readonly onePage?: boolean;
  readonly header: string;
  readonly footer: string;
}

/** An ampersand is a command in a header, and a long header breaks the file. */
const headerText = (text: string): string => text.slice(0, 180).replaceAll('&', '&&');

/** A sheet that prints on pages of its own width, with its name and page in the foot. */
export function addSheet(book: Workbook, facts: SheetFacts): Worksheet {
  const { name, widths, landscape = false, pagesWide = 1, onePage = false, header, footer } = facts;
  const sheet = book.addWorksheet(name, {
    pageSetup: {
      orientation: landscape ? 'landscape' : 'portrait',
      fitToPage: true,
      fitToWidth: pagesWide,
      fitToHeight: onePage ? 1 : 0,
      margins: { left: 0.5, right: 0.5, top: 0.6, bottom: 0.6, header: 0.25, footer: 0.3 },
    },
    headerFooter: {
      oddHeader: `&L&8 ${headerText(header)}`,
      oddFooter: `&L&8 ${headerText(footer)}&R&8 ${name}, page &P of &N`,
    },
    views: [{ showGridLines: false }],
  });
  sheet.columns = widths.map((width) => ({ width, style: { font: face(10) } }));
  return sheet;
}

export function addTitle(sheet: Worksheet, title: string, under: readonly string[]): void {
  const row = sheet.addRow([title]);
  row.getCell(1).font = face(18);
  row.height = 28;
  for (const text of under) sheet.addRow([text]).getCell(1).font = face(9, SOFT);
  sheet.addRow([]).height = 8;
}

/** A row of heads over a heavy line; numbers stand at the right, and so do their heads. */
export function addHeading(sheet: Worksheet, cells: readonly string[], right: readonly number[] = []): Row {
  const row = sheet.addRow([...cells]);
  for (let column = 1; column <= cells.length; column += 1) {
    const cell = row.getCell(column);
    cell.font = face(9, INK, true);
    cell.border = { bottom: { style: 'medium', color: { argb: INK } } };
    cell.alignment = {
      ...(right.includes(column)
        ? { horizontal: 'right' as const }
        : { horizontal: 'left' as const, indent: column > 1 ? 1 : 0 }),
      wrapText: cells.length > 1 && cells[column] !== '',
      vertical: 'bottom',
    };
  }
  return row;
}

function eachColumn(row: Row, columns: number, style: (cell: Cell, column: number) => void): void {
  for (let column = 1; column <= columns; column += 1) style(row.getCell(column), column);
}

/** Letters that fit one width unit of a column, less what words lose at a line's end. */
const LETTERS_PER_UNIT = 1.15;
const LINE_PT = 13;

const linesOf = (text: string, width: number): number =>
  Math.max(1, Math.ceil(text.length / (width * LETTERS_PER_UNIT)));

/** A hairline under a row of a table; text that follows a number stands off from it, wrapped text makes room. */
export function underline(row: Row, columns: number, wrapped: readonly number[] = []): void {
  let lines = 1;
  eachColumn(row, columns, (cell, column) => {
    cell.border = hairline;
    // Merged cells share one style: only the first of them may say how the text stands.
    if (cell.master !== cell) return;
    const isText = typeof cell.value === 'string' && cell.alignment?.horizontal !== 'right';
    const wrapText = wrapped.includes(column);
    cell.alignment = {
      ...cell.alignment,
      ...(isText && column > 1 ? { horizontal: 'left', indent: 1 } : {}),
      vertical: 'top',
      wrapText,
    };
    if (isText && wrapText && !cell.isMerged)
      lines = Math.max(lines, linesOf(cell.value as string, row.worksheet.getColumn(column).width ?? 9));
  });
  if (lines > 1) row.height = Math.max(row.height ?? 0, LINE_PT * lines + 2);
}

/** A sum: bold, under a heavy line. */
export function makeTotal(row: Row, columns: number, size = 10): void {
  eachColumn(row, columns, (cell) => {
    cell.font = face(size, INK, true);
    cell.border = heavyLine;
  });
}

/** Text over several columns of one row; merged cells don't grow by themselves, so the height follows the length. */
export function spanText(row: Row, from: number, to: number, text: string, argb = INK): void {
  const { worksheet } = row;
  let width = 0;
  for (let column = from; column <= to; column += 1) width += worksheet.getColumn(column).width ?? 9;
  if (to > from) worksheet.mergeCells(row.number, from, row.number, to);
  const cell = row.getCell(from);
  cell.value = text;
  cell.font = face(10, argb);
  cell.alignment = { wrapText: true, vertical: 'top' };
  row.height = Math.max(row.height ?? 0, LINE_PT * linesOf(text, width) + 2);
}

/** Number format of a currency's amounts; the head of the column names the currency. */
export function moneyFormat(currency: string): string {
  const decimals = decimalsOf(currency);
  return decimals === 0 ? '#,##0' : `#,##0.${'0'.repeat(decimals)}`;
}

/** Whole minor units as the number that a cell shows. */
export const majorUnits = (minorUnits: number, currency: string): number =>
  minorUnits / 10 ** decimalsOf(currency);

/** Prints from a row to the last one. The library writes the dollar before a column itself, but not before a row. */
export function printArea(sheet: Worksheet, firstRow: number, columns: number): void {
  sheet.pageSetup.printArea = `A$${firstRow}:${sheet.getColumn(columns).letter}$${sheet.rowCount}`;
}
