import type { Chiller, Firm, Job, Scope, SetupWishes, Site } from '@brimline/firm';
import { formatNumber, fromSi, parseQuantity, refusal, type Result, success } from '@brimline/quantities';
import type { UnitSystem } from '../format/measures.ts';
import { words } from '../words.ts';
import { FACT_NAMES, type FactName, FACTS, writtenUnit } from './facts.ts';

/** What stands in the form: facts as they were typed, choices, and wishes for how the work is done. */
export interface Draft {
  readonly jobId: string;
  readonly scope: Scope;
  readonly refrigerant: string;
  readonly cooling: Chiller['cooling'];
  readonly evaporator: Chiller['evaporator'];
  readonly circuits: number;
  readonly waterFlow: boolean;
  readonly wishes: SetupWishes;
  /** Typed facts; those that nobody has touched follow the units of the page. */
  readonly typed: Readonly<Partial<Record<FactName, string>>>;
}

export interface FactProblem {
  readonly fact: FactName;
  readonly message: string;
}

interface Stored {
  readonly job: Job;
  readonly chiller: Chiller;
  readonly site: Site;
}

/** The job with its machine and site as the registers hold them; null where one of them is missing. */
export function storedJob(firm: Firm, jobId: string): Stored | null {
  const job = firm.jobs.find(({ id }) => id === jobId);
  const chiller = firm.chillers.find(({ id }) => id === job?.chillerId);
  const site = firm.sites.find(({ id }) => id === chiller?.siteId);
  return job && chiller && site ? { job, chiller, site } : null;
}

/** The form as it opens: everything as stored. */
export function draftOf({ job, chiller }: Stored): Draft {
  return {
    jobId: job.id,
    scope: job.scope,
    refrigerant: chiller.refrigerant,
    cooling: chiller.cooling,
    evaporator: chiller.evaporator,
    circuits: chiller.circuits,
    waterFlow: chiller.waterFlow,
    wishes: job.setup,
    typed: {},
  };
}

function storedValue({ job, chiller, site }: Stored, fact: FactName): number | null {
  switch (fact) {
    case 'nameplateCharge':
      return chiller.nameplateCharge_kg;
    case 'internalVolume':
      return chiller.internalVolume_m3;
    case 'liquidPort':
      return chiller.liquidPort_m;
    case 'vapourPort':
      return chiller.vapourPort_m;
    case 'outdoorAir':
      return ambientOf(site, job);
    case 'openWork':
      return job.openWork_s;
    case 'missing':
      return job.missing_kg;
    case 'moisture':
      return job.moisture_kg;
  }
}

function ambientOf(site: Site, job: Job): number {
  return site.ambient_K[Number(job.notBefore.slice(5, 7)) - 1]!;
}

/** What a field shows: what was typed, or the stored value in the page's units; empty where nothing is known. */
export function factText(stored: Stored, draft: Draft, fact: FactName, units: UnitSystem): string {
  const typed = draft.typed[fact];
  if (typed !== undefined) return typed;
  const value_SI = storedValue(stored, fact);
  if (value_SI === null) return '';
  const { dimension, unit, digits } = FACTS[fact];
  const value = formatNumber(fromSi(value_SI, dimension, unit[units]), digits[units]);
  return `${value} ${writtenUnit(unit[units])}`;
}

/** Facts that the scope has no use for are neither shown nor read. */
export function isAsked(fact: FactName, scope: Scope): boolean {
  if (fact === 'missing') return scope === 'top-up';
  if (fact === 'moisture') return scope !== 'top-up' && scope !== 'recover only';
  return fact !== 'openWork' || scope === 'recover and recharge';
}

/** The firm with the job and its machine as the form says, or every fact that can't be read. */
export function firmOf(firm: Firm, stored: Stored, draft: Draft): Result<Firm, FactProblem> {
  const values = new Map<FactName, number | null>();
  const problems: FactProblem[] = [];
  for (const fact of FACT_NAMES.filter((one) => isAsked(one, draft.scope))) {
    const read = readFact(stored, draft, fact);
    if (read.ok) values.set(fact, read.value);
    else problems.push(...read.problems);
  }
  if (problems.length > 0) return refusal(...problems);
  const { chiller, job, site } = changed(stored, draft, values);
  const swap = <Row extends { readonly id: string }>(rows: readonly Row[], row: Row): Row[] =>
    rows.map((one) => (one.id === row.id ? row : one));
  return success({
    ...firm,
    chillers: swap(firm.chillers, chiller),
    jobs: swap(firm.jobs, job),
    sites: swap(firm.sites, site),
  });
}

function readFact(stored: Stored, draft: Draft, fact: FactName): Result<number | null, FactProblem> {
  const typed = draft.typed[fact];
  const { dimension, optional, least } = FACTS[fact];
  const value_SI = storedValue(stored, fact);
  if (typed === undefined && (value_SI !== null || optional)) return success(value_SI);
  const text = (typed ?? '').trim();
  if (text === '') return optional ? success(null) : refusal({ fact, message: words.whatIf.needed });
  const read = parseQuantity(text, dimension);
  if (!read.ok) return refusal({ fact, message: words.whatIf.notAllowed(text, read.allowed) });
  const isTooSmall = least.above ? read.value_SI <= least.value_SI : read.value_SI < least.value_SI;
  if (!isTooSmall) return success(read.value_SI);
  return refusal({ fact, message: words.whatIf.notAllowed(text, words.whatIf.least(least.above)) });
}

function changed({ job, chiller, site }: Stored, draft: Draft, values: Map<FactName, number | null>): Stored {
  const given = (fact: FactName): number => values.get(fact)!;
  const { scope, wishes, refrigerant, cooling, evaporator, circuits, waterFlow } = draft;
  return {
    job: {
      ...job,
      scope,
      setup: wishes,
      openWork_s: values.get('openWork') ?? 0,
      missing_kg: values.get('missing') ?? null,
      moisture_kg: values.get('moisture') ?? null,
    },
    chiller: {
      ...chiller,
      refrigerant,
      cooling,
      evaporator,
      circuits,
      waterFlow,
      nameplateCharge_kg: given('nameplateCharge'),
      internalVolume_m3: values.get('internalVolume') ?? null,
      liquidPort_m: given('liquidPort'),
      vapourPort_m: given('vapourPort'),
    },
    site: { ...site, ambient_K: site.ambient_K.map(() => given('outdoorAir')) },
  };
}
