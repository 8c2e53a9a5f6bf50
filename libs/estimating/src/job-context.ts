import type { Chiller, CircuitOrder, Job, Site } from '@brimline/firm';
import {
  formatQuantity,
  OutOfDomainError,
  PASCALS_PER_PSI,
  refusal,
  type Result,
  STANDARD_ATMOSPHERE_PA,
  success,
} from '@brimline/quantities';
import {
  bubblePressure,
  type PressureClass,
  pressureClass,
  type Refrigerant,
  refrigerant,
  UnknownRefrigerantError,
} from '@brimline/refrigerants';
import { internalVolumeFromCharge } from '@brimline/transfer';
import type { EstimateProblem, TopUpFacts } from './estimate.ts';
import { topUpFacts } from './missing-charge.ts';
import { LARGE_CHARGE_KG, type Norms } from './norms.ts';
import type { EstimateRequest } from './request.ts';

/** Share of a cylinder's contents that stays behind as heel: 1 to 3 %, common practice, no source. */
export const HEEL_SHARE = 0.02;
/** Liquid left in low spots when the liquid stops: assumed, low confidence, 2 to 10 % of the charge. */
export const TRAPPED_SHARE = { low: 0.02, likely: 0.05, high: 0.1 } as const;
/** Rupture discs of low-pressure machines open at 15 psig: test at 10 psig at most (public 608 type III texts). */
const LOW_PRESSURE_TEST_PA = 10.05 * PASCALS_PER_PSI;

export interface InternalVolume {
  readonly volume_m3: number;
  /** Equal to the volume where somebody measured it. */
  readonly low_m3: number;
  readonly high_m3: number;
  readonly source: string;
  readonly isMeasured: boolean;
}

/** What every step of an estimate knows about its job; masses and volume are of the circuits worked on. */
export interface JobContext {
  readonly request: EstimateRequest;
  readonly job: Job;
  readonly chiller: Chiller;
  readonly site: Site;
  readonly norms: Norms;
  readonly refrigerant: Refrigerant;
  readonly pressureClass: PressureClass;
  readonly ambient_K: number;
  readonly atmosphere_Pa: number;
  readonly nameplate_kg: number;
  /** Refrigerant in the machine when the crew arrives. */
  readonly before_kg: number;
  readonly volume_m3: number;
  readonly volume: InternalVolume;
  readonly trappedShare: number;
  readonly lift_m: number;
  readonly circuits: number;
  readonly circuitOrder: CircuitOrder;
  readonly isLarge: boolean;
  readonly topUp: TopUpFacts | null;
}

/** Standard atmosphere at an elevation (ISO 2533, troposphere; from memory) [Pa]. */
export function atmosphericPressure(elevation_m: number): number {
  return STANDARD_ATMOSPHERE_PA * (1 - 2.25577e-5 * elevation_m) ** 5.25588;
}

/** Gathers what is known of the job, or says what stops the estimate. */
export function jobContext(request: EstimateRequest): Result<JobContext, EstimateProblem> {
  const { job, chiller, site } = request;
  const gas = knownRefrigerant(chiller.refrigerant);
  const problems = [...stops(request), ...(gas.ok ? [] : gas.problems)];
  if (problems.length > 0 || chiller.nameplateCharge_kg === null || !gas.ok) return refusal(...problems);
  const ambient_K = job.known?.ambient_K ?? site.ambient_K[Number(job.notBefore.slice(5, 7)) - 1] ?? 293.15;
  const outside = outsideTable(gas.value, ambient_K);
  if (outside) return refusal(outside);
  const circuits = job.circuits ?? chiller.circuits;
  const share = circuits / chiller.circuits;
  const nameplate_kg = chiller.nameplateCharge_kg * share;
  const volume = internalVolume(request, gas.value, share);
  const atmosphere_Pa = atmosphericPressure(site.elevation_m);
  const klass = pressureClass(gas.value);
  const tooHigh = testTooHigh(chiller, klass);
  if (tooHigh) return refusal(tooHigh);
  const topUp =
    job.scope === 'top-up'
      ? topUpFacts({
          job,
          chiller,
          gas: gas.value,
          nameplate_kg,
          volume_m3: volume.volume_m3,
          atmosphere_Pa,
        })
      : success(null);
  if (!topUp.ok) return topUp;
  const before = chargeBefore(job, nameplate_kg, topUp.value);
  if (!before.ok) return before;
  return success({
    request,
    job,
    chiller,
    site,
    norms: request.norms,
    refrigerant: gas.value,
    pressureClass: klass,
    ambient_K,
    atmosphere_Pa,
    nameplate_kg,
    before_kg: before.value,
    volume_m3: volume.volume_m3,
    volume,
    trappedShare: job.known?.trappedShare ?? TRAPPED_SHARE.likely,
    lift_m: job.known?.lift_m ?? 0,
    circuits,
    circuitOrder: job.setup.circuitOrder ?? 'together',
    isLarge: nameplate_kg >= LARGE_CHARGE_KG,
    topUp: topUp.value,
  });
}

function knownRefrigerant(name: string): Result<Refrigerant, EstimateProblem> {
  try {
    return success(refrigerant(name));
  } catch (error) {
    if (!(error instanceof UnknownRefrigerantError)) throw error;
    return refusal({ code: 'unknown-refrigerant', path: 'chiller.refrigerant', message: error.message });
  }
}

function outsideTable(gas: Refrigerant, ambient_K: number): EstimateProblem | null {
  try {
    bubblePressure(gas, ambient_K);
    return null;
  } catch (error) {
    if (!(error instanceof OutOfDomainError)) throw error;
    return { code: 'ambient-outside-table', path: 'job.known.ambient', message: error.message };
  }
}

function stops({ job, chiller, site, certainty = 0.8, samples }: EstimateRequest): EstimateProblem[] {
  const problems: EstimateProblem[] = [];
  const stop = (code: string, path: string, message: string): void => {
    problems.push({ code, path, message });
  };
  if (chiller.nameplateCharge_kg === null) {
    stop(
      'nameplate-unknown',
      'chiller.nameplateCharge',
      `${chiller.id} has no readable nameplate charge: read the plate before quoting, the charge is never guessed`,
    );
  } else requireAbove('chiller.nameplateCharge', chiller.nameplateCharge_kg, 'kg', stop);
  const { circuits = chiller.circuits, known = {} } = job;
  if (!(Number.isInteger(circuits) && circuits >= 1 && circuits <= chiller.circuits)) {
    stop(
      'bad-value',
      'job.circuits',
      `${circuits} is not allowed; expected a whole number, 1 to ${chiller.circuits}`,
    );
  }
  requireAbove('job.evacuationTarget', job.evacuationTarget_Pa, 'Pa', stop);
  if (!(job.openWork_s >= 0 && Number.isFinite(job.openWork_s)))
    stop('bad-value', 'job.openWork', `${job.openWork_s} s is not allowed; expected 0 or above`);
  if (job.moisture_kg !== null && !(job.moisture_kg >= 0 && Number.isFinite(job.moisture_kg)))
    stop('bad-value', 'job.moisture', `${job.moisture_kg} kg is not allowed; expected 0 or above`);
  if (job.missing_kg !== null) requireAbove('job.missing', job.missing_kg, 'kg', stop);
  for (const [field, value] of [
    ['internalVolume', known.internalVolume_m3],
    ['presentCharge', known.presentCharge_kg],
    ['hoseRun', known.hoseRun_m],
  ] as const)
    if (value !== undefined) requireAbove(`job.known.${field}`, value, 'in SI', stop);
  if (known.trappedShare !== undefined && !(known.trappedShare >= 0 && known.trappedShare <= 0.3))
    stop('bad-value', 'job.known.trapped', `${known.trappedShare} is not allowed; expected 0 to 0.3`);
  if (!(certainty > 0 && certainty < 1))
    stop('bad-value', 'certainty', `${certainty} is not allowed; expected above 0 and below 1`);
  if (!(Number.isInteger(samples) && samples >= 200))
    stop('bad-value', 'samples', `${samples} is not allowed; expected a whole number, 200 or more`);
  if (site.ambient_K.length !== 12)
    stop(
      'bad-value',
      'site.ambientByMonth',
      `${site.ambient_K.length} temperatures are not allowed; expected 12`,
    );
  return problems;
}

function requireAbove(
  path: string,
  value: number,
  unit: string,
  stop: (code: string, path: string, message: string) => void,
): void {
  if (!(value > 0 && Number.isFinite(value)))
    stop('bad-value', path, `${value} ${unit} is not allowed; expected a finite number above 0`);
}

function testTooHigh(chiller: Chiller, klass: PressureClass): EstimateProblem | null {
  if (klass !== 'low' || chiller.testPressure_Pa_gauge <= LOW_PRESSURE_TEST_PA) return null;
  const asked = formatQuantity(chiller.testPressure_Pa_gauge, 'gauge pressure', 'psig', 0);
  return {
    code: 'test-pressure-too-high',
    path: 'chiller.testPressure',
    message: `${asked} is not allowed on a low-pressure machine; expected 10 psig or less, its disc opens at 15 psig`,
  };
}

/** Refrigerant in the machine at arrival; more in it than its plate says is recovered, but never charged back. */
function chargeBefore(
  job: Job,
  nameplate_kg: number,
  topUp: TopUpFacts | null,
): Result<number, EstimateProblem> {
  if (topUp) {
    if (topUp.missing_kg <= nameplate_kg) return success(nameplate_kg - topUp.missing_kg);
    const [missing, plate] = [topUp.missing_kg, nameplate_kg].map((mass) =>
      formatQuantity(mass, 'mass', 'lb', 0),
    );
    return refusal({
      code: 'overcharge',
      path: 'job.missing',
      message: `adding ${missing} would pass the nameplate charge of ${plate}`,
    });
  }
  const isEmpty = job.scope !== 'recover and recharge' && job.scope !== 'recover only';
  return success(isEmpty ? 0 : (job.known?.presentCharge_kg ?? nameplate_kg));
}

function internalVolume({ job, chiller }: EstimateRequest, gas: Refrigerant, share: number): InternalVolume {
  const given_m3 = job.known?.internalVolume_m3 ?? chiller.internalVolume_m3;
  if (given_m3 !== null) {
    const volume_m3 = given_m3 * share;
    const source = job.known?.internalVolume_m3 === undefined ? 'machine register' : 'job';
    return { volume_m3, low_m3: volume_m3, high_m3: volume_m3, source, isMeasured: true };
  }
  const { volume_m3, low_m3, high_m3, source } = internalVolumeFromCharge({
    refrigerant: gas,
    charge_kg: chiller.nameplateCharge_kg! * share,
    evaporator: chiller.evaporator,
  });
  return { volume_m3, low_m3, high_m3, source, isMeasured: false };
}
