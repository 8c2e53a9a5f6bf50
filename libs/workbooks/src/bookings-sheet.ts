import type { PlannedJob, WeekPlan } from '@brimline/planning';
import type { Workbook } from 'exceljs';
import { CLOCK_FORMAT, localCell } from './local-dates.ts';
import { addHeading, addSheet, addTitle, underline } from './sheet-style.ts';

const COLUMNS = 7;

/** When each step is booked, in the site's time. */
export function addBookingsSheet(book: Workbook, job: PlannedJob, plan: WeekPlan): void {
  const sheet = addSheet(book, {
    name: 'Booked',
    widths: [28, 19, 19, 15, 30, 40, 26],
    landscape: true,
    header: `${plan.firm.name}, internal`,
    footer: `Bookings of job ${job.id}, internal`,
  });
  addTitle(sheet, `Bookings of job ${job.id}`, [`${job.site.name}, clock of ${job.site.timeZone}.`]);
  const heading = addHeading(sheet, [
    'Step',
    'Starts',
    'Ends',
    'Who is needed',
    'People',
    'Gear',
    'Cylinders',
  ]);
  const nameOf = (id: string): string => plan.people.find((person) => person.id === id)?.name ?? id;
  for (const phase of job.phases) {
    const row = sheet.addRow([
      phase.title,
      localCell(phase.start, job.site.timeZone),
      localCell(phase.end, job.site.timeZone),
      phase.manner === 'unattended' ? 'nobody' : phase.manner,
      phase.people.map(nameOf).join(', '),
      phase.gear.join(', '),
      phase.cylinders.join(', '),
    ]);
    for (const column of [2, 3]) {
      row.getCell(column).numFmt = CLOCK_FORMAT;
      row.getCell(column).alignment = { horizontal: 'left', indent: 1 };
    }
    underline(row, COLUMNS, [5, 6, 7]);
  }
  sheet.pageSetup.printTitlesRow = `${heading.number}:${heading.number}`;
  sheet.views = [{ state: 'frozen', xSplit: 1, ySplit: heading.number, showGridLines: false }];
}
