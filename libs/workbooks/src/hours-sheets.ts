import type { PlannedJob, WeekPlan } from '@brimline/planning';
import { localText } from '@brimline/planning';
import type { Workbook } from 'exceljs';
import { addHeading, addSheet, addTitle, FACE, heavyLine, wrapFrom } from './sheet-style.ts';

/** The three clocks of every step, with the reason of its span. */
export function addHoursSheet(book: Workbook, job: PlannedJob, plan: WeekPlan): void {
  const sheet = addSheet(book, {
    name: 'Hours',
    widths: [26, 13, 11, 11, 11, 11, 11, 11, 34, 40],
    landscape: true,
    footer: `${plan.firm.name}, job ${job.id}, internal`,
  });
  addTitle(sheet, `Hours of job ${job.id}`, ['Low, likely and high are about P5, mode and P95 of one step.']);
  addHeading(
    sheet,
    [
      'Step',
      'Manner',
      'Low, h',
      'Likely, h',
      'High, h',
      'Planned, h',
      'Persons',
      'Attended, h',
      'Limited by',
      'Formula',
    ],
    3,
  );
  const first = sheet.rowCount + 1;
  for (const phase of job.estimate.phases) {
    const { low_s, likely_s, high_s } = phase.elapsed;
    const row = sheet.addRow([
      phase.title,
      phase.manner,
      low_s / 3600,
      likely_s / 3600,
      high_s / 3600,
      phase.planned_s / 3600,
      phase.crew,
    ]);
    row.getCell(8).value = {
      formula: `F${row.number}*G${row.number}`,
      result: (phase.planned_s / 3600) * phase.crew,
    };
    row.getCell(9).value = phase.reason.limitedBy ?? '';
    row.getCell(10).value = phase.reason.formula;
    for (const column of [3, 4, 5, 6, 8]) row.getCell(column).numFmt = '0.00';
    wrapFrom(row, 9);
  }
  const last = sheet.rowCount;
  const total = sheet.addRow(['Together', '', '', '', '']);
  total.getCell(6).value = { formula: `SUM(F${first}:F${last})`, result: job.hours.elapsed };
  total.getCell(8).value = { formula: `SUM(H${first}:H${last})`, result: job.hours.attended };
  total.font = { name: FACE, size: 11, bold: true };
  for (const column of [6, 8]) total.getCell(column).numFmt = '0.00';
  for (let column = 1; column <= 10; column += 1) total.getCell(column).border = heavyLine;
  sheet.addRow([]);
  for (const [label, hours] of [
    ['P50 of elapsed hours', job.hours.p50],
    ['P80 of elapsed hours', job.hours.p80],
    ['P90 of elapsed hours', job.hours.p90],
  ] as const) {
    sheet.addRow([label, '', '', '', '', hours]).getCell(6).numFmt = '0.00';
  }
  sheet.addRow([
    `Sampled ${job.estimate.samples} times, seed ${job.estimate.seed}; percentiles are never added up.`,
  ]);
}

/** The ways to do it, least person-time first, and what forbids the others. */
export function addWaysSheet(book: Workbook, job: PlannedJob, plan: WeekPlan): void {
  const sheet = addSheet(book, {
    name: 'Ways',
    widths: [52, 9, 10, 10, 10, 11, 26, 40],
    landscape: true,
    footer: `${plan.firm.name}, job ${job.id}, internal`,
  });
  addTitle(sheet, `Ways to do job ${job.id}`, ["The recommendation is the estimate's, the choice is yours."]);
  addHeading(
    sheet,
    [
      'Way',
      'Chosen',
      'Liquid out, min',
      'Liquid in, min',
      'Elapsed, h',
      'Attended, h',
      'Limited by',
      'Forbidden because',
    ],
    3,
  );
  for (const way of job.estimate.ways) {
    const isOpen = way.forbidden.length === 0;
    const row = sheet.addRow([
      way.label,
      way.chosen ? 'yes' : '',
      ...(isOpen
        ? [
            way.liquidRecovery_s / 60,
            way.liquidRecharge_s / 60,
            way.elapsed_s / 3600,
            way.attended_person_s / 3600,
          ]
        : ['', '', '', '']),
      way.limitedBy,
      way.forbidden.join('; '),
    ]);
    wrapFrom(row, 1);
    row.getCell(3).numFmt = '0';
    row.getCell(4).numFmt = '0';
    row.getCell(5).numFmt = '0.0';
    row.getCell(6).numFmt = '0.0';
    if (way.chosen) row.font = { name: FACE, size: 11, bold: true };
  }
}

/** When each step is booked, in the site's time. */
export function addBookingsSheet(book: Workbook, job: PlannedJob, plan: WeekPlan): void {
  const sheet = addSheet(book, {
    name: 'Booked',
    widths: [28, 20, 20, 13, 30, 44],
    landscape: true,
    footer: `${plan.firm.name}, job ${job.id}`,
  });
  addTitle(sheet, `Bookings of job ${job.id}`, [`Times of ${job.site.timeZone}.`]);
  addHeading(sheet, ['Step', 'Starts', 'Ends', 'Manner', 'People', 'Gear']);
  const nameOf = (id: string): string => plan.people.find((person) => person.id === id)?.name ?? id;
  const at = (instant: string): string => localText(instant, job.site.timeZone, 'EEE d MMM HH:mm');
  for (const phase of job.phases) {
    const row = sheet.addRow([
      phase.title,
      at(phase.start),
      at(phase.end),
      phase.manner,
      phase.people.map(nameOf).join(', '),
      phase.gear.join(', '),
    ]);
    wrapFrom(row, 5);
  }
}
