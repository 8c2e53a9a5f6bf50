import type { Cylinder } from '@brimline/firm';
import {
  formatNumber,
  formatQuantity,
  KILOGRAMS_PER_POUND,
  refusal,
  type Result,
  success,
} from '@brimline/quantities';
import type { Refrigerant } from '@brimline/refrigerants';
import { cylinderFillLimit, cylinderPressureAllowed, cylindersNeeded } from '@brimline/rules';
import { byId } from './by-id.ts';
import type { CylinderPlan, EstimateProblem } from './estimate.ts';

/** More change-overs than this and crews take the next larger class: common practice, no source. */
const MOST_OF_ONE_CLASS = 4;

export interface ReceiverRequest {
  readonly refrigerant: Refrigerant;
  readonly mass_kg: number;
  readonly cylinders: readonly Cylinder[];
  readonly needsTwoPorts: boolean;
  /** Local day on which the first is filled, and until which every one must be within its requalification. */
  readonly neededFrom: string;
  readonly neededUntil: string;
  readonly spare: number;
  /** Water capacity that the office wishes. */
  readonly wished_kg?: number;
}

interface CylinderClass {
  readonly waterCapacity_kg: number;
  readonly limit_kg: number;
  readonly citation: string;
  readonly members: readonly Cylinder[];
  readonly needed: number;
}

interface Filled {
  readonly cylinder: Cylinder;
  readonly limit_kg: number;
}

/** Why a cylinder can't receive recovered refrigerant; null when it can. */
function whyNotReceiver(
  cylinder: Cylinder,
  request: ReceiverRequest,
  isAllowed: (servicePressure_Pa_gauge: number) => boolean,
): string | null {
  if (!cylinder.refillable) return 'single-trip';
  if (cylinder.contents_kg > 0) return 'not empty';
  if (cylinder.refrigerant !== null && cylinder.refrigerant !== request.refrigerant.name) {
    return `last held ${cylinder.refrigerant}`;
  }
  if (cylinder.requalificationDue < request.neededUntil) return 'requalification due';
  if (cylinder.availableFrom !== undefined && cylinder.availableFrom > request.neededFrom)
    return 'delivered too late';
  if (request.needsTwoPorts && cylinder.ports === 1) return 'one port';
  return isAllowed(cylinder.servicePressure_Pa_gauge) ? null : 'service pressure too low';
}

/** Whether a service pressure is high enough, looked up once for each that occurs. */
function pressureCheck(refrigerant: Refrigerant): (servicePressure_Pa_gauge: number) => boolean {
  const known = new Map<number, boolean>();
  return (servicePressure_Pa_gauge) => {
    const found = known.get(servicePressure_Pa_gauge);
    if (found !== undefined) return found;
    const { allowed } = cylinderPressureAllowed({ refrigerant, servicePressure_Pa_gauge });
    known.set(servicePressure_Pa_gauge, allowed);
    return allowed;
  };
}

/** Usable and passed-over cylinders, looked at once. */
function sorted(request: ReceiverRequest): {
  readonly usable: readonly Cylinder[];
  readonly passedOver: CylinderPlan['passedOver'];
} {
  const usable: Cylinder[] = [];
  const allowed = pressureCheck(request.refrigerant);
  const byReason = new Map<string, string[]>();
  for (const cylinder of request.cylinders) {
    const why = whyNotReceiver(cylinder, request, allowed);
    if (why === null) usable.push(cylinder);
    else byReason.set(why, [...(byReason.get(why) ?? []), cylinder.id]);
  }
  return { usable, passedOver: [...byReason].map(([why, ids]) => ({ why, ids: ids.toSorted() })) };
}

function classesOf(request: ReceiverRequest, usable: readonly Cylinder[]): CylinderClass[] {
  const byCapacity = new Map<number, Cylinder[]>();
  for (const cylinder of usable) {
    const members = byCapacity.get(cylinder.waterCapacity_kg) ?? [];
    members.push(cylinder);
    byCapacity.set(cylinder.waterCapacity_kg, members);
  }
  return [...byCapacity.entries()]
    .map(([waterCapacity_kg, members]) => {
      const fill = cylinderFillLimit({
        refrigerant: request.refrigerant,
        waterCapacity_kg,
        tare_kg: Math.max(...members.map((member) => member.tare_kg)),
      });
      const needed = Math.max(1, cylindersNeeded(request.mass_kg, fill.net_kg));
      return { waterCapacity_kg, limit_kg: fill.net_kg, citation: fill.citation, members, needed };
    })
    .toSorted((a, b) => a.waterCapacity_kg - b.waterCapacity_kg);
}

/**
 * Which cylinders can take the recovered refrigerant: under the tighter of the two fill limits, each with one
 * refrigerant and in test for the whole span, for it stays in them until it is charged back or sent off. One plan for
 * each class that has enough; where none has, classes are mixed, the largest first.
 *
 * @returns plans, that to recommend first: the smallest class that needs no more than four, else the largest
 */
export function planReceivers(request: ReceiverRequest): Result<readonly CylinderPlan[], EstimateProblem> {
  const { usable, passedOver } = sorted(request);
  const classes = classesOf(request, usable);
  const enough = classes.filter(({ members, needed }) => members.length >= needed);
  if (enough.length === 0) {
    const mixed = mixedPlan(request, classes, passedOver);
    return mixed ? success([mixed]) : refusal(shortage(request, classes, usable, passedOver));
  }
  const wished = enough.find(({ waterCapacity_kg }) => isNear(waterCapacity_kg, request.wished_kg));
  const policy = enough.find(({ needed }) => needed <= MOST_OF_ONE_CLASS) ?? enough.at(-1)!;
  const chosen = wished ?? policy;
  const others = enough.filter((one) => one !== chosen);
  return success([chosen, ...others].map((one) => planOfClass(request, one, passedOver)));
}

const isNear = (capacity_kg: number, wished_kg: number | undefined): boolean =>
  wished_kg !== undefined && Math.abs(capacity_kg / wished_kg - 1) < 0.02;

function planOfClass(
  request: ReceiverRequest,
  { waterCapacity_kg, limit_kg, citation, members, needed }: CylinderClass,
  passedOver: CylinderPlan['passedOver'],
): CylinderPlan {
  const eligible = members.toSorted(byId);
  const spare = Math.min(request.spare, eligible.length - needed);
  const filled = eligible.slice(0, needed).map((cylinder) => ({ cylinder, limit_kg }));
  return {
    ...planFacts(request, filled, citation, passedOver),
    spare,
    class_waterCapacity_kg: waterCapacity_kg,
    fillLimit_kg: limit_kg,
    eligibleIds: eligible.map(({ id }) => id),
    chosenIds: eligible.slice(0, needed + spare).map(({ id }) => id),
  };
}

/** Largest cylinders first, until the mass is held; null when all together hold less. */
function mixedPlan(
  request: ReceiverRequest,
  classes: readonly CylinderClass[],
  passedOver: CylinderPlan['passedOver'],
): CylinderPlan | null {
  const all = classes
    .toReversed()
    .flatMap(({ members, limit_kg }) =>
      members.toSorted(byId).map((cylinder): Filled => ({ cylinder, limit_kg })),
    );
  let held_kg = 0;
  const needed = all.findIndex(({ limit_kg }) => (held_kg += limit_kg) >= request.mass_kg * (1 - 1e-9)) + 1;
  if (needed === 0) return null;
  const spare = Math.min(request.spare, all.length - needed);
  const chosenIds = all.slice(0, needed + spare).map(({ cylinder }) => cylinder.id);
  const largest = classes.at(-1)!;
  return {
    ...planFacts(request, all.slice(0, needed), largest.citation, passedOver),
    spare,
    class_waterCapacity_kg: largest.waterCapacity_kg,
    fillLimit_kg: largest.limit_kg,
    eligibleIds: chosenIds.toSorted(),
    chosenIds,
  };
}

function planFacts(
  request: ReceiverRequest,
  filled: readonly Filled[],
  citation: string,
  passedOver: CylinderPlan['passedOver'],
): Pick<CylinderPlan, 'needed' | 'fills' | 'swaps' | 'neededUntil' | 'delivered' | 'passedOver' | 'reason'> {
  let left_kg = request.mass_kg;
  const fills = filled.map(({ cylinder, limit_kg }) => {
    const planned_kg = Math.min(limit_kg, left_kg);
    left_kg -= planned_kg;
    return { id: cylinder.id, limit_kg, planned_kg };
  });
  return {
    needed: filled.length,
    fills,
    swaps: filled.length - 1,
    neededUntil: request.neededUntil,
    delivered: filled.flatMap(({ cylinder: { id, availableFrom } }) =>
      availableFrom === undefined ? [] : [{ id, on: availableFrom }],
    ),
    passedOver,
    reason: {
      label: 'cylinders needed',
      value: filled.length,
      unit: '-',
      formula: 'n = ceil(mass / fill limit)',
      inputs: [
        { label: 'refrigerant to take', value: request.mass_kg, unit: 'kg', source: 'charge at arrival' },
        { label: 'fill limit of the first', value: filled[0]!.limit_kg, unit: 'kg', source: citation },
        { label: 'in test until', value: request.neededUntil, unit: '-', source: 'wanted end of the job' },
      ],
      limitedBy: null,
      source: citation,
    },
  };
}

function shortage(
  request: ReceiverRequest,
  classes: readonly CylinderClass[],
  usable: readonly Cylinder[],
  passedOver: CylinderPlan['passedOver'],
): EstimateProblem {
  const reasons = passedOver.map(({ why, ids }) => `${ids.length} ${why}`).join(', ');
  const held_kg = classes.reduce((sum, { limit_kg, members }) => sum + limit_kg * members.length, 0);
  return {
    code: 'too-few-cylinders',
    path: 'cylinders',
    message:
      `${formatQuantity(request.mass_kg, 'mass', 'lb', 0)} of ${request.refrigerant.name} needs empty cylinders; ` +
      `${usable.length} of ${request.cylinders.length} may take it and hold ${formatQuantity(held_kg, 'mass', 'lb', 0)} together` +
      (reasons === '' ? '' : ` (passed over: ${reasons})`) +
      `; ${whatWould(request, request.mass_kg - held_kg)}`,
  };
}

/** Water capacities that suppliers deliver empty. */
const DELIVERED_LB = [125, 1000] as const;

function whatWould({ refrigerant }: ReceiverRequest, missing_kg: number): string {
  const offers = DELIVERED_LB.map((capacity_lb) => {
    const { net_kg } = cylinderFillLimit({
      refrigerant,
      waterCapacity_kg: capacity_lb * KILOGRAMS_PER_POUND,
      tare_kg: 0,
    });
    return `${cylindersNeeded(missing_kg, net_kg)} of ${formatNumber(capacity_lb, 0)} lb water capacity`;
  });
  return `what would do: delivered in time, ${offers.join(' or ')}`;
}
