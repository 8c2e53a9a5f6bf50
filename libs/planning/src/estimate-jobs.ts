import { type EstimateProblem, estimateJob, normsWith, type Worth } from '@brimline/estimating';
import type { Chiller, Cylinder, Firm, GearUnit, Job, RateCard, Site } from '@brimline/firm';
import { pressureClass, refrigerant } from '@brimline/refrigerants';
import { roadDistance } from './travel.ts';
import type { Refusal } from './week-plan.ts';
import { type EstimatedJob, HIGH_PRESSURE_SKILL, LOW_PRESSURE_SKILL } from './week-problem.ts';

/** A spare empty cylinder travels with every recovery: common practice, no source. */
const SPARE_CYLINDERS = 1;
const SAMPLES = 2000;

export interface JobEstimates {
  readonly estimated: readonly EstimatedJob[];
  readonly refused: readonly Refusal[];
}

/**
 * Estimates each job in order of its due date. Refrigerant that a job takes from stock, and cylinders that it fills
 * for good, are gone for the jobs after it.
 */
export function estimateJobs(firm: Firm, seed: number, onDone: (done: number) => void): JobEstimates {
  const estimated: EstimatedJob[] = [];
  const refused: Refusal[] = [];
  let stock = firm.cylinders;
  const byDue = firm.jobs.toSorted((a, b) => a.due.localeCompare(b.due) || a.id.localeCompare(b.id));
  for (const [index, job] of byDue.entries()) {
    const outcome = estimateOne(firm, job, stock, seed + index);
    if ('reasons' in outcome) refused.push(outcome);
    else {
      estimated.push(outcome);
      stock = stockAfter(stock, outcome);
    }
    onDone(index + 1);
  }
  return { estimated, refused };
}

/**
 * Estimates one job of the firm with the gear of the yard nearest to its site, or with all of it where that can't do.
 *
 * @param cylinders the stock that the job may use
 */
export function estimateOne(
  firm: Firm,
  job: Job,
  cylinders: readonly Cylinder[],
  seed: number,
): EstimatedJob | Refusal {
  const place = placeOf(firm, job);
  if ('reasons' in place) return place;
  const { chiller, site } = place;
  const estimateWith = (
    gear: readonly GearUnit[],
    stock: readonly Cylinder[],
  ): ReturnType<typeof estimateJob> =>
    estimateJob({
      job,
      chiller,
      site,
      gear: gear.filter((unit) => isCalibrated(unit, job)),
      cylinders: stock,
      norms: normsWith(firm.rateCard.timeNorms ?? []),
      worth: worthOf(firm.rateCard, chiller.refrigerant),
      spareCylinders: SPARE_CYLINDERS,
      ...firm.rateCard.policy,
      seed,
      samples: SAMPLES,
    });
  const home = nearestBase(firm, site);
  const nearby = estimateWith(
    firm.gear.filter(({ baseId }) => baseId === home),
    cylinders.filter(({ baseId }) => baseId === home),
  );
  const result = nearby.ok ? nearby : estimateWith(firm.gear, cylinders);
  if (!result.ok) return refusalOf(job, result.problems);
  const isLow = pressureClass(refrigerant(chiller.refrigerant)) === 'low';
  return {
    job,
    site,
    chiller,
    estimate: result.value,
    skill: isLow ? LOW_PRESSURE_SKILL : HIGH_PRESSURE_SKILL,
    supplyIds: result.value.supply?.cylinderIds ?? [],
  };
}

/** A day's charge is spread over the hours of a working day. */
const WORKING_DAY_H = 8;

/** What the card says of an hour and a kilogram; the labour hour is the mean of its classes, crews are mixed. */
function worthOf(card: RateCard, refrigerantName: string): Worth {
  const labour_minor = card.labour.reduce((sum, { costPerHour_minor }) => sum + costPerHour_minor, 0);
  const price = card.refrigerants.find(({ refrigerant: name }) => name === refrigerantName)?.price;
  return {
    currency: card.currency,
    personHour_minor: labour_minor / card.labour.length,
    gearHour_minor: Object.fromEntries(
      card.gearPerDay.map(({ kind, costPerDay_minor }) => [kind, costPerDay_minor / WORKING_DAY_H]),
    ),
    cylinderHour_minor: card.cylinderPerDay_minor / WORKING_DAY_H,
    refrigerant_minor_per_kg: price ? price.minorUnits / price.per_kg : null,
  };
}

function placeOf(firm: Firm, job: Job): { readonly chiller: Chiller; readonly site: Site } | Refusal {
  const chiller = firm.chillers.find(({ id }) => id === job.chillerId);
  const site = firm.sites.find(({ id }) => id === chiller?.siteId);
  if (chiller && site) return { chiller, site };
  const missing = chiller ? `site ${chiller.siteId}` : `chiller ${job.chillerId}`;
  return refusalOf(job, [
    { code: 'unknown-place', path: 'job.chiller', message: `${missing} is not in the register` },
  ]);
}

/** Gear is sent from the yard nearest to the site; from the others only when the job can't be done without. */
function nearestBase(firm: Firm, site: Site): string | undefined {
  return firm.bases.toSorted((a, b) => roadDistance(a, site) - roadDistance(b, site))[0]?.id;
}

function isCalibrated(unit: GearUnit, job: Job): boolean {
  return unit.calibrationDue === null || unit.calibrationDue >= job.due.slice(0, 10);
}

function refusalOf(job: Job, reasons: readonly EstimateProblem[]): Refusal {
  return { id: job.id, title: job.title, reasons };
}

function stockAfter(stock: readonly Cylinder[], { estimate, supplyIds }: EstimatedJob): readonly Cylinder[] {
  const stayFull = estimate.account.after_kg === 0 ? (estimate.cylinders?.chosenIds ?? []) : [];
  const gone = new Set([...supplyIds, ...stayFull]);
  return stock.filter(({ id }) => !gone.has(id));
}
