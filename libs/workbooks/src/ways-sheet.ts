import type { PlannedJob, WeekPlan } from '@brimline/planning';
import type { Workbook } from 'exceljs';
import { addHeading, addSheet, addTitle, face, underline } from './sheet-style.ts';

const COLUMNS = 8;

/** The ways to do it side by side, and what forbids the others. */
export function addWaysSheet(book: Workbook, job: PlannedJob, plan: WeekPlan): void {
  const sheet = addSheet(book, {
    name: 'Ways',
    widths: [52, 9, 11, 11, 11, 12, 30, 48],
    landscape: true,
    header: `${plan.firm.name}, internal`,
    footer: `Ways to do job ${job.id}, internal`,
  });
  addTitle(sheet, `Ways to do job ${job.id}`, ["The recommendation is the estimate's, the choice is yours."]);
  const heading = addHeading(
    sheet,
    [
      'Way',
      'Chosen',
      'Liquid out, min',
      'Liquid in, min',
      'Elapsed, h',
      'Attended, person-h',
      'Limited by',
      'Forbidden because',
    ],
    [3, 4, 5, 6],
  );
  for (const way of job.estimate.ways) {
    const isAllowed = way.forbidden.length === 0;
    const row = sheet.addRow([
      way.label,
      way.chosen ? 'yes' : '',
      ...(isAllowed
        ? [
            way.liquidRecovery_s / 60,
            way.liquidRecharge_s / 60,
            way.elapsed_s / 3600,
            way.attended_person_s / 3600,
          ]
        : ['', '', '', '']),
      isAllowed ? way.limitedBy : '',
      way.forbidden.join('; '),
    ]);
    for (const [column, format] of [
      [3, '0'],
      [4, '0'],
      [5, '0.0'],
      [6, '0.0'],
    ] as const)
      row.getCell(column).numFmt = format;
    underline(row, COLUMNS, [1, 7, 8]);
    if (way.chosen) row.eachCell((cell) => (cell.font = face(10, undefined, true)));
  }
  sheet.pageSetup.printTitlesRow = `${heading.number}:${heading.number}`;
  sheet.views = [{ state: 'frozen', ySplit: heading.number, showGridLines: false }];
}
