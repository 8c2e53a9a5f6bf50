import { type PlannedJob, type WeekPlan, localText } from '@brimline/planning';
import { formatMoney, formatNumber, fromSi } from '@brimline/quantities';
import { textTable } from './text-table.ts';

const COLUMNS = [
  'job',
  'site',
  'refrigerant',
  'lb',
  'way',
  'hours',
  'P80',
  'attended',
  'price',
  'starts',
  'ends',
] as const;
const RIGHT = ['lb', 'hours', 'P80', 'attended', 'price'].map((title) =>
  (COLUMNS as readonly string[]).indexOf(title),
);

function row(job: PlannedJob): string[] {
  const zone = job.site.timeZone;
  const at = (instant: string): string => localText(instant, zone, 'EEE d MMM HH:mm');
  return [
    job.id,
    job.site.name,
    job.refrigerant,
    formatNumber(fromSi(job.charge_kg, 'mass', 'lb'), 0),
    job.setup.method,
    formatNumber(job.hours.elapsed, 1),
    formatNumber(job.hours.p80, 1),
    formatNumber(job.hours.attended, 1),
    formatMoney(job.price),
    at(job.phases[0]!.start),
    at(job.phases.at(-1)!.end),
  ];
}

/** The week on one screen of a terminal. */
export function summaryText(plan: WeekPlan, out: string): string {
  const rows = plan.jobs.map(row);
  const { schedule, firm, planDays, planFrom } = plan;
  const refused = plan.refused.flatMap(({ id, title, reasons }) => [
    `  ${id} ${title}`,
    ...reasons.map(({ message }) => `    ${message}`),
  ]);
  return [
    `${firm.name}: ${planDays} days from ${planFrom}, seed ${plan.seed}, engine ${plan.engineVersion}`,
    ...(firm.notice === '' ? [] : [firm.notice]),
    '',
    ...textTable(COLUMNS, rows, RIGHT),
    '',
    'Hours are working hours from arrival to records, P80 with the risk and failed tests in it; attended are person-hours. Prices include tax.',
    ...(refused.length > 0 ? ['', 'Not planned:', ...refused] : []),
    '',
    `All done ${schedule.end}; no plan can end before ${schedule.lowerBound} (${schedule.bound}); gap ${formatNumber(schedule.gap * 100, 1)} %.`,
    `Late ${formatNumber(schedule.objective.lateness_min / 60, 1)} h, travel ${formatNumber(schedule.objective.travel_min / 60, 1)} h, clean-outs ${formatNumber(schedule.objective.cleanOut_min / 60, 1)} h; ${schedule.schedules} plans tried.`,
    `Written to ${out}: plan.json, timeline.xlsx, and a quote and an offer for each job.`,
    '',
  ].join('\n');
}
