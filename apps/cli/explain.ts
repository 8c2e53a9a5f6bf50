import { type Estimate, type PhaseEstimate, siteVisit, type VisitOption } from '@brimline/estimating';
import { localText, type PlannedJob } from '@brimline/planning';
import { formatMoney, formatNumber, fromSi } from '@brimline/quantities';
import { assumptionsText, cautionsText, reasonsText, riskText } from './explain-reasons.ts';
import { waysText } from './explain-ways.ts';
import { h, lb } from './text-measures.ts';
import { textTable } from './text-table.ts';

/**
 * Everything that an estimate knows of a job, for a terminal: each number with formula, inputs and source.
 *
 * @param others planned jobs, among them those on the same site
 */
export function explainText(job: PlannedJob, others: readonly PlannedJob[] = []): string {
  const { estimate } = job;
  return [
    `${job.id}  ${job.title}`,
    `${job.site.name}, ${job.chiller.description}, ${lb(job.charge_kg)} lb of ${job.refrigerant}, ${job.scope}`,
    '',
    ...hours(estimate),
    ...phases(job),
    ...waysText(estimate),
    ...cylinders(estimate),
    ...account(estimate),
    ...topUp(estimate),
    ...curve(estimate),
    ...riskText(estimate),
    ...cautionsText(estimate),
    ...assumptionsText(estimate.assumptions),
    ...reasonsText(estimate),
    ...office(estimate),
    ...visit(job, others),
    '',
  ].join('\n');
}

function hours({ elapsed_s, attended_person_s, gear_s, risk: drawn }: Estimate): string[] {
  const row = (label: string, planned_s: number, { p50_s, p80_s, p90_s }: Estimate['elapsed']): string[] => [
    label,
    h(planned_s),
    h(p50_s),
    h(p80_s),
    h(p90_s),
  ];
  const table = textTable(
    ['hours', 'planned', 'P50', 'P80', 'P90'],
    [
      row('elapsed', elapsed_s, drawn.elapsed),
      row('attended, person-hours', attended_person_s, drawn.attended),
      row('gear', gear_s, drawn.gear),
    ],
    [1, 2, 3, 4],
  );
  if (!drawn.cost) return [...table, ''];
  const money = (minorUnits: number): string => formatMoney({ currency: drawn.cost!.currency, minorUnits });
  const { p50_minor, p80_minor, p90_minor } = drawn.cost;
  return [
    ...table,
    `Cost of labour, gear, cylinders and refrigerant: P50 ${money(p50_minor)}, P80 ${money(p80_minor)}, P90 ${money(p90_minor)}; nights, travel, overhead and margin are the quote's.`,
    '',
  ];
}

function phases(job: PlannedJob): string[] {
  const booked = new Map(job.phases.map((phase) => [phase.id, phase]));
  const at = (id: string): string => {
    const start = booked.get(id)?.start;
    return start === undefined ? '' : localText(start, job.site.timeZone, 'EEE d MMM HH:mm');
  };
  const gap = ({ gapBefore: { maximum_s } }: PhaseEstimate): string =>
    maximum_s === null ? '' : `${h(maximum_s)} h`;
  const rows = job.estimate.phases.map((phase) => [
    phase.title,
    phase.manner,
    h(phase.elapsed.low_s, 2),
    h(phase.planned_s, 2),
    h(phase.elapsed.high_s, 2),
    h(phase.attended_person_s, 2),
    h(phase.gear_s, 2),
    `${phase.crew}`,
    phase.certified > 0 ? `${phase.certified}` : '',
    phase.interruptible ? 'yes' : 'no',
    gap(phase),
    at(phase.id),
    phase.reason.limitedBy ?? '',
  ]);
  const certificate = job.estimate.phases.find((phase) => phase.certificate !== null)?.certificate;
  return [
    'Work plan (hours; gap: longest wait after the step before)',
    ...textTable(
      [
        'step',
        'manner',
        'low',
        'planned',
        'high',
        'attended',
        'gear',
        'crew',
        'cert.',
        'stops',
        'gap',
        'starts',
        'limited by',
      ],
      rows,
      [2, 3, 4, 5, 6, 7, 8],
    ),
    ...(certificate ? [`Certificate: ${certificate}.`] : []),
    '',
  ];
}

function cylinders({ cylinders: plan, supply }: Estimate): string[] {
  if (!plan && !supply) return [];
  const lines: string[] = [];
  if (plan) {
    const filled = plan.fills.map(
      ({ id, limit_kg, planned_kg }) => `${id} ${lb(planned_kg)} of ${lb(limit_kg)} lb`,
    );
    lines.push(
      `Cylinders: ${plan.needed} and ${plan.spare} spare of ${lb(plan.class_waterCapacity_kg)} lb water, ${plan.swaps} changes; in test until ${plan.neededUntil}`,
      `  ${filled.join(', ')}`,
      ...plan.delivered.map(({ id, on }) => `  ${id} is delivered on ${on}`),
      ...plan.passedOver.map(({ why, ids }) => `  passed over, ${why}: ${ids.join(', ')}`),
    );
  }
  if (supply) {
    lines.push(
      `New refrigerant: ${lb(supply.fromStock_kg, 1)} lb from stock (${supply.cylinderIds.join(', ') || 'none'}), ${lb(supply.toBuy_kg, 1)} lb to buy`,
    );
  }
  return [...lines, ''];
}

function account({ account: a, shortage: s }: Estimate): string[] {
  const pounds: readonly (readonly [string, number])[] = [
    ['nameplate', a.nameplate_kg],
    ['in the machine at arrival', a.before_kg],
    ['recovered', a.recovered_kg],
    ['left as vapour', a.leftAsVapour_kg],
    ['stays in cylinders as heel', a.heelInCylinders_kg],
    ['new refrigerant to bring', a.fromStock_kg],
    ['left over in cylinders', s.surplus_kg],
    ['in the machine at the end', a.after_kg],
  ];
  return [
    'Pounds',
    ...textTable(
      ['', 'lb'],
      pounds.filter(([, mass_kg]) => mass_kg > 0).map(([label, mass_kg]) => [label, lb(mass_kg, 1)]),
      [1],
    ),
    '',
  ];
}

function topUp({ topUp: facts }: Estimate): string[] {
  if (!facts) return [];
  return [
    `Missing ${lb(facts.missing_kg, 1)} lb, known from: ${facts.basis}. Leak rate ${formatNumber(facts.percentPerYear, 1)} % a year of ${formatNumber(facts.threshold, 0)} % allowed; up to ${lb(facts.withinRate_kg, 1)} lb stays within it (${facts.rule}).`,
    '',
  ];
}

/** The curve at the ends of its steps and at its swaps; the numbers between are in plan.json. */
function curve({ curve: one, refrigerant }: Estimate): string[] {
  const rows = one.steps.map(({ title, to_s }, index) => {
    const point = one.points.findLast(({ time_s }) => time_s <= to_s + 1)!;
    const held_kg = point.cylinder_kg.reduce((sum, mass_kg) => sum + mass_kg, 0);
    const swaps = one.marks.filter(({ kind, time_s }) => kind === 'cylinder swap' && time_s <= to_s).length;
    return [
      title,
      h(to_s, 2),
      lb(point.chiller_kg),
      lb(held_kg),
      formatNumber(point.pressure_Pa / 1000, 2),
      point.saturation_K === undefined
        ? ''
        : formatNumber(fromSi(point.saturation_K, 'temperature', 'degC'), 1),
      one.steps[index]!.manner === 'unattended' ? '' : 'yes',
      `${swaps}`,
    ];
  });
  const freezing = one.freezing
    ? [
        `Freezing line of ${refrigerant}: ${formatNumber(one.freezing.pressure_Pa / 1000, 0)} kPa abs at ${formatNumber(fromSi(one.freezing.temperature_K, 'temperature', 'degC'), 1)} degC.`,
      ]
    : [];
  return [
    'Charge curve at the end of each step (swaps so far)',
    ...textTable(
      ['step', 'h', 'machine lb', 'cylinders lb', 'kPa abs', 'degC sat.', 'people', 'swaps'],
      rows,
      [1, 2, 3, 4, 5, 7],
    ),
    ...freezing,
    '',
  ];
}

function office({ officeTasks }: Estimate): string[] {
  if (officeTasks.length === 0) return [];
  return [
    'Beside the hours on site, neither booked nor priced',
    ...officeTasks.map(
      ({ label, when, elapsed, crew, source }) =>
        `  ${when} the job: ${label}, ${h(elapsed.likely_s)} h (${h(elapsed.low_s)} to ${h(elapsed.high_s)}), ${crew} person; ${source}`,
    ),
  ];
}

function visit(job: PlannedJob, others: readonly PlannedJob[]): string[] {
  const near = others.filter(({ id, site }) => id !== job.id && site.id === job.site.id);
  if (near.length === 0) return [];
  const { jobIds, inTurn, sideBySide } = siteVisit([job, ...near].map(({ estimate }) => estimate));
  const line = (how: string, { elapsed_s, crew, gear, cylinders: held }: VisitOption): string =>
    `  ${how}: ${h(elapsed_s)} h, at most ${crew} persons, ${gear['recovery machine'] ?? 0} recovery machines, ${gear['vacuum pump'] ?? 0} pumps, ${held} cylinders held`;
  return [
    '',
    `This site together (${jobIds.join(', ')})`,
    line('one machine after the other', inTurn),
    line('side by side', sideBySide),
    '  A job that names another in "sameVisitAs" is spared being let in and unloading again.',
  ];
}
