import type { WeekPlan } from '@brimline/planning';
import { localText } from '@brimline/planning';
import type { Row, Workbook, Worksheet } from 'exceljs';
import { type Lane, type LaneUse, zoneOf } from './lanes.ts';
import { drawManner } from './manner-cell.ts';
import {
  addSheet,
  addTitle,
  ATTENDED,
  CYLINDER,
  EDGE,
  face,
  INK,
  printArea,
  RULE,
  SOFT,
  solid,
  WHITE,
} from './sheet-style.ts';

const HOUR_MS = 3_600_000;
const FIRST = 2;
/** Hours that fit the width of a printed page. */
const HOURS_A_PAGE = 72;
/** Lanes that a page can hold and still be read. */
const LANES_A_PAGE = 40;
const RIBBON_PT = 7;
const LABEL_PT = 14;

const LEGEND = 'Solid: attended. | watched. · needs nobody. / cylinder held. > travel. x clean-out.';

interface Grid {
  readonly from_ms: number;
  readonly hours: number;
  readonly timeZone: string;
}

/** The week as one column an hour: a ribbon of who is needed over a band with the job's number, for each lane. */
export function addWeekGrid(book: Workbook, plan: WeekPlan, name: string, lanes: readonly Lane[]): void {
  const grid = gridOf(plan, lanes);
  const sheet = addSheet(book, {
    name,
    widths: [27, ...Array.from({ length: grid.hours }, () => 2.2)],
    landscape: true,
    pagesWide: Math.max(1, Math.ceil(grid.hours / HOURS_A_PAGE)),
    onePage: lanes.length <= LANES_A_PAGE,
    header: `${name} from ${plan.planFrom}, ${plan.firm.name}`,
    footer: `Clock of ${grid.timeZone}. ${LEGEND}`,
  });
  addTitle(sheet, `${name} from ${plan.planFrom}`, [
    ...(plan.firm.notice === '' ? [] : [plan.firm.notice]),
    `One column an hour, clock of ${grid.timeZone}. ${LEGEND} Where two meet in one hour, the longer is drawn.`,
  ]);
  const last = addClock(sheet, grid);
  for (const lane of lanes) addLane(sheet, grid, lane);
  sheet.views = [{ state: 'frozen', xSplit: 1, ySplit: last, showGridLines: false }];
  // The title stands in the header of every page: on the sheet it would be cut at the repeated column.
  printArea(sheet, last - 1, FIRST + grid.hours - 1);
  sheet.pageSetup.printTitlesColumn = 'A:A';
  sheet.pageSetup.printTitlesRow = `${last - 1}:${last}`;
}

function gridOf(plan: WeekPlan, lanes: readonly Lane[]): Grid {
  const uses = lanes.flatMap((lane) => lane.uses);
  const start_ms = Math.min(Date.parse(plan.epoch), ...uses.map(({ start }) => Date.parse(start)));
  const from_ms = Math.floor(start_ms / HOUR_MS) * HOUR_MS;
  const end_ms = Math.max(from_ms + 24 * HOUR_MS, ...uses.map(({ end }) => Date.parse(end)));
  return { from_ms, hours: Math.ceil((end_ms - from_ms) / HOUR_MS), timeZone: zoneOf(plan) };
}

/** Two rows of heads; the number of the last is returned. */
function addClock(sheet: Worksheet, { from_ms, hours, timeZone }: Grid): number {
  const days = sheet.addRow([]);
  const clock = sheet.addRow([]);
  for (let hour = 0; hour < hours; hour += 1) {
    const instant = new Date(from_ms + hour * HOUR_MS).toISOString();
    const text = localText(instant, timeZone, 'HH');
    const cell = clock.getCell(FIRST + hour);
    if (Number(text) % 3 === 0) cell.value = text;
    cell.font = face(7, SOFT);
    cell.border = {
      bottom: { style: 'medium', color: { argb: INK } },
      ...(text === '00' ? { left: { style: 'thin', color: { argb: EDGE } } } : {}),
    };
    if (text === '00' || text === '12' || hour === 0) {
      const day = days.getCell(FIRST + hour);
      day.value = localText(instant, timeZone, 'EEE d MMM');
      day.font = face(9, text === '12' ? SOFT : INK, text !== '12');
    }
  }
  return clock.number;
}

function addLane(sheet: Worksheet, grid: Grid, { label, uses }: Lane): void {
  const ribbon = sheet.addRow([]);
  ribbon.height = RIBBON_PT;
  const band = sheet.addRow([label]);
  band.height = LABEL_PT;
  band.getCell(1).font = face(9);
  band.getCell(1).border = { bottom: { style: 'thin', color: { argb: RULE } } };
  const drawn = Array.from({ length: grid.hours }, (_, hour) =>
    longestUse(uses, grid.from_ms + hour * HOUR_MS),
  );
  for (const hour of drawn.keys()) drawHour(ribbon, band, hour, drawn);
  markDays(grid, [ribbon, band]);
}

/** The use that takes most of an hour. */
function longestUse(uses: readonly LaneUse[], hour_ms: number): LaneUse | null {
  let best: LaneUse | null = null;
  let most_ms = 0;
  for (const use of uses) {
    const shared_ms =
      Math.min(hour_ms + HOUR_MS, Date.parse(use.end)) - Math.max(hour_ms, Date.parse(use.start));
    if (shared_ms > most_ms) [best, most_ms] = [use, shared_ms];
  }
  return best;
}

function drawHour(ribbon: Row, band: Row, hour: number, drawn: readonly (LaneUse | null)[]): void {
  const below = band.getCell(FIRST + hour);
  below.border = { bottom: { style: 'thin', color: { argb: RULE } } };
  const use = drawn[hour] ?? null;
  if (use === null) return;
  drawManner(ribbon.getCell(FIRST + hour), use.use);
  if (use.job === null) return;
  below.fill = solid(use.use === 'held' ? CYLINDER : use.use === 'unattended' ? WHITE : ATTENDED);
  if (use.job.id === drawn[hour - 1]?.job?.id) return;
  below.value = use.job.id;
  below.font = face(8);
  const next = drawn[hour + 1]?.job?.id;
  if (next !== undefined && next !== use.job.id) below.alignment = { shrinkToFit: true };
}

/** A line at every local midnight. */
function markDays({ from_ms, hours, timeZone }: Grid, rows: readonly Row[]): void {
  for (let hour = 0; hour < hours; hour += 1) {
    if (localText(new Date(from_ms + hour * HOUR_MS).toISOString(), timeZone, 'HH') !== '00') continue;
    for (const row of rows) {
      const cell = row.getCell(FIRST + hour);
      cell.border = { ...cell.border, left: { style: 'thin', color: { argb: EDGE } } };
    }
  }
}
