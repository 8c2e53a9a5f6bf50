import type { HoseSet, RecoveryMachine, TransferMethod, VacuumPump } from '@brimline/firm';
import { KELVIN_AT_ZERO_CELSIUS, refusal, type Result, success } from '@brimline/quantities';
import { byId } from './by-id.ts';
import type { EstimateProblem } from './estimate.ts';
import { unitsOfKind } from './gear-choice.ts';
import type { JobContext } from './job-context.ts';
import type { TransferWay } from './transfer-way.ts';

/** Vapour rating from which a machine is a large transfer unit, placed on its own: 1 kg/min, common practice. */
export const LARGE_UNIT_KG_S = 1 / 60;

/** Ports and hoses named by the same size differ a little in bore. */
const PORT_SLACK = 1.02;

const METHODS: readonly TransferMethod[] = ['push-pull', 'direct'];

/** Why a machine can't serve this refrigerant; null when it can. */
export function whyNotMachine(context: JobContext, machine: RecoveryMachine): string | null {
  const gas = context.refrigerant;
  if (gas.safetyGroup !== 'A1' && gas.safetyGroup !== 'B1' && !machine.flammableSafe) {
    return `not rated for flammable refrigerants (${gas.name} is ${gas.safetyGroup})`;
  }
  const need = context.pressureClass;
  if (!machine.pressureClasses.includes(need)) return `not built for ${need} pressure refrigerants`;
  return null;
}

function usableMachines(context: JobContext): Result<readonly RecoveryMachine[], EstimateProblem> {
  const wished = context.job.setup.machineIds;
  const owned = unitsOfKind(context.request.gear, 'recovery machine').filter(
    ({ id }) => wished === undefined || wished.includes(id),
  );
  const usable = owned.filter((machine) => whyNotMachine(context, machine) === null);
  if (usable.length > 0) return success(usable);
  return refusal({
    code: 'no-recovery-machine',
    path: 'gear',
    message: `no recovery machine may be used: ${groupedReasons(context, owned) || 'none is free and in calibration'}`,
  });
}

/** Each reason once, with the tags that it holds back. */
function groupedReasons(context: JobContext, machines: readonly RecoveryMachine[]): string {
  const tags = new Map<string, string[]>();
  for (const machine of machines) {
    const why = whyNotMachine(context, machine) ?? '';
    tags.set(why, [...(tags.get(why) ?? []), machine.id]);
  }
  return [...tags].map(([why, ids]) => `${ids.join(', ')}: ${why}`).join('; ');
}

/** Why a hose can't be connected; null when it can. */
export function whyNotHose({ chiller }: JobContext, { use, bore_m }: HoseSet): string | null {
  const widest_m = use === 'transfer' ? chiller.liquidPort_m : chiller.vapourPort_m;
  return bore_m <= widest_m * PORT_SLACK ? null : 'wider than the port that it goes on';
}

function usableHoses(context: JobContext, use: HoseSet['use']): Result<readonly HoseSet[], EstimateProblem> {
  const { hoseSetId, vacuumHoseSetId } = context.job.setup;
  const wished = use === 'transfer' ? hoseSetId : vacuumHoseSetId;
  const hoses = unitsOfKind(context.request.gear, 'hose set').filter(
    (hose) =>
      hose.use === use && whyNotHose(context, hose) === null && (wished === undefined || hose.id === wished),
  );
  if (hoses.length > 0) return success(hoses);
  return refusal({
    code: 'no-hoses',
    path: 'gear',
    message: `no ${use} hose set fits the ports or may be used`,
  });
}

/** One of each rating: units that are alike give the same estimate. */
function distinct<Unit extends { readonly id: string }>(
  units: readonly Unit[],
  ratingOf: (unit: Unit) => string,
): Unit[] {
  const first = new Map<string, Unit>();
  for (const unit of units.toSorted(byId)) {
    if (!first.has(ratingOf(unit))) first.set(ratingOf(unit), unit);
  }
  return [...first.values()];
}

const machineRating = (machine: RecoveryMachine): string =>
  [machine.vapourRate_kg_s, machine.directLiquidRate_kg_s, machine.finalVacuum_Pa, machine.coolerBypass].join(
    ' ',
  );
const hoseRating = (hose: HoseSet): string =>
  [hose.bore_m, hose.length_m, hose.fittingBore_m, hose.valveBore_m].join(' ');

/**
 * Every way that the gear allows and the job does not exclude; the method is compared even where one is wished, unless
 * the request wants no comparison.
 */
export function transferWays(
  context: JobContext,
  onePortOnly: boolean,
): Result<readonly TransferWay[], EstimateProblem> {
  const machines = usableMachines(context);
  const hoses = usableHoses(context, 'transfer');
  if (!machines.ok || !hoses.ok) {
    return refusal(...(machines.ok ? [] : machines.problems), ...(hoses.ok ? [] : hoses.problems));
  }
  const ways: TransferWay[] = [];
  for (const method of methodChoices(context, onePortOnly)) {
    for (const set of machineSets(context, machines.value)) {
      for (const hose of distinct(hoses.value, hoseRating)) {
        for (const coresRemoved of coreChoices(context)) {
          ways.push({
            method,
            machines: set,
            hose,
            coresRemoved,
            coolerBypassed: isBypassed(context, method, set[0]!),
            circuitOrder: context.circuitOrder,
            warmedTo_K: warmedTo(context),
          });
        }
      }
    }
  }
  return success(ways);
}

function methodChoices({ job, request }: JobContext, onePortOnly: boolean): readonly TransferMethod[] {
  if (onePortOnly) return ['direct'];
  const { method } = job.setup;
  return method !== undefined && request.comparesWays === false ? [method] : METHODS;
}

/** One machine of each rating, and two that are alike; all that the job names, where it names more than one. */
function machineSets(
  { job, request }: JobContext,
  machines: readonly RecoveryMachine[],
): readonly (readonly RecoveryMachine[])[] {
  const named = job.setup.machineIds ?? [];
  if (named.length > 1 && machines.length === named.length && request.comparesWays === false)
    return [machines];
  return distinct(machines, machineRating).flatMap((machine) => {
    const alike = machines.filter((other) => machineRating(other) === machineRating(machine));
    return alike.length > 1 ? [[machine], alike.slice(0, 2)] : [[machine]];
  });
}

/** Water of a cooling tower or a heater, warm enough to lift a low-pressure refrigerant: common practice, no source. */
const WARM_WATER_K = 30 + KELVIN_AT_ZERO_CELSIUS;

/** Warm water helps where the machine stands near or below atmosphere and water can flow. */
export function canBeWarmed({ chiller, pressureClass: klass, ambient_K }: JobContext): boolean {
  return klass === 'low' && chiller.waterFlow && ambient_K < WARM_WATER_K;
}

function warmedTo(context: JobContext): number | null {
  return context.job.setup.warmWater === true && canBeWarmed(context) ? WARM_WATER_K : null;
}

/** The same way with warm water, or without. */
export function otherWater(way: TransferWay): TransferWay {
  return { ...way, warmedTo_K: way.warmedTo_K === null ? WARM_WATER_K : null };
}

function coreChoices(context: JobContext): boolean[] {
  const { coresRemoved } = context.job.setup;
  if (coresRemoved !== undefined) return [coresRemoved];
  return unitsOfKind(context.request.gear, 'core tool').length > 0 ? [true, false] : [false];
}

/** Vapour that condenses in the cooler pushes no liquid: where it can be bypassed, leaving it in is only compared. */
function isBypassed({ job }: JobContext, method: TransferMethod, { coolerBypass }: RecoveryMachine): boolean {
  return method === 'push-pull' && coolerBypass && (job.setup.coolerBypassed ?? true);
}

/** The same way with the cooler left in circuit; null where that is no choice. */
export function withCooler({ job }: JobContext, way: TransferWay): TransferWay | null {
  return way.coolerBypassed && job.setup.coolerBypassed === undefined
    ? { ...way, coolerBypassed: false }
    : null;
}

/** What evacuates. */
export interface VacuumWay {
  readonly pump: VacuumPump;
  readonly vacuumHose: HoseSet;
}

/** Pumps and vacuum hoses, one of each rating. */
export function vacuumWays(context: JobContext): Result<readonly VacuumWay[], EstimateProblem> {
  const { pumpIds: wished } = context.job.setup;
  const pumps = unitsOfKind(context.request.gear, 'vacuum pump').filter(
    ({ id }) => wished === undefined || wished.includes(id),
  );
  const hoses = usableHoses(context, 'vacuum');
  if (pumps.length === 0 || !hoses.ok) {
    const noPump = { code: 'no-vacuum-pump', path: 'gear', message: 'no vacuum pump may be used' };
    return refusal(...(pumps.length === 0 ? [noPump] : []), ...(hoses.ok ? [] : hoses.problems));
  }
  const kinds = distinct(pumps, ({ speed_m3_s, ultimate_Pa }) => `${speed_m3_s} ${ultimate_Pa}`);
  return success(
    kinds.flatMap((pump) => distinct(hoses.value, hoseRating).map((vacuumHose) => ({ pump, vacuumHose }))),
  );
}
