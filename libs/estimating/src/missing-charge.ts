import type { Chiller, Job } from '@brimline/firm';
import {
  formatNumber,
  formatQuantity,
  KELVIN_AT_ZERO_CELSIUS,
  PASCALS_PER_PSI,
  refusal,
  type Result,
  success,
} from '@brimline/quantities';
import { dewPressure, type Refrigerant, vapourDensity } from '@brimline/refrigerants';
import { additionsBefore, leakRate, leakRule } from '@brimline/rules';
import type { EstimateProblem, Reason, ReasonInput, TopUpFacts } from './estimate.ts';

/** A reading this close to saturation can't be told from it: gauges and thermometers, assumed. */
const READING_SLACK = 0.03;
const YEAR_DAYS = 365;

export interface TopUpInput {
  readonly job: Job;
  readonly chiller: Chiller;
  readonly gas: Refrigerant;
  readonly nameplate_kg: number;
  readonly volume_m3: number;
  readonly atmosphere_Pa: number;
}

type Missing = Pick<TopUpFacts, 'missing_kg' | 'basis' | 'reason'>;

/**
 * What is missing in a top-up: as given, from a pressure below saturation at rest (then only vapour is left), or from
 * the records of earlier additions; and what adding it says of the leak rate.
 */
export function topUpFacts(input: TopUpInput): Result<TopUpFacts, EstimateProblem> {
  const missing = missingCharge(input);
  if (!missing.ok) return missing;
  const { missing_kg } = missing.value;
  const { job, gas, nameplate_kg } = input;
  const on = job.notBefore.slice(0, 10);
  const last = earlierAdditions(job).at(-1);
  const days = Math.max(1, Math.min(YEAR_DAYS, last?.daysAgo ?? YEAR_DAYS));
  const rate = leakRate({
    charge_kg: nameplate_kg,
    use: job.leakRecord?.use ?? 'comfort cooling',
    history: { method: 'annualizing', added_kg: missing_kg, daysSinceLastAddition: days },
  });
  const rule = leakRule({ refrigerant: gas, charge_kg: nameplate_kg, on });
  return success({
    ...missing.value,
    percentPerYear: rate.percentPerYear,
    threshold: rate.threshold,
    exceeded: rate.exceeded,
    withinRate_kg: (rate.threshold / 100) * nameplate_kg * (days / YEAR_DAYS),
    rule: rule.rule === 'none' ? `no leak-repair rule: ${rule.notes.join(' ')}` : rule.citation,
  });
}

function missingCharge(input: TopUpInput): Result<Missing, EstimateProblem> {
  const { job } = input;
  if (job.missing_kg !== null) return success(asGiven(job.missing_kg));
  if (job.idleReading) return fromReading(input, job.idleReading);
  if (job.leakRecord) return fromRecords(input);
  return refusal({
    code: 'missing-unknown',
    path: 'job.missing',
    message:
      'a top-up needs the mass that is missing, a reading at rest, or the records of earlier additions',
  });
}

function reasonOf(
  missing_kg: number,
  formula: string,
  source: string,
  inputs: readonly ReasonInput[] = [],
): Reason {
  return { label: 'missing', value: missing_kg, unit: 'kg', formula, inputs, limitedBy: null, source };
}

function asGiven(missing_kg: number): Missing {
  return { missing_kg, basis: 'given', reason: reasonOf(missing_kg, 'given', 'job file') };
}

function fromReading(
  { gas, nameplate_kg, volume_m3, atmosphere_Pa }: TopUpInput,
  { pressure_Pa_gauge, temperature_K }: NonNullable<Job['idleReading']>,
): Result<Missing, EstimateProblem> {
  const pressure_Pa = atmosphere_Pa + pressure_Pa_gauge;
  const saturation_Pa = dewPressure(gas, temperature_K);
  const path = 'job.idleReading';
  const shown = `${formatQuantity(pressure_Pa_gauge, 'gauge pressure', 'psig', 0)} at ${formatNumber(temperature_K - KELVIN_AT_ZERO_CELSIUS, 0)} degC`;
  if (pressure_Pa <= 0)
    return refusal({ code: 'reading-impossible', path, message: `${shown} lies below a perfect vacuum` });
  if (pressure_Pa > saturation_Pa * (1 + READING_SLACK)) {
    const message = `${shown} is above saturation (${formatNumber((saturation_Pa - atmosphere_Pa) / PASCALS_PER_PSI, 0)} psig): air, the wrong refrigerant, or a reading not at rest`;
    return refusal({ code: 'reading-above-saturation', path, message });
  }
  if (pressure_Pa > saturation_Pa * (1 - READING_SLACK)) {
    const message = `${shown} is saturation: there is liquid, and the pressure does not tell how much; give "missing", the records, or weigh the charge out`;
    return refusal({ code: 'reading-tells-nothing', path, message });
  }
  const left_kg = vapourDensity(gas, temperature_K, pressure_Pa) * volume_m3;
  if (left_kg >= nameplate_kg) {
    const message = `${shown} would mean ${formatQuantity(left_kg, 'mass', 'lb', 0)} as vapour, more than the nameplate charge: check the internal volume`;
    return refusal({ code: 'reading-impossible', path, message });
  }
  const missing_kg = nameplate_kg - left_kg;
  return success({
    missing_kg,
    basis: 'pressure and temperature',
    reason: reasonOf(
      missing_kg,
      'nameplate - rhoV(T, P) V: below saturation no liquid is left',
      'job file; vapour density',
      [
        { label: 'pressure', value: pressure_Pa / 1000, unit: 'kPa abs', source: 'job' },
        { label: 'saturation', value: saturation_Pa / 1000, unit: 'kPa abs', source: 'saturation table' },
        { label: 'internal volume', value: volume_m3, unit: 'm3', source: 'as for the whole estimate' },
        { label: 'left as vapour', value: left_kg, unit: 'kg', source: 'vapour density' },
      ],
    ),
  });
}

/** Additions before the job, earliest first. */
function earlierAdditions({ notBefore, leakRecord }: Job): ReturnType<typeof additionsBefore> {
  const on = notBefore.slice(0, 10);
  const additions = (leakRecord?.additions ?? []).filter((one) => one.on <= on);
  return additionsBefore(
    on,
    additions.map((one) => ({ date: one.on, added_kg: one.added_kg })),
  );
}

/** The yearly rate of the additions, over the time since the last of them, after which the machine was full. */
function fromRecords({ job, nameplate_kg }: TopUpInput): Result<Missing, EstimateProblem> {
  const path = 'job.leakRecord.additions';
  const additions = earlierAdditions(job);
  const [first, last] = [additions[0], additions.at(-1)];
  if (!first || !last || additions.length < 2 || last.daysAgo < 1) {
    const message =
      'two additions before the job are needed to tell how fast it leaks; give "missing" or "idleReading" instead';
    return refusal({ code: 'records-too-few', path, message });
  }
  const lost_kg = additions.slice(1).reduce((sum, { added_kg }) => sum + added_kg, 0);
  const perDay_kg = lost_kg / (first.daysAgo - last.daysAgo);
  const missing_kg = perDay_kg * last.daysAgo;
  if (missing_kg >= nameplate_kg) {
    const message = `the records would mean ${formatQuantity(missing_kg, 'mass', 'lb', 0)} missing, the whole charge or more: read a pressure at rest`;
    return refusal({ code: 'records-too-much', path, message });
  }
  return success({
    missing_kg,
    basis: 'records',
    reason: reasonOf(
      missing_kg,
      'added since the first addition / days between first and last x days since the last',
      'job file',
      [
        { label: 'added since the first addition', value: lost_kg, unit: 'kg', source: 'job' },
        { label: 'days between', value: first.daysAgo - last.daysAgo, unit: 'd', source: 'job' },
        { label: 'days since the last', value: last.daysAgo, unit: 'd', source: 'job' },
      ],
    ),
  });
}
