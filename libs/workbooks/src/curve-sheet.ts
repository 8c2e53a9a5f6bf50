import type { PlannedJob, WeekPlan } from '@brimline/planning';
import { formatNumber } from '@brimline/quantities';
import type { Cell, Row, Workbook, Worksheet } from 'exceljs';
import {
  brimOf,
  type CurveColumn,
  type CurveColumns,
  curveAt,
  curveColumns,
  layerAt,
} from './curve-columns.ts';
import { pounds, psig } from './measures.ts';
import { drawManner } from './manner-cell.ts';
import {
  addSheet,
  addTitle,
  ATTENDED,
  CHILLER,
  CYLINDER,
  CYLINDER_LINE,
  EDGE,
  face,
  FREEZING,
  HOLD,
  INK,
  RULE,
  SOFT,
  solid,
} from './sheet-style.ts';

type Curve = PlannedJob['estimate']['curve'];

const MASS_ROWS = 24;
const PRESSURE_ROWS = 12;
const MASS_ROW_PT = 8;
const PRESSURE_ROW_PT = 8;
/** Columns of the picture begin beside the scale. */
const FIRST = 2;
/** Spans of the list beneath, in columns of the picture. */
const LIST = [28, 14, 9, 9, 12, 12] as const;

/** The charge curve, drawn with filled cells: stacked masses over the ribbon of who is needed over the pressure. */
export function addCurveSheet(book: Workbook, job: PlannedJob, plan: WeekPlan): void {
  const { curve } = job.estimate;
  const drawn = curveColumns(curve);
  const width = Math.max(
    drawn.columns.length,
    LIST.reduce((sum, span) => sum + span, 0),
  );
  const sheet = addSheet(book, {
    name: 'Charge curve',
    widths: [11, ...Array.from({ length: width }, () => 1.5)],
    landscape: true,
    onePage: true,
    header: plan.firm.name,
    footer: `Charge curve of job ${job.id}`,
  });
  addTitle(sheet, `Charge curve of job ${job.id}`, [
    `Working clock from arrival: nights and waiting left out. One column is ${formatNumber(drawn.column_s / 60, 0)} min; a white gap is a long span in which no pound moves, folded, with its hours beneath.`,
    `Solid: in the chiller. Hatched: in cylinders, first filled on top (${cylinderNames(curve)}). The heavy line is the brim: everything that the job holds.`,
    'Ribbon: solid is attended, ticked is watched, dotted needs nobody. Numbers on a sheet of their own.',
  ]);
  drawMasses(sheet, curve, drawn.columns);
  drawRibbon(sheet, curve, drawn);
  drawPressure(sheet, curve, drawn.columns);
  listSteps(sheet, curve);
  sheet.views = [{ state: 'frozen', xSplit: 1, ySplit: 0, showGridLines: false }];
}

function cylinderNames({ cylinders }: Curve): string {
  return cylinders.length === 0 ? 'none here' : cylinders.map(({ id }) => id).join(', ');
}

function panelHead(sheet: Worksheet, text: string): void {
  sheet.addRow([text]).getCell(1).font = face(9, INK, true);
}

function scale(row: Row, text: string): void {
  const cell = row.getCell(1);
  cell.value = text;
  cell.font = face(7, SOFT);
  cell.alignment = { horizontal: 'right', vertical: 'bottom' };
}

/** One row of the picture for each slice of mass, from the top down. */
function drawMasses(sheet: Worksheet, curve: Curve, columns: readonly CurveColumn[]): void {
  panelHead(sheet, 'Refrigerant, lb');
  const points = columns.map(({ time_s }) => curveAt(curve, time_s));
  const top_kg = Math.max(curve.nameplate_kg, ...points.map(brimOf));
  const slice_kg = top_kg / MASS_ROWS;
  for (let slice = MASS_ROWS; slice >= 0; slice -= 1) {
    const row = sheet.addRow([]);
    row.height = MASS_ROW_PT;
    if (slice % (MASS_ROWS / 4) === 0) scale(row, formatNumber(pounds(slice * slice_kg), 0));
    for (const [index, { isGap }] of columns.entries()) {
      if (isGap) continue;
      const cell = row.getCell(FIRST + index);
      const layer = layerAt(points[index]!, (slice + 0.5) * slice_kg);
      if (layer?.kind === 'chiller') cell.fill = solid(CHILLER);
      if (layer?.kind === 'transit') sign(cell, '·', CHILLER);
      if (layer?.kind === 'cylinder') hatch(cell, layer.index);
      const below = layerAt(points[index]!, (slice - 0.5) * slice_kg);
      const brimSlice = Math.round(brimOf(points[index]!) / slice_kg);
      if (slice === brimSlice) cell.border = { bottom: { style: 'thick', color: { argb: INK } } };
      else if (layer?.kind === 'cylinder' && below?.kind === 'cylinder' && below.index !== layer.index)
        cell.border = { bottom: { style: 'thin', color: { argb: CYLINDER_LINE } } };
    }
  }
}

function sign(cell: Cell, text: string, argb: string): void {
  cell.value = text;
  cell.font = face(6, argb);
  cell.alignment = { horizontal: 'center', vertical: 'middle' };
}

/** Hatched by a sign in the cell, because not every program draws patterns; neighbours lean the other way. */
function hatch(cell: Cell, index: number): void {
  cell.fill = solid(CYLINDER);
  sign(cell, index % 2 === 0 ? '/' : '\\', CYLINDER_LINE);
}

/** Who is needed, then the number of the step, then the clock. */
function drawRibbon(sheet: Worksheet, curve: Curve, { columns, column_s }: CurveColumns): void {
  const ribbon = sheet.addRow([]);
  ribbon.height = 9;
  const numbers = sheet.addRow(['Step']);
  const clock = sheet.addRow(['Hours']);
  for (const row of [numbers, clock]) {
    scale(row, String(row.getCell(1).value));
    row.height = 11;
  }
  let labelled = Number.NEGATIVE_INFINITY;
  for (const [index, { step, isGap, time_s }] of columns.entries()) {
    const { manner, from_s, to_s } = curve.steps[step]!;
    const before = columns[index - 1];
    drawManner(ribbon.getCell(FIRST + index), manner);
    if (before?.step !== step) label(numbers.getCell(FIRST + index), String(step + 1), INK);
    if (isGap) label(clock.getCell(FIRST + index), `${formatNumber((to_s - from_s) / 3600, 1)} h`, INK);
    else if (
      index - labelled >= 6 &&
      !columns[index + 1]?.isGap &&
      !before?.isGap &&
      !columns[index - 2]?.isGap
    ) {
      label(clock.getCell(FIRST + index), formatNumber((time_s - column_s / 2) / 3600, 1), SOFT);
      labelled = index;
    }
  }
}

function label(cell: Cell, text: string, argb: string): void {
  cell.value = text;
  cell.font = face(7, argb);
  cell.alignment = { horizontal: 'left', vertical: 'middle' };
}

/** Steps that a scale can be read by. */
const NICE_STEPS = [1, 2, 5, 10, 20, 25, 50, 100, 200, 500];

/** Pressure as a line of cells; attended time shaded behind it, watched time more lightly. */
function drawPressure(sheet: Worksheet, curve: Curve, columns: readonly CurveColumn[]): void {
  panelHead(sheet, 'Pressure, psig');
  const values = columns.map(({ time_s }) => psig(curveAt(curve, time_s).pressure_Pa));
  const freezing = curve.freezing === null ? null : psig(curve.freezing.pressure_Pa);
  const extremes = [0, ...values, ...(freezing === null ? [] : [freezing])];
  const [low, high] = [Math.min(...extremes), Math.max(...extremes)];
  const step = NICE_STEPS.find((one) => (high - low) / one <= PRESSURE_ROWS) ?? high - low;
  const floorOf = (value: number): number => Math.floor(value / step);
  for (let level = floorOf(high); level >= floorOf(low); level -= 1) {
    const row = sheet.addRow([]);
    row.height = PRESSURE_ROW_PT;
    const isFreezing = freezing !== null && level === floorOf(freezing);
    if (isFreezing) scale(row, `freezing ${formatNumber(freezing, 0)}`);
    else if (level % 2 === 0) scale(row, formatNumber(level * step, 0));
    for (const [index, { step: at, isGap }] of columns.entries()) {
      if (isGap) continue;
      const cell = row.getCell(FIRST + index);
      const { manner } = curve.steps[at]!;
      if (manner !== 'unattended') cell.fill = solid(manner === 'attended' ? ATTENDED : HOLD);
      if (isFreezing) sign(cell, index % 3 === 2 ? '·' : '–', FREEZING);
      if (level === floorOf(values[index]!)) cell.fill = solid(INK);
      if (level === 0) cell.border = { bottom: { style: 'thin', color: { argb: EDGE } } };
    }
  }
  sheet.addRow([]);
}

/** The steps beneath the picture, by the numbers under its ribbon. */
function listSteps(sheet: Worksheet, curve: Curve): void {
  const put = (values: readonly (string | number)[], isHead: boolean): void => {
    const row = sheet.addRow([values[0]]);
    row.getCell(1).alignment = { horizontal: 'right' };
    let column = FIRST;
    for (const [index, span] of LIST.entries()) {
      sheet.mergeCells(row.number, column, row.number, column + span - 1);
      const cell = row.getCell(column);
      cell.value = values[index + 1]!;
      cell.alignment = index < 2 ? { horizontal: 'left', indent: 1 } : { horizontal: 'right' };
      if (index >= 2) cell.numFmt = index >= 4 ? '#,##0.0' : '0.00';
      column += span;
    }
    for (let at = 1; at < column; at += 1) {
      const cell = row.getCell(at);
      cell.font = face(9, INK, isHead);
      cell.border = {
        bottom: isHead ? { style: 'medium', color: { argb: INK } } : { style: 'thin', color: { argb: RULE } },
      };
    }
  };
  put(['Step', 'What', 'Who is needed', 'From, h', 'To, h', 'In chiller, lb', 'psig at end'], true);
  for (const [index, { title, manner, from_s, to_s }] of curve.steps.entries()) {
    const end = curveAt(curve, to_s);
    put(
      [
        index + 1,
        title,
        manner === 'unattended' ? 'nobody' : manner,
        from_s / 3600,
        to_s / 3600,
        pounds(end.chiller_kg),
        psig(end.pressure_Pa),
      ],
      false,
    );
  }
}
