import excel from 'exceljs';

export async function loadWorkbook(bytes: Uint8Array): Promise<excel.Workbook> {
  const book = new excel.Workbook();
  await book.xlsx.load(bytes as never);
  return book;
}

/** Every cell that holds something, by "Sheet!A1". */
export function cellsOf(book: excel.Workbook): Map<string, excel.Cell> {
  const cells = new Map<string, excel.Cell>();
  book.eachSheet((sheet) =>
    sheet.eachRow((row) =>
      row.eachCell((cell) => {
        if (cell.master === cell) cells.set(`${sheet.name}!${cell.address}`, cell);
      }),
    ),
  );
  return cells;
}
