import { type JobUsage, priceJob } from '@brimline/costing';
import type { ChargeCurve, Estimate, PhaseEstimate, PhaseKind, Reason } from '@brimline/estimating';
import type { RateCard } from '@brimline/firm';
import type { BookedPhase, PlannedJob, WeekPlan } from '@brimline/planning';
import { toSi } from '@brimline/quantities';

/**
 * A small week for tests, typed as the planner's. Every name, time, mass and price is invented; nothing was estimated
 * or scheduled, but the parts agree with one another: masses add up, phases follow one another, totals are the quote's.
 */

const HOUR_MS = 3_600_000;
const lb = (mass: number): number => toSi(mass, 'mass', 'lb');
const psig = (pressure: number): number => toSi(pressure, 'gauge pressure', 'psig') + 101_325;

export const RATE_CARD: RateCard = {
  id: 'invented-card',
  currency: 'USD',
  validFrom: '2026-09-01',
  validUntil: '2026-12-31',
  labour: [
    { labourClass: 'lead technician', costPerHour_minor: 7817 },
    { labourClass: 'helper', costPerHour_minor: 4123 },
  ],
  travelPerHour_minor: 5219,
  vehiclePerKilometre_minor: 47,
  overtime: {
    dailyAfter_h: 8,
    dailyMultiplier: 1.5,
    weeklyAfter_h: 40,
    weeklyMultiplier: 1.5,
    nightFrom: '20:00',
    nightTo: '06:00',
    nightMultiplier: 1.15,
  },
  gearPerDay: [
    { kind: 'recovery machine', costPerDay_minor: 3871 },
    { kind: 'vacuum pump', costPerDay_minor: 2433 },
  ],
  cylinderPerDay_minor: 257,
  refrigerants: [
    { refrigerant: 'R-134a', price: { minorUnits: 1243, per_kg: lb(1) }, validUntil: '2026-11-20' },
  ],
  nitrogenCylinder_minor: 4637,
  filterDrier_minor: 8513,
  vacuumOilChange_minor: 1829,
  permit_minor: 12_037,
  overhead: 0.1437,
  margin: 0.2831,
  tax: 0.0653,
};

const USAGE: JobUsage = {
  jobId: '7101',
  pay: [
    { jobId: '7101', labourClass: 'lead technician', rule: 'straight', multiplier: 1, hours: 14.41 },
    { jobId: '7101', labourClass: 'lead technician', rule: 'overtime', multiplier: 1.5, hours: 1.13 },
    { jobId: '7101', labourClass: 'helper', rule: 'straight', multiplier: 1, hours: 6.71 },
    { jobId: '7101', labourClass: 'helper', rule: 'night', multiplier: 1.15, hours: 0.77 },
  ],
  travel_h: 1.83,
  travel_km: 73,
  gearDays: [
    { kind: 'recovery machine', days: 3 },
    { kind: 'vacuum pump', days: 2 },
    { kind: 'heater', days: 2 },
  ],
  cylinderDays: 9,
  refrigerant: { name: 'R-134a', mass_kg: lb(11.37) },
  nitrogenCylinders: 2,
  filterDriers: 1,
  oilChanges: 1,
  contingencyHours: 2.29,
  due: '2026-11-23',
};

function reason(label: string): Reason {
  return {
    label,
    value: 1,
    unit: 'h',
    formula: 't = sum of norm x times',
    inputs: [],
    limitedBy: null,
    source: 'invented for tests',
  };
}

type Step = readonly [kind: PhaseKind, manner: PhaseEstimate['manner'], hours: number];

const RECOVERY: readonly Step[] = [
  ['rig up', 'attended', 1.5],
  ['liquid recovery', 'attended', 1],
  ['vapour recovery', 'watched', 2],
  ['open work', 'unattended', 6],
  ['evacuation', 'unattended', 9],
  ['liquid recharge', 'attended', 1],
  ['rig down and records', 'attended', 1.5],
];

const TOP_UP: readonly Step[] = [
  ['rig up', 'attended', 1],
  ['liquid recharge', 'attended', 0.75],
  ['start-up check', 'attended', 2],
];

const idOf = (kind: PhaseKind): string => kind.replaceAll(' ', '-');

function phasesOf(steps: readonly Step[]): PhaseEstimate[] {
  return steps.map(([kind, manner, hours]) => ({
    id: idOf(kind),
    kind,
    title: kind,
    elapsed: { low_s: hours * 2400, likely_s: hours * 3600, high_s: hours * 5400 },
    planned_s: hours * 3600,
    manner,
    crew: manner === 'unattended' ? 0 : manner === 'watched' ? 1 : 2,
    certified: 1,
    needsLead: false,
    certificate: null,
    attended_person_s: 0,
    gear_s: 0,
    gear: [],
    interruptible: false,
    gapBefore: { minimum_s: 0, maximum_s: null },
    after: [],
    reason: reason(kind),
  }));
}

function bookedPhases(steps: readonly Step[], start: string): BookedPhase[] {
  let at = Date.parse(start);
  return steps.map(([kind, manner, hours]) => {
    const span = {
      start: new Date(at).toISOString(),
      end: new Date((at += hours * HOUR_MS)).toISOString(),
    };
    const people = manner === 'unattended' ? [] : manner === 'watched' ? ['ada'] : ['ada', 'bo'];
    return {
      id: idOf(kind),
      kind,
      title: kind,
      manner,
      ...span,
      pieces: [span],
      attended_h: hours * people.length,
      people,
      gear: kind === 'evacuation' ? ['VP-1'] : kind.includes('recovery') ? ['RM-1'] : [],
      cylinders: [],
    };
  });
}

function stepsOf(steps: readonly Step[]): ChargeCurve['steps'] {
  let at = 0;
  return steps.map(([kind, manner, hours]) => ({
    phaseId: idOf(kind),
    title: kind,
    manner,
    from_s: at,
    to_s: (at += hours * 3600),
  }));
}

/** 240 lb out into two cylinders, 2 lb lost as vapour, 2 lb brought in a third, and the charge back in. */
const RECOVERY_CURVE: ChargeCurve = {
  nameplate_kg: lb(240),
  cylinders: [
    { id: 'C-1', limit_kg: lb(120) },
    { id: 'C-2', limit_kg: lb(120) },
    { id: 'N-1', limit_kg: lb(30) },
  ],
  points: (
    [
      [0, 240, 0, [0, 0, 11], 70],
      [1.5, 240, 0, [0, 0, 11], 70],
      [2, 118, 2, [120, 0, 11], 68],
      [2.5, 30, 2, [120, 88, 11], 60],
      [4.5, 2, 0, [120, 118, 11], -7.4],
      [4.5, 0, 0, [120, 118, 11], -0.2],
      [10.5, 0, 0, [120, 118, 11], -0.2],
      [19.5, 0, 0, [120, 118, 11], -14.69],
      [20.5, 240, 0, [3, 2, 4], 66],
      [22, 240, 0, [3, 2, 4], 70],
    ] as const
  ).map(([hours, chiller, transit, cylinders, pressure]) => ({
    time_s: hours * 3600,
    chiller_kg: lb(chiller),
    transit_kg: lb(transit),
    cylinder_kg: cylinders.map(lb),
    pressure_Pa: psig(pressure),
  })),
  steps: stepsOf(RECOVERY),
  marks: [],
  freezing: { temperature_K: 273.15, pressure_Pa: psig(28) },
};

const TOP_UP_CURVE: ChargeCurve = {
  nameplate_kg: lb(60),
  cylinders: [],
  points: [0, 1, 1.75, 3.75].map((hours, index) => ({
    time_s: hours * 3600,
    chiller_kg: lb(index < 2 ? 49 : 60),
    transit_kg: 0,
    cylinder_kg: [],
    pressure_Pa: psig(70),
  })),
  steps: stepsOf(TOP_UP),
  marks: [],
  freezing: null,
};

function estimateOf(jobId: string, curve: ChargeCurve, steps: readonly Step[]): Estimate {
  const phases = phasesOf(steps);
  const elapsed_s = phases.reduce((sum, { planned_s }) => sum + planned_s, 0);
  const attended_person_s = phases.reduce((sum, { planned_s, crew }) => sum + planned_s * crew, 0);
  const setup: Estimate['setup'] = {
    method: 'push-pull',
    machineIds: ['RM-1'],
    hoseSetId: null,
    coresRemoved: true,
    coolerBypassed: true,
    waterFlowing: true,
    entry: 'liquid line',
    pumpIds: ['VP-1'],
    vacuumHoseSetId: null,
    circuitOrder: 'together',
    cylinderCapacity_kg: null,
    warmedTo_K: null,
  };
  const way = {
    setup,
    cost_minor: null,
    change: null,
    liquidRecovery_s: 3600,
    liquidRecharge_s: 3600,
    elapsed_s,
    attended_person_s,
    gear_s: elapsed_s,
  };
  const percentiles = (span_s: number) => ({ p50_s: span_s, p80_s: span_s * 1.15, p90_s: span_s * 1.25 });
  const { nameplate_kg } = curve;
  return {
    jobId,
    engineVersion: 'test',
    seed: 1,
    samples: 100,
    scope: steps === TOP_UP ? 'top-up' : 'recover and recharge',
    refrigerant: 'R-134a',
    setup,
    ways: [
      { ...way, label: 'push-pull, RM-1', limitedBy: 'the outlet valve', chosen: true, forbidden: [] },
      { ...way, label: 'direct, RM-1', limitedBy: '', chosen: false, forbidden: ['the pump would run dry'] },
    ],
    phases,
    curve,
    cylinders: null,
    supply: null,
    account: {
      nameplate_kg,
      before_kg: nameplate_kg,
      recovered_kg: nameplate_kg,
      leftAsVapour_kg: 0,
      heelInCylinders_kg: 0,
      fromStock_kg: 0,
      after_kg: nameplate_kg,
    },
    shortage: {
      before_kg: 0,
      lostAsVapour_kg: 0,
      heelInCylinders_kg: 0,
      toBring_kg: 0,
      toBuy_kg: 0,
      surplus_kg: 0,
    },
    elapsed_s,
    attended_person_s,
    gear_s: elapsed_s,
    elapsed: percentiles(elapsed_s),
    attended: percentiles(attended_person_s),
    risk: {
      distribution: 'invented for tests',
      percentileRule: 'invented for tests',
      seed: 1,
      samples: 100,
      elapsed: percentiles(elapsed_s),
      attended: percentiles(attended_person_s),
      gear: percentiles(elapsed_s),
      cost: null,
      mean_s: elapsed_s,
      drivers: [],
      causes: [],
      loops: [],
    },
    topUp: null,
    officeTasks: [],
    cautions: [],
    assumptions: [],
    reasons: [],
    nitrogenCylinders: 2,
    filterDriers: 1,
    oilChanges: 1,
  };
}

interface JobFacts {
  readonly id: string;
  readonly title: string;
  readonly curve: ChargeCurve;
  readonly steps: readonly Step[];
  readonly start: string;
  readonly usage: JobUsage;
  readonly rateCard: RateCard;
}

function plannedJob({ id, title, curve, steps, start, usage, rateCard }: JobFacts): PlannedJob {
  const estimate = estimateOf(id, curve, steps);
  const quote = priceJob({ ...usage, jobId: id }, rateCard);
  const phases = bookedPhases(steps, start);
  return {
    id,
    title,
    scope: estimate.scope,
    refrigerant: estimate.refrigerant,
    charge_kg: curve.nameplate_kg,
    site: { id: 'mill', name: 'Invented Mill', timeZone: 'America/Chicago' },
    chiller: { id: 'CH-1', description: 'water-cooled screw machine, 150 ton class' },
    due: '2026-11-23T17:00',
    hours: {
      elapsed: estimate.elapsed_s / 3600,
      attended: estimate.attended_person_s / 3600,
      gear: estimate.gear_s / 3600,
      p50: estimate.elapsed.p50_s / 3600,
      p80: estimate.elapsed.p80_s / 3600,
      p90: estimate.elapsed.p90_s / 3600,
    },
    price: { currency: quote.currency, minorUnits: quote.price.minorUnits },
    setup: estimate.setup,
    cylinders: curve.cylinders.map(({ id: cylinder }) => cylinder),
    cylindersHeld: curve.cylinders.length > 0 ? { start: phases[1]!.start, end: phases.at(-1)!.end } : null,
    phases,
    cautions: ['Lock and tag power.', 'Weigh every cylinder.'].map((text, index) => ({
      code: `caution-${index}`,
      text: `${text} Local code and the licensed technician decide.`,
      phaseId: null,
      cause: 'every job',
    })),
    assumptions: [
      {
        id: 'ambient',
        label: 'temperature round the machine',
        value: 295.15,
        unit: 'K',
        effect: 'sets the rates',
        source: 'invented for tests',
      },
    ],
    estimate,
    quote,
  };
}

export interface WeekPlanChoices {
  /** Text that a person typed, put wherever such text can stand. */
  readonly typed?: string;
  readonly rateCard?: RateCard;
  readonly usage?: Partial<JobUsage>;
}

/** A week of two jobs, the first across the night in which the clocks go back. */
export function weekPlan({ typed, rateCard = RATE_CARD, usage = {} }: WeekPlanChoices = {}): WeekPlan {
  const text = (plain: string): string => typed ?? plain;
  const used = { ...USAGE, ...usage };
  const jobs = [
    plannedJob({
      id: '7101',
      title: text('Shaft seal on the screw machine'),
      curve: RECOVERY_CURVE,
      steps: RECOVERY,
      start: '2026-10-31T20:00:00.000Z',
      usage: used,
      rateCard,
    }),
    plannedJob({
      id: '7102',
      title: text('Top up after a repair'),
      curve: TOP_UP_CURVE,
      steps: TOP_UP,
      start: '2026-11-03T14:00:00.000Z',
      usage: { ...used, cylinderDays: 0, contingencyHours: 0 },
      rateCard,
    }),
  ].map((job): PlannedJob => ({
    ...job,
    site: { ...job.site, name: text(job.site.name) },
    chiller: { ...job.chiller, description: text(job.chiller.description) },
  }));
  return {
    firm: { name: text('Invented Cooling'), notice: text('Invented data for tests.') },
    planFrom: '2026-10-31',
    planDays: 5,
    epoch: '2026-10-31T05:00:00.000Z',
    engineVersion: 'test',
    seed: 1,
    people: [
      { id: 'ada', name: text('Ada Invented'), grade: 'lead', timeZone: 'America/Chicago' },
      { id: 'bo', name: text('Bo Invented'), grade: 'helper', timeZone: 'America/Chicago' },
    ],
    gear: [
      { id: 'RM-1', kind: 'recovery machine', description: text('twin portable') },
      { id: 'VP-1', kind: 'vacuum pump', description: text('10 cfm') },
    ],
    cylinders: [
      { id: 'C-1', waterCapacity_kg: lb(123), ports: 2 },
      { id: 'C-2', waterCapacity_kg: lb(123), ports: 2 },
      { id: 'N-1', waterCapacity_kg: lb(30), ports: 1 },
    ],
    jobs,
    refused: [
      {
        id: '7103',
        title: text('Coil of an unknown machine'),
        reasons: [{ code: 'no-charge', path: 'chiller', message: text('the nameplate cannot be read') }],
      },
    ],
    schedule: {
      objective: {
        lateness_min: 0,
        unplacedJobs: 0,
        travel_min: 0,
        cleanOut_min: 0,
        held_min: 0,
        makespan_min: 0,
      },
      lowerBound: '2026-11-03T17:45:00.000Z',
      end: '2026-11-03T17:45:00.000Z',
      bound: 'invented',
      gap: 0,
      schedules: 1,
    },
    passages: [
      {
        unitId: 'ada',
        kind: 'travel',
        start: '2026-10-31T19:20:00.000Z',
        end: '2026-10-31T20:00:00.000Z',
        fromPlace: 'yard',
        toPlace: 'mill',
      },
    ],
  };
}
