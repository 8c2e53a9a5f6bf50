import type { PlannedJob, WeekPlan } from '@brimline/planning';
import { localText } from '@brimline/planning';
import { formatNumber } from '@brimline/quantities';
import type { CellFormulaValue, Workbook, Worksheet } from 'exceljs';
import { dayText } from './local-dates.ts';
import { measureText } from './measures.ts';
import {
  addHeading,
  addSheet,
  addTitle,
  CAUTION,
  face,
  majorUnits,
  makeTotal,
  moneyFormat,
  printArea,
  SOFT,
  spanText,
  underline,
} from './sheet-style.ts';

const COLUMNS = 4;

const SCOPE_WORDS: Readonly<Record<PlannedJob['scope'], string>> = {
  'recover and recharge':
    'Recover the whole charge, stand by for your repair, test with nitrogen, evacuate, weigh the charge back in to the nameplate, start up and check.',
  'top-up': 'Weigh in the missing refrigerant up to the nameplate charge and check the machine running.',
  'recover only': 'Recover the whole charge, weigh and label it, and leave the machine empty.',
  recharge: 'Evacuate the emptied machine, weigh the whole charge in to the nameplate, start up and check.',
  'evacuate and recharge':
    'Test with nitrogen, evacuate, weigh the whole charge in to the nameplate, start up and check.',
  'evacuate only': 'Evacuate the emptied machine and prove by a rise test that it is dry and tight.',
};

const NOT_INCLUDED =
  'The repair itself, water treatment, cranes, electricians, temporary cooling, cleaning after a burn-out, disposal of contaminated refrigerant, standby by others, a pressure or rise test that fails again after its repeat.';

const DEFER = 'Local code and the licensed technician decide.';
const NO_INSTRUCTIONS = 'These lines warn; they are no instructions.';

/** Where the office's copy takes the amounts from; null in the customer's copy, which holds numbers alone. */
export type PriceSource = { readonly beforeTax: string; readonly tax: string } | null;

/** The customer's page: scope, when, what is in it, what it rests on, cautions, price. No cost and no margin. */
export function addOfferSheet(book: Workbook, job: PlannedJob, plan: WeekPlan, prices: PriceSource): void {
  const sheet = addSheet(book, {
    name: 'Offer',
    widths: [17, 30, 23, 22],
    onePage: true,
    header: plan.firm.name,
    footer: `Offer for job ${job.id}`,
  });
  addTitle(sheet, job.title, [
    `Offer for job ${job.id} from ${plan.firm.name}`,
    ...(plan.firm.notice === '' ? [] : [plan.firm.notice]),
  ]);
  addPrice(sheet, job, prices);
  addFacts(sheet, job);
  addPart(sheet, 'What this offer rests on', [...job.quote.notes, ...job.assumptions.map(assumptionText)]);
  const { texts, shared } = withoutSharedEnd(job.cautions.map(({ text }) => text));
  addPart(
    sheet,
    'Know before you agree',
    [...texts, `${shared === '' ? DEFER : shared} ${NO_INSTRUCTIONS}`],
    CAUTION,
  );
  addSignature(sheet);
  printArea(sheet, 1, COLUMNS);
}

function addPrice(sheet: Worksheet, { quote }: PlannedJob, prices: PriceSource): void {
  const { currency } = quote;
  const amount = (minorUnits: number, formula?: string): number | CellFormulaValue => {
    const result = majorUnits(minorUnits, currency);
    return formula === undefined ? result : { formula, result };
  };
  const row = (label: string, value: number | CellFormulaValue): number => {
    const added = sheet.addRow([label]);
    added.getCell(COLUMNS).value = value;
    added.getCell(COLUMNS).numFmt = moneyFormat(currency);
    underline(added, COLUMNS);
    return added.number;
  };
  addHeading(sheet, ['Price', '', '', currency], [COLUMNS]);
  const before = row('Price before tax', amount(quote.priceBeforeTax.minorUnits, prices?.beforeTax));
  const tax = row(
    `Tax, ${formatNumber(quote.taxShare * 100, 2)} %`,
    amount(quote.tax.minorUnits, prices?.tax),
  );
  const total = row('Price', amount(quote.price.minorUnits, `D${before}+D${tax}`));
  makeTotal(sheet.getRow(total), COLUMNS, 14);
  sheet.getRow(total).height = 22;
  const byScale = quote.lines.some(({ group }) => group === 'refrigerant');
  sheet
    .addRow([
      `Good until ${dayText(quote.goodUntil)}.${byScale ? ' New refrigerant is billed by the scale.' : ''}`,
    ])
    .getCell(1).font = face(9, SOFT);
  sheet.addRow([]).height = 8;
}

function addFacts(sheet: Worksheet, job: PlannedJob): void {
  const zone = job.site.timeZone;
  const at = (instant: string): string => localText(instant, zone, 'EEEE d MMMM yyyy, HH:mm');
  const facts: readonly [string, string][] = [
    ['Site', job.site.name],
    ['Machine', `${job.chiller.id}, ${job.chiller.description}`],
    ['Refrigerant', `${job.refrigerant}, nameplate charge ${measureText(job.charge_kg, 'kg')}`],
    ['Work', SCOPE_WORDS[job.scope]],
    ['Starts', at(job.phases[0]!.start)],
    ['Ends', `${at(job.phases.at(-1)!.end)}, clock of ${zone}`],
    [
      'Hours of work',
      `${formatNumber(job.hours.elapsed, 1)} h likely; four jobs in five take ${formatNumber(job.hours.p80, 1)} h or less`,
    ],
    ['Included', includedText(job)],
    ['Not included', NOT_INCLUDED],
  ];
  addHeading(sheet, ['The job', '', '', '']);
  for (const [label, text] of facts) {
    const row = sheet.addRow([label]);
    spanText(row, 2, COLUMNS, text);
    underline(row, COLUMNS, [2]);
    row.getCell(1).font = face(9, SOFT);
  }
  sheet.addRow([]).height = 8;
}

/** Amounts without a price: how much of everything, never what one costs. */
function includedText({ quote, cylinders }: PlannedJob): string {
  const ofGroup = (group: (typeof quote.lines)[number]['group']) =>
    quote.lines.filter((line) => line.group === group);
  const labour_h = ofGroup('labour').reduce((sum, { quantity }) => sum + quantity, 0);
  const parts = [
    `${formatNumber(labour_h, 1)} person-hours`,
    'travel',
    'machines, hoses and scales',
    ...(cylinders.length > 0 ? [`${cylinders.length} cylinders while they hold your refrigerant`] : []),
    ...ofGroup('refrigerant').map(
      ({ text, quantity, unit }) => `${formatNumber(quantity, 1)} ${unit} of ${text}`,
    ),
    ...ofGroup('consumables').map(({ text, quantity }) => `${text}: ${formatNumber(quantity, 0)}`),
    ...ofGroup('permits').map(({ text }) => text),
  ];
  return `${parts.join(', ')}.`;
}

function assumptionText({ label, value, unit, effect }: PlannedJob['assumptions'][number]): string {
  return `Assumed: ${label}, ${measureText(value, unit)}; ${effect}.`;
}

function addPart(sheet: Worksheet, title: string, texts: readonly string[], argb?: string): void {
  if (texts.length === 0) return;
  const heading = addHeading(sheet, [title, '', '', '']);
  if (argb !== undefined) heading.getCell(1).font = face(9, argb, true);
  for (const text of texts) spanText(sheet.addRow([]), 1, COLUMNS, text);
  sheet.addRow([]).height = 8;
}

/** The sentence that ends every text, taken out to stand once; empty where they end differently. */
export function withoutSharedEnd(texts: readonly string[]): {
  readonly texts: readonly string[];
  readonly shared: string;
} {
  const [first = ''] = texts;
  const shared = /[^.]+\.$/u.exec(first)?.[0].trim() ?? '';
  const isShared = texts.length > 1 && shared !== '' && texts.every((text) => text.endsWith(shared));
  if (!isShared) return { texts, shared: '' };
  return {
    texts: texts.map((text) => text.slice(0, -shared.length).trim()).filter((text) => text !== ''),
    shared,
  };
}

function addSignature(sheet: Worksheet): void {
  const line = sheet.addRow([]);
  line.height = 28;
  for (const column of [1, 2, COLUMNS])
    line.getCell(column).border = { bottom: { style: 'thin', color: { argb: SOFT } } };
  const words = sheet.addRow(['Agreed for the site', '', '', 'Date']);
  for (const column of [1, COLUMNS]) words.getCell(column).font = face(9, SOFT);
}
