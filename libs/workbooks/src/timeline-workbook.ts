import type { BookedPhase, PlannedJob, WeekPlan } from '@brimline/planning';
import { localText } from '@brimline/planning';
import type { Cell, Fill, Workbook } from 'exceljs';
import { CLOCK_FORMAT, localCell } from './local-dates.ts';
import {
  addHeading,
  addSheet,
  addTitle,
  ATTENDED,
  CHILLER,
  FACE,
  hairline,
  hatched,
  INK,
  newWorkbook,
  SOFT,
  solid,
} from './sheet-style.ts';

interface Use {
  readonly job: PlannedJob;
  readonly title: string;
  readonly manner: BookedPhase['manner'] | 'held';
  readonly start: string;
  readonly end: string;
}

interface Lane {
  readonly id: string;
  readonly label: string;
  readonly timeZone: string;
  readonly uses: readonly Use[];
}

const HOUR_MS = 3_600_000;

function usesOf(plan: WeekPlan, takes: (phase: BookedPhase) => boolean, inPieces: boolean): Use[] {
  return plan.jobs
    .flatMap((job) =>
      job.phases.filter(takes).flatMap((phase) => {
        const spans = inPieces ? phase.pieces : [{ start: phase.start, end: phase.end }];
        return spans.map(({ start, end }): Use => ({
          job,
          title: phase.title,
          manner: phase.manner,
          start,
          end,
        }));
      }),
    )
    .toSorted((a, b) => a.start.localeCompare(b.start));
}

function cylinderUses(plan: WeekPlan, id: string): Use[] {
  return plan.jobs
    .filter((job) => job.cylindersHeld !== null && job.cylinders.includes(id))
    .map((job): Use => ({
      job,
      title: 'held',
      manner: 'held',
      start: job.cylindersHeld!.start,
      end: job.cylindersHeld!.end,
    }))
    .toSorted((a, b) => a.start.localeCompare(b.start));
}

/** The week by person, by gear and by cylinder: a grid of hours and a list for each. */
export async function timelineWorkbook(plan: WeekPlan): Promise<Uint8Array> {
  const book = await newWorkbook(`Timeline from ${plan.planFrom}`);
  const zone = plan.people[0]?.timeZone ?? 'UTC';
  const people = plan.people.map(({ id, name, grade, timeZone }): Lane => ({
    id,
    label: `${name}, ${grade}`,
    timeZone,
    uses: usesOf(plan, (phase) => phase.people.includes(id), true),
  }));
  const gear = plan.gear.map(({ id, kind }): Lane => ({
    id,
    label: `${id}, ${kind}`,
    timeZone: zone,
    uses: usesOf(plan, (phase) => phase.gear.includes(id), false),
  }));
  const cylinders = plan.cylinders.map(({ id }): Lane => ({
    id,
    label: id,
    timeZone: zone,
    uses: cylinderUses(plan, id),
  }));
  addGrid(book, plan, 'Week by person', people);
  addList(book, plan, 'People', 'Person', people);
  addGrid(
    book,
    plan,
    'Week by gear',
    gear.filter(({ uses }) => uses.length > 0),
  );
  addList(book, plan, 'Gear', 'Unit', gear);
  addList(book, plan, 'Cylinders', 'Cylinder', cylinders);
  addRefusals(book, plan);
  book.created = new Date(plan.epoch);
  book.modified = new Date(plan.epoch);
  return new Uint8Array(await book.xlsx.writeBuffer());
}

const titleLines = (plan: WeekPlan): string[] => [
  plan.firm.name,
  ...(plan.firm.notice === '' ? [] : [plan.firm.notice]),
];

function addList(book: Workbook, plan: WeekPlan, name: string, what: string, lanes: readonly Lane[]): void {
  const sheet = addSheet(book, {
    name,
    widths: [34, 20, 20, 10, 30, 13, 28, 20],
    landscape: true,
    footer: plan.firm.name,
  });
  addTitle(sheet, `${name} from ${plan.planFrom}`, titleLines(plan));
  addHeading(sheet, [what, 'Starts', 'Ends', 'Job', 'Site', 'Manner', 'Step', 'Clock']);
  for (const { label, uses, timeZone } of lanes) {
    for (const { job, title, manner, start, end } of uses) {
      const row = sheet.addRow([
        label,
        localCell(start, timeZone),
        localCell(end, timeZone),
        job.id,
        job.site.name,
        manner,
        title,
        timeZone,
      ]);
      row.getCell(2).numFmt = CLOCK_FORMAT;
      row.getCell(3).numFmt = CLOCK_FORMAT;
      row.eachCell((cell) => {
        cell.border = hairline;
      });
    }
  }
  sheet.autoFilter = {
    from: { row: titleLines(plan).length + 3, column: 1 },
    to: { row: titleLines(plan).length + 3, column: 8 },
  };
}

/** One column an hour; attended solid, watched hatched, needing nobody left light, told by pattern and by words. */
function addGrid(book: Workbook, plan: WeekPlan, name: string, lanes: readonly Lane[]): void {
  const from = Date.parse(plan.epoch);
  const end = Math.max(...plan.jobs.flatMap(({ phases }) => phases.map((phase) => Date.parse(phase.end))));
  const hours = Math.ceil((end - from) / HOUR_MS);
  const zone = plan.people[0]?.timeZone ?? 'UTC';
  const sheet = addSheet(book, {
    name,
    widths: [30, ...Array.from({ length: hours }, () => 2.6)],
    landscape: true,
    footer: plan.firm.name,
  });
  addTitle(sheet, `${name} from ${plan.planFrom}`, [
    ...titleLines(plan),
    `One column an hour, clock of ${zone}. Solid: attended. Hatched: watched. Light: needs nobody.`,
  ]);
  const days = sheet.addRow(['']);
  const clock = sheet.addRow(['']);
  for (let hour = 0; hour < hours; hour += 1) {
    const instant = new Date(from + hour * HOUR_MS).toISOString();
    const text = localText(instant, zone, 'HH');
    clock.getCell(2 + hour).value = Number(text);
    clock.getCell(2 + hour).font = { name: FACE, size: 7, color: { argb: SOFT } };
    if (text === '00' || hour === 0) days.getCell(2 + hour).value = localText(instant, zone, 'EEE d MMM');
    days.getCell(2 + hour).font = { name: FACE, size: 9, bold: true, color: { argb: INK } };
  }
  for (const { label, uses } of lanes) {
    const row = sheet.addRow([label]);
    row.getCell(1).border = hairline;
    for (const use of uses) {
      const first = Math.floor((Date.parse(use.start) - from) / HOUR_MS);
      const last = Math.ceil((Date.parse(use.end) - from) / HOUR_MS);
      for (let hour = first; hour < last; hour += 1) paint(row.getCell(2 + hour), use, hour === first);
    }
  }
  sheet.views = [{ state: 'frozen', xSplit: 1, ySplit: sheet.rowCount - lanes.length, showGridLines: false }];
  sheet.pageSetup.printTitlesColumn = 'A:A';
}

const FILLS: Readonly<Record<Use['manner'], Fill>> = {
  attended: solid(CHILLER),
  watched: hatched,
  unattended: solid(ATTENDED),
  held: hatched,
};

function paint(cell: Cell, { job, manner }: Use, isFirst: boolean): void {
  cell.fill = FILLS[manner];
  if (!isFirst) return;
  cell.value = job.id;
  cell.font = { name: FACE, size: 7, color: { argb: manner === 'attended' ? 'FFFFFFFF' : INK } };
}

function addRefusals(book: Workbook, plan: WeekPlan): void {
  const sheet = addSheet(book, {
    name: 'Not planned',
    widths: [10, 40, 26, 100],
    landscape: true,
    footer: plan.firm.name,
  });
  addTitle(sheet, 'Jobs that are not planned, and why', []);
  addHeading(sheet, ['Job', 'Work', 'Reason', 'In words']);
  for (const { id, title, reasons } of plan.refused) {
    for (const { code, message } of reasons) {
      sheet.addRow([id, title, code.replaceAll('-', ' '), message]).getCell(4).alignment = {
        wrapText: true,
        vertical: 'top',
      };
    }
  }
}
