import type { PlannedJob, WeekPlan } from '@brimline/planning';
import { localText } from '@brimline/planning';
import { formatNumber, fromSi } from '@brimline/quantities';
import type { Workbook } from 'exceljs';
import { usQuantity } from './us-quantity.ts';
import {
  addHeading,
  addParagraph,
  addSheet,
  addTitle,
  CAUTION,
  FACE,
  hairline,
  heavyLine,
  moneyFormat,
  SOFT,
} from './sheet-style.ts';

const SCOPE_WORDS: Readonly<Record<PlannedJob['scope'], string>> = {
  'recover and recharge':
    'Recover the whole charge, stand by for your repair, test with nitrogen, evacuate, weigh the charge back in to the nameplate, start up and check.',
  'top-up': 'Weigh in the missing refrigerant up to the nameplate charge and check the machine running.',
  'recover only': 'Recover the whole charge, weigh and label it, and leave the machine empty.',
  recharge: 'Evacuate the emptied machine, weigh the whole charge in to the nameplate, start up and check.',
  'evacuate and recharge':
    'Test with nitrogen, evacuate, weigh the whole charge in to the nameplate, start up and check.',
};

const NOT_INCLUDED =
  'Not included: the repair itself, water treatment, cranes, electricians, temporary cooling, cleaning after a burn-out, disposal of contaminated refrigerant, standby by others, a failed pressure or rise test.';

/** The customer's page: scope, when, what it rests on, cautions, price. No cost and no margin. */
export function addOfferSheet(book: Workbook, job: PlannedJob, plan: WeekPlan): void {
  const sheet = addSheet(book, {
    name: 'Offer',
    widths: [26, 22, 22, 24],
    footer: `${plan.firm.name}, job ${job.id}`,
  });
  addTitle(sheet, `Offer for job ${job.id}`, [
    plan.firm.name,
    ...(plan.firm.notice === '' ? [] : [plan.firm.notice]),
  ]);
  const fact = (label: string, value: string): void => {
    const row = sheet.addRow([label, value]);
    sheet.mergeCells(row.number, 2, row.number, 4);
    row.getCell(1).font = { name: FACE, size: 10, color: { argb: SOFT } };
    row.getCell(1).alignment = { vertical: 'top' };
    row.getCell(2).alignment = { wrapText: true, vertical: 'top' };
    for (let column = 1; column <= 4; column += 1) row.getCell(column).border = hairline;
    if (value.length > 66) row.height = 15 * Math.ceil(value.length / 66);
  };
  const zone = job.site.timeZone;
  const at = (instant: string): string => localText(instant, zone, 'EEEE d MMMM yyyy, HH:mm');
  fact('Work', job.title);
  fact('Site', job.site.name);
  fact('Machine', `${job.chiller.id}, ${job.chiller.description}`);
  fact(
    'Refrigerant',
    `${job.refrigerant}, nameplate charge ${formatNumber(fromSi(job.charge_kg, 'mass', 'lb'), 0)} lb (${formatNumber(job.charge_kg, 1)} kg)`,
  );
  fact('Scope', SCOPE_WORDS[job.scope]);
  fact('Planned start', at(job.phases[0]!.start));
  fact('Planned end', `${at(job.phases.at(-1)!.end)} (times of ${zone})`);
  fact(
    'Hours of work',
    `${formatNumber(job.hours.elapsed, 1)} h likely, ${formatNumber(job.hours.p80, 1)} h with the usual risk (P80)`,
  );
  sheet.addRow([]);
  addPrice(sheet, job);
  sheet.addRow([]);
  addHeading(sheet, ['What this offer rests on', '', '', '']);
  for (const text of [...job.assumptions.map(assumptionText), ...job.quote.notes, NOT_INCLUDED])
    addParagraph(sheet, text, 4);
  sheet.addRow([]);
  addHeading(sheet, ['Cautions', '', '', '']);
  for (const { text } of job.cautions) addParagraph(sheet, text, 4, CAUTION);
  sheet.pageSetup.printArea = `A1:D${sheet.rowCount}`;
}

function assumptionText({ label, value, unit, effect }: PlannedJob['assumptions'][number]): string {
  return `Assumed: ${label}, ${usQuantity(value, unit)}; ${effect}.`;
}

function addPrice(sheet: ReturnType<typeof addSheet>, { quote }: PlannedJob): void {
  addHeading(sheet, ['Price', '', '', quote.currency], 4);
  const rows: [string, number][] = [
    ['Price before tax', quote.priceBeforeTax.minorUnits],
    [`Tax, ${formatNumber(quote.taxShare * 100, 2)} %`, quote.tax.minorUnits],
  ];
  for (const [label, minorUnits] of rows) {
    const row = sheet.addRow([label, '', '', minorUnits / 100]);
    row.getCell(4).numFmt = moneyFormat(quote.currency);
  }
  const first = sheet.rowCount - 1;
  const total = sheet.addRow([
    'Price',
    '',
    '',
    { formula: `D${first}+D${first + 1}`, result: quote.price.minorUnits / 100 },
  ]);
  total.font = { name: FACE, size: 13, bold: true };
  for (let column = 1; column <= 4; column += 1) total.getCell(column).border = heavyLine;
  total.getCell(4).numFmt = moneyFormat(quote.currency);
  sheet.addRow([`Good until ${quote.goodUntil}. Refrigerant is billed by the scale.`]).font = {
    name: FACE,
    size: 10,
    color: { argb: SOFT },
  };
}
