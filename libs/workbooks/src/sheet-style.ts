import type { Borders, Fill, Row, Workbook, Worksheet } from 'exceljs';

/** Colours of our own drawing rules. */
export const INK = 'FF10272E';
export const SOFT = 'FF4A5D63';
export const RULE = 'FFC9D3D1';
export const CHILLER = 'FF0F5E73';
/** Behind figures: light enough to read them. */
export const CHILLER_TINT = 'FF9CC5CF';
export const CYLINDER = 'FFF3DDA6';
export const CYLINDER_LINE = 'FF8A5A00';
export const ATTENDED = 'FFDCE7E6';
export const CAUTION = 'FFA11457';

export const FACE = 'Carlito';

export const solid = (argb: string): Fill => ({ type: 'pattern', pattern: 'solid', fgColor: { argb } });
/** Cylinders are hatched, never told by colour alone. */
export const hatched: Fill = {
  type: 'pattern',
  pattern: 'lightUp',
  fgColor: { argb: CYLINDER_LINE },
  bgColor: { argb: CYLINDER },
};

export const hairline: Partial<Borders> = { bottom: { style: 'thin', color: { argb: RULE } } };
export const heavyLine: Partial<Borders> = { top: { style: 'medium', color: { argb: INK } } };

/** A fresh workbook that names the project alone and bears no clock of its own. */
export async function newWorkbook(title: string): Promise<Workbook> {
  const { default: excel } = await import('exceljs');
  const book = new excel.Workbook();
  book.creator = 'Brimline';
  book.title = title;
  book.calcProperties.fullCalcOnLoad = true;
  return book;
}

interface SheetFacts {
  readonly name: string;
  readonly widths: readonly number[];
  readonly landscape?: boolean;
  readonly footer: string;
}

/** A sheet that prints on pages of its own width, with its name and page in the foot. */
export function addSheet(book: Workbook, { name, widths, landscape = false, footer }: SheetFacts): Worksheet {
  const sheet = book.addWorksheet(name, {
    pageSetup: {
      orientation: landscape ? 'landscape' : 'portrait',
      fitToPage: true,
      fitToWidth: 1,
      fitToHeight: 0,
      margins: { left: 0.5, right: 0.5, top: 0.5, bottom: 0.6, header: 0.2, footer: 0.3 },
    },
    headerFooter: { oddFooter: `&L&8${footer.replaceAll('&', '&&')}&R&8${name}, page &P of &N` },
    views: [{ showGridLines: false }],
  });
  sheet.columns = widths.map((width) => ({
    width,
    style: { font: { name: FACE, size: 11, color: { argb: INK } } },
  }));
  return sheet;
}

export function addTitle(sheet: Worksheet, title: string, under: readonly string[]): void {
  const row = sheet.addRow([title]);
  row.font = { name: FACE, size: 18, color: { argb: INK } };
  row.height = 26;
  for (const text of under) {
    const line = sheet.addRow([text]);
    line.font = { name: FACE, size: 10, color: { argb: SOFT } };
  }
  sheet.addRow([]);
}

export function addHeading(
  sheet: Worksheet,
  cells: readonly string[],
  rightFrom = Number.POSITIVE_INFINITY,
): void {
  const row = sheet.addRow([...cells]);
  row.font = { name: FACE, size: 10, bold: true, color: { argb: INK } };
  row.eachCell((cell, column) => {
    cell.border = { bottom: { style: 'medium', color: { argb: INK } } };
    cell.alignment = {
      horizontal: column >= rightFrom ? 'right' : 'left',
      wrapText: true,
      vertical: 'bottom',
    };
  });
}

/** A paragraph over several columns; its height follows its length. */
export function addParagraph(sheet: Worksheet, text: string, columns: number, argb = INK): void {
  const row = sheet.addRow([text]);
  sheet.mergeCells(row.number, 1, row.number, columns);
  const width = Array.from({ length: columns }, (_, index) => sheet.getColumn(index + 1).width ?? 10).reduce(
    (a, b) => a + b,
    0,
  );
  row.getCell(1).alignment = { wrapText: true, vertical: 'top' };
  row.font = { name: FACE, size: 11, color: { argb } };
  row.height = 15 * Math.max(1, Math.ceil(text.length / (width * 1.05)));
}

/** Wraps the cells from a column on, and makes the row as high as its longest text. */
export function wrapFrom(row: Row, column: number): void {
  let lines = 1;
  row.eachCell((cell, index) => {
    cell.border = hairline;
    cell.alignment = {
      vertical: 'top',
      wrapText: index >= column,
      ...(typeof cell.value === 'string' ? { indent: index === 1 ? 0 : 1 } : {}),
    };
    const width = row.worksheet.getColumn(index).width ?? 10;
    if (index >= column && typeof cell.value === 'string')
      lines = Math.max(lines, Math.ceil(cell.value.length / (width * 1.05 - 1)));
  });
  row.height = 15 * lines;
}

/** The number format of a currency with two decimals. */
export function moneyFormat(currency: string): string {
  return `#,##0.00" ${currency}"`;
}
