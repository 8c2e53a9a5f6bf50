import type { PlannedJob, WeekPlan } from '@brimline/planning';
import { fromSi, STANDARD_ATMOSPHERE_PA } from '@brimline/quantities';
import type { Workbook } from 'exceljs';
import { addHeading, addSheet, addTitle, CHILLER_TINT, CYLINDER } from './sheet-style.ts';

const pounds = (mass_kg: number): number => Math.round(fromSi(mass_kg, 'mass', 'lb') * 100) / 100;

/** Pounds against time on the job's own clock: the numbers behind the charge curve, with bars for the eye. */
export function addCurveSheet(book: Workbook, job: PlannedJob, plan: WeekPlan): void {
  const { curve } = job.estimate;
  const widths = [12, 26, 16, 12, ...curve.cylinders.map(() => 14), 14, 14];
  const sheet = addSheet(book, {
    name: 'Charge curve',
    widths,
    landscape: true,
    footer: `${plan.firm.name}, job ${job.id}`,
  });
  addTitle(sheet, `Charge curve of job ${job.id}`, [
    'Working clock from arrival; nights and waiting left out. Masses in lb, gauge pressure against a standard atmosphere.',
  ]);
  addHeading(
    sheet,
    [
      'Hours',
      'Step',
      'In the chiller, lb',
      'In transit, lb',
      ...curve.cylinders.map(({ id }) => `${id}, lb`),
      'Sum, lb',
      'Pressure, psig',
    ],
    3,
  );
  const first = sheet.rowCount + 1;
  for (const point of curve.points) {
    const step = curve.steps.find(({ from_s, to_s }) => point.time_s >= from_s && point.time_s <= to_s);
    const masses = [point.chiller_kg, point.transit_kg, ...point.cylinder_kg].map(pounds);
    const row = sheet.addRow([point.time_s / 3600, step?.title ?? '', ...masses]);
    const lastMass = row.getCell(2 + masses.length);
    const sum = masses.reduce((total, mass) => total + mass, 0);
    row.getCell(3 + masses.length).value = {
      formula: `SUM(C${row.number}:${lastMass.address})`,
      result: Math.round(sum * 100) / 100,
    };
    row.getCell(4 + masses.length).value = fromSi(
      point.pressure_Pa - STANDARD_ATMOSPHERE_PA,
      'gauge pressure',
      'psig',
    );
    row.getCell(1).numFmt = '0.00';
    for (let column = 3; column <= 4 + masses.length; column += 1) row.getCell(column).numFmt = '#,##0.0';
  }
  const bar = (column: number, argb: string): void => {
    const letter = sheet.getColumn(column).letter;
    sheet.addConditionalFormatting({
      ref: `${letter}${first}:${letter}${sheet.rowCount}`,
      rules: [
        {
          type: 'dataBar',
          priority: column,
          gradient: false,
          cfvo: [{ type: 'num', value: 0 }, { type: 'max' }],
          color: { argb },
        } as never,
      ],
    });
  };
  bar(3, CHILLER_TINT);
  for (const [index] of curve.cylinders.entries()) bar(5 + index, CYLINDER);
  sheet.views = [{ state: 'frozen', ySplit: first - 1, xSplit: 2, showGridLines: false }];
}
