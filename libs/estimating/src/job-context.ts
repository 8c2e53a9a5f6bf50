import type { Chiller, Job, Site } from '@brimline/firm';
import { formatQuantity, refusal, type Result, STANDARD_ATMOSPHERE_PA, success } from '@brimline/quantities';
import { type Refrigerant, refrigerant, UnknownRefrigerantError } from '@brimline/refrigerants';
import { internalVolumeFromCharge } from '@brimline/transfer';
import type { Assumption, EstimateProblem } from './estimate.ts';
import { LARGE_CHARGE_KG, type Norms } from './norms.ts';
import type { EstimateRequest } from './request.ts';

/** Share of a cylinder's contents that stays behind as heel: 1 to 3 %, common practice, no source. */
export const HEEL_SHARE = 0.02;

/** What every step of an estimate knows about its job. */
export interface JobContext {
  readonly request: EstimateRequest;
  readonly job: Job;
  readonly chiller: Chiller;
  readonly site: Site;
  readonly norms: Norms;
  readonly refrigerant: Refrigerant;
  readonly ambient_K: number;
  readonly atmosphere_Pa: number;
  readonly nameplate_kg: number;
  /** Refrigerant in the machine when the crew arrives. */
  readonly before_kg: number;
  readonly volume_m3: number;
  readonly isLarge: boolean;
  readonly assumptions: readonly Assumption[];
}

/** Standard atmosphere at an elevation (ISO 2533, troposphere; from memory) [Pa]. */
export function atmosphericPressure(elevation_m: number): number {
  return STANDARD_ATMOSPHERE_PA * (1 - 2.25577e-5 * elevation_m) ** 5.25588;
}

/** Gathers what is known of the job, assumes what is not and says so, or says what stops the estimate. */
export function jobContext(request: EstimateRequest): Result<JobContext, EstimateProblem> {
  const { job, chiller, site } = request;
  const nameplate_kg = chiller.nameplateCharge_kg;
  const gas = knownRefrigerant(chiller.refrigerant);
  const problems = [...stops(job, chiller), ...(gas.ok ? [] : gas.problems)];
  if (problems.length > 0 || nameplate_kg === null || !gas.ok) return refusal(...problems);
  const ambient_K = site.ambient_K[Number(job.notBefore.slice(5, 7)) - 1] ?? 293.15;
  const volume = internalVolume(chiller, gas.value, nameplate_kg, ambient_K);
  return success({
    request,
    job,
    chiller,
    site,
    norms: request.norms,
    refrigerant: gas.value,
    ambient_K,
    atmosphere_Pa: atmosphericPressure(site.elevation_m),
    nameplate_kg,
    before_kg: chargeBefore(job, nameplate_kg),
    volume_m3: volume.volume_m3,
    isLarge: nameplate_kg >= LARGE_CHARGE_KG,
    assumptions: [
      ...volume.assumptions,
      {
        id: 'ambient',
        label: 'temperature round the machine',
        value: ambient_K,
        unit: 'K',
        effect: 'sets every saturation pressure and so the transfer rates',
        source: 'site, by month',
      },
    ],
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

function stops(job: Job, chiller: Chiller): EstimateProblem[] {
  const problems: EstimateProblem[] = [];
  const { nameplateCharge_kg } = chiller;
  if (nameplateCharge_kg === null) {
    problems.push({
      code: 'nameplate-unknown',
      path: 'chiller.nameplateCharge',
      message: `${chiller.id} has no readable nameplate charge: read the plate before quoting, the charge is never guessed`,
    });
  }
  if (job.scope === 'top-up' && job.missing_kg === null) {
    problems.push({
      code: 'missing-unknown',
      path: 'job.missing',
      message: 'a top-up needs the mass that is missing',
    });
  }
  if (nameplateCharge_kg !== null && job.missing_kg !== null && job.missing_kg > nameplateCharge_kg) {
    const [missing, plate] = [job.missing_kg, nameplateCharge_kg].map((mass) =>
      formatQuantity(mass, 'mass', 'lb', 0),
    );
    problems.push({
      code: 'overcharge',
      path: 'job.missing',
      message: `adding ${missing} would pass the nameplate charge of ${plate}`,
    });
  }
  return problems;
}

function chargeBefore(job: Job, nameplate_kg: number): number {
  if (job.scope === 'top-up') return nameplate_kg - (job.missing_kg ?? 0);
  return job.scope === 'recharge' || job.scope === 'evacuate and recharge' ? 0 : nameplate_kg;
}

function internalVolume(
  chiller: Chiller,
  gas: Refrigerant,
  charge_kg: number,
  temperature_K: number,
): { readonly volume_m3: number; readonly assumptions: readonly Assumption[] } {
  if (chiller.internalVolume_m3 !== null) return { volume_m3: chiller.internalVolume_m3, assumptions: [] };
  const { evaporator } = chiller;
  const { volume_m3, source } = internalVolumeFromCharge({
    refrigerant: gas,
    charge_kg,
    temperature_K,
    evaporator,
  });
  return {
    volume_m3,
    assumptions: [
      {
        id: 'internal-volume',
        label: 'internal volume of the machine',
        value: volume_m3,
        unit: 'm3',
        effect: 'every vapour, vacuum and nitrogen time goes with it; weigh the nitrogen to measure it',
        source,
      },
    ],
  };
}
