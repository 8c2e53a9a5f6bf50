import type { PlannedJob, WeekPlan } from '@brimline/planning';
import type { Workbook } from 'exceljs';
import { pounds, psig } from './measures.ts';
import { addHeading, addSheet, addTitle, underline } from './sheet-style.ts';

/** The numbers behind the charge curve, one row a point; every row adds up to the brim. */
export function addCurveNumbersSheet(book: Workbook, job: PlannedJob, plan: WeekPlan): void {
  const { curve } = job.estimate;
  const heads = [
    'Minutes',
    'Step',
    'In the chiller, lb',
    'In transit, lb',
    ...curve.cylinders.map(({ id }) => `${id}, lb`),
    'Together, lb',
    'Pressure, psig',
  ];
  const columns = heads.length;
  const sumColumn = columns - 1;
  const sheet = addSheet(book, {
    name: 'Curve numbers',
    widths: heads.map((_, index) => (index === 1 ? 30 : 14)),
    landscape: true,
    header: plan.firm.name,
    footer: `Charge curve of job ${job.id}`,
  });
  addTitle(sheet, `Charge curve of job ${job.id}, numbers`, [
    'Working clock from arrival: nights and waiting left out. Gauge pressure against a standard atmosphere.',
  ]);
  const heading = addHeading(
    sheet,
    heads,
    heads.flatMap((_, index) => (index === 1 ? [] : [index + 1])),
  );
  for (const { time_s, chiller_kg, transit_kg, cylinder_kg, pressure_Pa } of curve.points) {
    const step = curve.steps.find(({ from_s, to_s }) => time_s >= from_s && time_s <= to_s);
    const masses = [chiller_kg, transit_kg, ...cylinder_kg].map(pounds);
    const row = sheet.addRow([time_s / 60, step?.title ?? '', ...masses]);
    row.getCell(sumColumn).value = {
      formula: `SUM(C${row.number}:${sheet.getColumn(sumColumn - 1).letter}${row.number})`,
      result: Math.round(masses.reduce((sum, mass) => sum + mass, 0) * 100) / 100,
    };
    row.getCell(columns).value = psig(pressure_Pa);
    for (let column = 3; column <= columns; column += 1) row.getCell(column).numFmt = '#,##0.0';
    row.getCell(1).numFmt = '#,##0.0';
    underline(row, columns);
  }
  sheet.pageSetup.printTitlesRow = `${heading.number}:${heading.number}`;
  sheet.views = [{ state: 'frozen', ySplit: heading.number, xSplit: 2, showGridLines: false }];
}
