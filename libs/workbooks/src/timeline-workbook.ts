import type { WeekPlan } from '@brimline/planning';
import type { Workbook } from 'exceljs';
import { type Lane, lanesOf } from './lanes.ts';
import { addHeading, addSheet, addTitle, bytesOf, newWorkbook, underline } from './sheet-style.ts';
import { addWeekGrid } from './week-grid-sheet.ts';
import { addWeekList } from './week-list-sheet.ts';

/** The week by person, by gear and by cylinder: a drawn grid of hours and a list for each. */
export async function timelineWorkbook(plan: WeekPlan): Promise<Uint8Array> {
  const book = await newWorkbook(`Timeline from ${plan.planFrom}`);
  const { people, gear, cylinders } = lanesOf(plan);
  const used = (lanes: readonly Lane[]): Lane[] => lanes.filter(({ uses }) => uses.length > 0);
  addWeekGrid(book, plan, 'Week by person', people);
  addWeekGrid(book, plan, 'Week by gear', used(gear));
  addWeekGrid(book, plan, 'Week by cylinder', used(cylinders));
  addWeekList(book, plan, { name: 'People', what: 'Person', lanes: people });
  addWeekList(book, plan, { name: 'Gear', what: 'Unit', lanes: gear });
  addWeekList(book, plan, { name: 'Cylinders', what: 'Cylinder', lanes: cylinders });
  addRefusals(book, plan);
  return bytesOf(book, plan.epoch);
}

const COLUMNS = 4;

function addRefusals(book: Workbook, plan: WeekPlan): void {
  const sheet = addSheet(book, {
    name: 'Not planned',
    widths: [10, 36, 26, 80],
    landscape: true,
    header: plan.firm.name,
    footer: `Not planned, from ${plan.planFrom}`,
  });
  const count = plan.refused.length;
  addTitle(sheet, 'Jobs that are not planned, and why', count === 0 ? ['Every job is planned.'] : []);
  const heading = addHeading(sheet, ['Job', 'Work', 'Reason', 'In words']);
  for (const { id, title, reasons } of plan.refused) {
    for (const { code, message } of reasons) {
      underline(sheet.addRow([id, title, code.replaceAll('-', ' '), message]), COLUMNS, [2, 3, 4]);
    }
  }
  sheet.pageSetup.printTitlesRow = `${heading.number}:${heading.number}`;
}
