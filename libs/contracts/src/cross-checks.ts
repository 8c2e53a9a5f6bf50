import type { Firm } from '@brimline/firm';
import { type FileProblem, fieldPath, shownValue } from './file-problem.ts';

/** Where each part of the firm was read. */
export interface Origins {
  readonly firm: string;
  readonly sites: string;
  readonly gear: string;
  readonly cylinders: string;
  readonly crew: string;
  readonly rateCard: string;
  readonly jobs: ReadonlyMap<string, string>;
}

type Report = (file: string, path: readonly PropertyKey[], value: unknown, allowed: string) => void;

/** What no single file can know: that names are unique and lead somewhere. */
export function crossChecks(firm: Firm, origins: Origins, refrigerants: readonly string[]): FileProblem[] {
  const problems: FileProblem[] = [];
  const report: Report = (file, path, value, allowed) =>
    problems.push({ file, field: fieldPath(path), value: shownValue(value), allowed });
  checkPlaces(firm, origins, refrigerants, report);
  checkGear(firm, origins, refrigerants, report);
  checkCrew(firm, origins, report);
  checkJobs(firm, origins, report);
  return problems;
}

function unique(
  report: Report,
  file: string,
  list: string,
  ids: readonly string[],
  taken: Set<string>,
): void {
  for (const [index, id] of ids.entries()) {
    if (taken.has(id)) report(file, [list, index, 'id'], id, 'a name that nothing else has');
    taken.add(id);
  }
}

function known(
  report: Report,
  file: string,
  path: readonly PropertyKey[],
  name: string,
  names: readonly string[],
): void {
  if (!names.includes(name)) report(file, path, name, `one of: ${names.join(', ')}`);
}

function checkPlaces(firm: Firm, origins: Origins, refrigerants: readonly string[], report: Report): void {
  const taken = new Set<string>();
  unique(
    report,
    origins.firm,
    'bases',
    firm.bases.map(({ id }) => id),
    taken,
  );
  unique(
    report,
    origins.sites,
    'sites',
    firm.sites.map(({ id }) => id),
    taken,
  );
  const chillers = new Set<string>();
  for (const [siteIndex, site] of firm.sites.entries()) {
    const own = firm.chillers.filter(({ siteId }) => siteId === site.id);
    for (const [index, { id, refrigerant }] of own.entries()) {
      const path = ['sites', siteIndex, 'chillers', index];
      if (chillers.has(id)) report(origins.sites, [...path, 'id'], id, 'a tag that no other machine has');
      chillers.add(id);
      known(report, origins.sites, [...path, 'refrigerant'], refrigerant, refrigerants);
    }
  }
}

function checkGear(firm: Firm, origins: Origins, refrigerants: readonly string[], report: Report): void {
  const bases = firm.bases.map(({ id }) => id);
  const taken = new Set<string>();
  unique(
    report,
    origins.gear,
    'gear',
    firm.gear.map(({ id }) => id),
    taken,
  );
  unique(
    report,
    origins.cylinders,
    'cylinders',
    firm.cylinders.map(({ id }) => id),
    taken,
  );
  unique(
    report,
    origins.crew,
    'people',
    firm.people.map(({ id }) => id),
    taken,
  );
  for (const [index, unit] of firm.gear.entries()) {
    known(report, origins.gear, ['gear', index, 'base'], unit.baseId, bases);
    if (unit.lastRefrigerant !== null) {
      known(report, origins.gear, ['gear', index, 'lastRefrigerant'], unit.lastRefrigerant, refrigerants);
    }
    if (unit.kind === 'recovery machine') {
      known(report, origins.gear, ['gear', index, 'ratingRefrigerant'], unit.ratingRefrigerant, refrigerants);
    }
    if (unit.kind === 'hose set') {
      for (const [field, bore_m] of [
        ['fittingBore', unit.fittingBore_m],
        ['valveBore', unit.valveBore_m],
      ] as const) {
        if (bore_m > unit.bore_m)
          report(origins.gear, ['gear', index, field], `${bore_m} m`, 'no wider than the bore');
      }
    }
  }
  for (const [index, cylinder] of firm.cylinders.entries()) {
    const path = ['cylinders', index];
    known(report, origins.cylinders, [...path, 'base'], cylinder.baseId, bases);
    if (cylinder.refrigerant !== null) {
      known(report, origins.cylinders, [...path, 'refrigerant'], cylinder.refrigerant, refrigerants);
    }
    if (cylinder.contents_kg > 0 && cylinder.refrigerant === null) {
      report(origins.cylinders, [...path, 'refrigerant'], undefined, 'the refrigerant that it holds');
    }
    if (cylinder.contents_kg > 0 === (cylinder.contentsKind === 'empty')) {
      report(
        origins.cylinders,
        [...path, 'contentsKind'],
        cylinder.contentsKind,
        '"empty" exactly when contents are 0',
      );
    }
  }
}

function checkCrew(firm: Firm, origins: Origins, report: Report): void {
  const bases = firm.bases.map(({ id }) => id);
  const classes = firm.rateCard.labour.map(({ labourClass }) => labourClass);
  for (const [index, person] of firm.people.entries()) {
    known(report, origins.crew, ['people', index, 'base'], person.baseId, bases);
    known(report, origins.crew, ['people', index, 'labourClass'], person.labourClass, classes);
  }
}

function checkJobs(firm: Firm, origins: Origins, report: Report): void {
  const chillers = firm.chillers.map(({ id }) => id);
  const idsOf = (kind: string): string[] =>
    firm.gear.filter((unit) => unit.kind === kind).map(({ id }) => id);
  for (const { id, chillerId, setup, circuits, sameVisitAs } of firm.jobs) {
    const file = origins.jobs.get(id) ?? id;
    known(report, file, ['chiller'], chillerId, chillers);
    const chiller = firm.chillers.find((one) => one.id === chillerId);
    if (chiller && circuits !== undefined && circuits > chiller.circuits)
      report(file, ['circuits'], circuits, `at most ${chiller.circuits}, the circuits of ${chillerId}`);
    if (sameVisitAs !== undefined) checkVisit(firm, chiller?.siteId, sameVisitAs, report, file);
    if (setup.vacuumHoseSetId !== undefined)
      known(report, file, ['setup', 'vacuumHoseSetId'], setup.vacuumHoseSetId, idsOf('hose set'));
    if (setup.hoseSetId !== undefined)
      known(report, file, ['setup', 'hoseSetId'], setup.hoseSetId, idsOf('hose set'));
    for (const [index, machine] of (setup.machineIds ?? []).entries()) {
      known(report, file, ['setup', 'machineIds', index], machine, idsOf('recovery machine'));
    }
    for (const [index, pump] of (setup.pumpIds ?? []).entries()) {
      known(report, file, ['setup', 'pumpIds', index], pump, idsOf('vacuum pump'));
    }
  }
}

function checkVisit(
  firm: Firm,
  siteId: string | undefined,
  sameVisitAs: string,
  report: Report,
  file: string,
): void {
  const siteOf = ({ chillerId }: Firm['jobs'][number]): string | undefined =>
    firm.chillers.find(({ id }) => id === chillerId)?.siteId;
  const there = firm.jobs.filter((job) => siteId !== undefined && siteOf(job) === siteId);
  const others = there.filter((job) => job.sameVisitAs === undefined).map(({ id }) => id);
  known(report, file, ['sameVisitAs'], sameVisitAs, others);
}
