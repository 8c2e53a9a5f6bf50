import { type PlannedJob, type WeekPlan, localText } from '@brimline/planning';
import { formatMoney, formatNumber, fromSi } from '@brimline/quantities';

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
const RIGHT: ReadonlySet<string> = new Set(['lb', 'hours', 'P80', 'attended', 'price']);

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
  const widths = COLUMNS.map((title, index) =>
    Math.max(title.length, ...rows.map((cells) => cells[index]!.length)),
  );
  const line = (cells: readonly string[]): string =>
    cells
      .map((cell, index) =>
        RIGHT.has(COLUMNS[index]!) ? cell.padStart(widths[index]!) : cell.padEnd(widths[index]!),
      )
      .join('  ')
      .trimEnd();
  const { schedule, firm, planDays, planFrom } = plan;
  const refused = plan.refused.flatMap(({ id, title, reasons }) => [
    `  ${id} ${title}`,
    ...reasons.map(({ message }) => `    ${message}`),
  ]);
  return [
    `${firm.name}: ${planDays} days from ${planFrom}, seed ${plan.seed}, engine ${plan.engineVersion}`,
    ...(firm.notice === '' ? [] : [firm.notice]),
    '',
    line(COLUMNS),
    ...rows.map(line),
    '',
    'Hours are working hours from arrival to records, P80 with the risk in it; attended are person-hours. Prices include tax.',
    ...(refused.length > 0 ? ['', 'Not planned:', ...refused] : []),
    '',
    `All done ${schedule.end}; no plan can end before ${schedule.lowerBound} (${schedule.bound}); gap ${formatNumber(schedule.gap * 100, 1)} %.`,
    `Late ${formatNumber(schedule.objective.lateness_min / 60, 1)} h, travel ${formatNumber(schedule.objective.travel_min / 60, 1)} h, clean-outs ${formatNumber(schedule.objective.cleanOut_min / 60, 1)} h; ${schedule.schedules} plans tried.`,
    `Written to ${out}: plan.json, timeline.xlsx, and a quote and an offer for each job.`,
    '',
  ].join('\n');
}
