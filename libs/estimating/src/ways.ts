import type { HoseSet, RecoveryMachine, TransferMethod, VacuumPump } from '@brimline/firm';
import { refusal, type Result, success } from '@brimline/quantities';
import { pressureClass } from '@brimline/refrigerants';
import type { EstimateProblem } from './estimate.ts';
import { unitsOfKind } from './gear-choice.ts';
import type { JobContext } from './job-context.ts';

/** Vapour rating from which a machine is a large transfer unit, placed on its own: 1 kg/min, common practice. */
export const LARGE_UNIT_KG_S = 1 / 60;

/** Ports and hoses named by the same size differ a little in bore. */
const PORT_SLACK = 1.02;

const METHODS: readonly TransferMethod[] = ['push-pull', 'direct'];

/** Why a machine can't serve this refrigerant; null when it can. */
function whyNotMachine(context: JobContext, machine: RecoveryMachine): string | null {
  const gas = context.refrigerant;
  if (gas.safetyGroup !== 'A1' && gas.safetyGroup !== 'B1' && !machine.flammableSafe) {
    return `not rated for flammable refrigerants (${gas.name} is ${gas.safetyGroup})`;
  }
  const need = pressureClass(gas);
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

function usableHoses(context: JobContext, use: HoseSet['use']): Result<readonly HoseSet[], EstimateProblem> {
  const wished = use === 'transfer' ? context.job.setup.hoseSetId : undefined;
  const widest_m = use === 'transfer' ? context.chiller.liquidPort_m : context.chiller.vapourPort_m;
  const hoses = unitsOfKind(context.request.gear, 'hose set').filter(
    (hose) =>
      hose.use === use &&
      hose.bore_m <= widest_m * PORT_SLACK &&
      (wished === undefined || hose.id === wished),
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
  for (const unit of units.toSorted((a, b) => a.id.localeCompare(b.id))) {
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

/** What moves refrigerant: method, machines, hoses, cores and cooler. */
export interface TransferWay {
  readonly method: TransferMethod;
  readonly machines: readonly RecoveryMachine[];
  readonly hose: HoseSet;
  readonly coresRemoved: boolean;
  readonly coolerBypassed: boolean;
}

/** Every way that the gear allows and the job does not exclude; the method is compared even where one is wished. */
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
  for (const method of onePortOnly ? (['direct'] as const) : METHODS) {
    for (const machine of distinct(machines.value, machineRating)) {
      const alike = machines.value.filter((other) => machineRating(other) === machineRating(machine));
      for (const hose of distinct(hoses.value, hoseRating)) {
        for (const coresRemoved of coreChoices(context)) {
          for (const coolerBypassed of coolerChoices(context, method, machine)) {
            ways.push({ method, machines: [machine], hose, coresRemoved, coolerBypassed });
            if (alike.length > 1) {
              ways.push({ method, machines: alike.slice(0, 2), hose, coresRemoved, coolerBypassed });
            }
          }
        }
      }
    }
  }
  return success(ways);
}

function coreChoices(context: JobContext): boolean[] {
  const { coresRemoved } = context.job.setup;
  if (coresRemoved !== undefined) return [coresRemoved];
  return unitsOfKind(context.request.gear, 'core tool').length > 0 ? [true, false] : [false];
}

function coolerChoices(context: JobContext, method: TransferMethod, machine: RecoveryMachine): boolean[] {
  if (method === 'direct' || !machine.coolerBypass) return [false];
  const { coolerBypassed } = context.job.setup;
  return coolerBypassed === undefined ? [true, false] : [coolerBypassed];
}

/** What evacuates. */
export interface VacuumWay {
  readonly pump: VacuumPump;
  readonly vacuumHose: HoseSet;
}

/** Pumps and vacuum hoses, one of each rating. */
export function vacuumWays(context: JobContext): Result<readonly VacuumWay[], EstimateProblem> {
  const wished = context.job.setup.pumpIds;
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
