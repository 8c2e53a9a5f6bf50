import type { WeekPlan } from '@brimline/planning';
import type { Workbook } from 'exceljs';
import type { Lane, LaneUse } from './lanes.ts';
import { CLOCK_FORMAT, localCell } from './local-dates.ts';
import { addHeading, addSheet, addTitle, underline } from './sheet-style.ts';

const COLUMNS = 9;
const [STARTS, ENDS, HOURS] = [2, 3, 4] as const;

const WORDS: Readonly<Record<LaneUse['use'], string>> = {
  attended: 'attended',
  watched: 'watched',
  unattended: 'needs nobody',
  held: 'held',
  travel: 'travel',
  'clean-out': 'clean-out',
};

/** Every use of every lane on a row of its own, to sort and filter. */
export function addWeekList(
  book: Workbook,
  plan: WeekPlan,
  { name, what, lanes }: { readonly name: string; readonly what: string; readonly lanes: readonly Lane[] },
): void {
  const sheet = addSheet(book, {
    name,
    widths: [30, 18, 18, 9, 9, 28, 14, 34, 20],
    landscape: true,
    header: plan.firm.name,
    footer: `${name} from ${plan.planFrom}`,
  });
  addTitle(sheet, `${name} from ${plan.planFrom}`, [
    'Times are on the clock that the last column names.',
    ...(plan.firm.notice === '' ? [] : [plan.firm.notice]),
  ]);
  const heading = addHeading(
    sheet,
    [what, 'Starts', 'Ends', 'Hours', 'Job', 'Site', 'Manner', 'Step', 'Clock'],
    [HOURS],
  );
  for (const { label, uses } of lanes) {
    for (const { job, title, use, start, end, timeZone } of uses) {
      const row = sheet.addRow([
        label,
        localCell(start, timeZone),
        localCell(end, timeZone),
        (Date.parse(end) - Date.parse(start)) / 3_600_000,
        job?.id ?? '',
        job?.site.name ?? '',
        WORDS[use],
        title,
        timeZone,
      ]);
      for (const column of [STARTS, ENDS]) {
        row.getCell(column).numFmt = CLOCK_FORMAT;
        row.getCell(column).alignment = { horizontal: 'left', indent: 1 };
      }
      row.getCell(HOURS).numFmt = '0.00';
      underline(row, COLUMNS, [6, 8]);
    }
  }
  sheet.autoFilter = {
    from: { row: heading.number, column: 1 },
    to: { row: Math.max(heading.number, sheet.rowCount), column: COLUMNS },
  };
  sheet.pageSetup.printTitlesRow = `${heading.number}:${heading.number}`;
  sheet.views = [{ state: 'frozen', xSplit: 1, ySplit: heading.number, showGridLines: false }];
}
