import type { PlannedJob, WeekPlan } from '@brimline/planning';
import type { Workbook, Worksheet } from 'exceljs';
import { addHeading, addSheet, addTitle, face, makeTotal, SOFT, underline } from './sheet-style.ts';

const HOUR_S = 3600;
const COLUMNS = 10;
const [PLANNED, PERSONS, ATTENDED_H, LIMIT, FORMULA] = [6, 7, 8, 9, 10] as const;

/** The spans of every step, who attends it, and why it takes as long. */
export function addHoursSheet(book: Workbook, job: PlannedJob, plan: WeekPlan): void {
  const sheet = addSheet(book, {
    name: 'Hours',
    widths: [28, 15, 9, 9, 9, 10, 9, 11, 30, 46],
    landscape: true,
    header: `${plan.firm.name}, internal`,
    footer: `Hours of job ${job.id}, internal`,
  });
  addTitle(sheet, `Hours of job ${job.id}`, [
    'Low, likely and high are about P5, mode and P95 of one step; planned is its median, and what the bookings hold.',
  ]);
  const heading = addHeading(
    sheet,
    [
      'Step',
      'Who is needed',
      'Low, h',
      'Likely, h',
      'High, h',
      'Planned, h',
      'Persons',
      'Attended, h',
      'Limited by',
      'Formula',
    ],
    [3, 4, 5, PLANNED, PERSONS, ATTENDED_H],
  );
  const first = sheet.rowCount + 1;
  for (const { title, manner, elapsed, planned_s, crew, reason } of job.estimate.phases) {
    const row = sheet.addRow([
      title,
      manner === 'unattended' ? 'nobody' : manner,
      elapsed.low_s / HOUR_S,
      elapsed.likely_s / HOUR_S,
      elapsed.high_s / HOUR_S,
      planned_s / HOUR_S,
      crew,
    ]);
    row.getCell(ATTENDED_H).value = {
      formula: `F${row.number}*G${row.number}`,
      result: (planned_s / HOUR_S) * crew,
    };
    row.getCell(LIMIT).value = reason.limitedBy ?? '';
    row.getCell(FORMULA).value = reason.formula;
    for (const column of [3, 4, 5, PLANNED, ATTENDED_H]) row.getCell(column).numFmt = '0.00';
    underline(row, COLUMNS, [LIMIT, FORMULA]);
  }
  addSums(sheet, job, first, sheet.rowCount);
  sheet.pageSetup.printTitlesRow = `${heading.number}:${heading.number}`;
  sheet.views = [{ state: 'frozen', xSplit: 1, ySplit: heading.number, showGridLines: false }];
}

function addSums(sheet: Worksheet, { estimate }: PlannedJob, first: number, last: number): void {
  const planned_h = estimate.phases.reduce((sum, { planned_s }) => sum + planned_s, 0) / HOUR_S;
  const attended_h = estimate.phases.reduce((sum, { planned_s, crew }) => sum + planned_s * crew, 0) / HOUR_S;
  const total = sheet.addRow(['Together']);
  for (const [column, result] of [
    [PLANNED, planned_h],
    [ATTENDED_H, attended_h],
  ] as const) {
    const letter = sheet.getColumn(column).letter;
    total.getCell(column).value = { formula: `SUM(${letter}${first}:${letter}${last})`, result };
    total.getCell(column).numFmt = '0.00';
  }
  makeTotal(total, COLUMNS);
  sheet.addRow([]);
  addHeading(
    sheet,
    ['Of the whole job', '', '', '', '', 'Elapsed, h', '', 'Attended, h'],
    [PLANNED, ATTENDED_H],
  );
  for (const [label, key] of [
    ['P50: half of such jobs take less', 'p50_s'],
    ['P80: four in five take less', 'p80_s'],
    ['P90: nine in ten take less', 'p90_s'],
  ] as const) {
    const row = sheet.addRow([label]);
    row.getCell(PLANNED).value = estimate.elapsed[key] / HOUR_S;
    row.getCell(ATTENDED_H).value = estimate.attended[key] / HOUR_S;
    for (const column of [PLANNED, ATTENDED_H]) row.getCell(column).numFmt = '0.00';
    underline(row, ATTENDED_H);
  }
  sheet
    .addRow([
      `Sampled ${estimate.samples} times, seed ${estimate.seed}. Percentiles of steps don't add up to those of the job.`,
    ])
    .getCell(1).font = face(9, SOFT);
}
