import type { Cylinder } from '@brimline/firm';
import { formatQuantity, refusal, type Result, success } from '@brimline/quantities';
import type { Refrigerant } from '@brimline/refrigerants';
import { cylinderFillLimit, cylinderPressureAllowed } from '@brimline/rules';
import type { CylinderPlan, EstimateProblem } from './estimate.ts';

/** More change-overs than this and crews take the next larger class: common practice, no source. */
const MOST_OF_ONE_CLASS = 4;

export interface ReceiverRequest {
  readonly refrigerant: Refrigerant;
  readonly mass_kg: number;
  readonly cylinders: readonly Cylinder[];
  readonly needsTwoPorts: boolean;
  /** Local day until which every cylinder must be within its requalification. */
  readonly neededUntil: string;
  readonly spare: number;
}

interface CylinderClass {
  readonly waterCapacity_kg: number;
  readonly limit_kg: number;
  readonly citation: string;
  readonly members: readonly Cylinder[];
  readonly needed: number;
}

/** Why a cylinder can't receive recovered refrigerant; null when it can. */
export function whyNotReceiver(cylinder: Cylinder, request: ReceiverRequest): string | null {
  if (!cylinder.refillable) return 'single-trip';
  if (cylinder.contents_kg > 0) return 'not empty';
  if (cylinder.refrigerant !== null && cylinder.refrigerant !== request.refrigerant.name) {
    return `last held ${cylinder.refrigerant}`;
  }
  if (cylinder.requalificationDue < request.neededUntil) return 'requalification due';
  if (request.needsTwoPorts && cylinder.ports === 1) return 'one port';
  const allowed = cylinderPressureAllowed({
    refrigerant: request.refrigerant,
    servicePressure_Pa_gauge: cylinder.servicePressure_Pa_gauge,
  });
  return allowed.allowed ? null : 'service pressure too low';
}

function classesOf(request: ReceiverRequest, usable: readonly Cylinder[]): CylinderClass[] {
  const byCapacity = new Map<number, Cylinder[]>();
  for (const cylinder of usable) {
    const members = byCapacity.get(cylinder.waterCapacity_kg) ?? [];
    byCapacity.set(cylinder.waterCapacity_kg, [...members, cylinder]);
  }
  return [...byCapacity.entries()]
    .map(([waterCapacity_kg, members]) => {
      const fill = cylinderFillLimit({
        refrigerant: request.refrigerant,
        waterCapacity_kg,
        tare_kg: Math.max(...members.map((member) => member.tare_kg)),
      });
      const needed = Math.max(1, Math.ceil(request.mass_kg / fill.net_kg - 1e-9));
      return { waterCapacity_kg, limit_kg: fill.net_kg, citation: fill.citation, members, needed };
    })
    .toSorted((a, b) => a.waterCapacity_kg - b.waterCapacity_kg);
}

/**
 * Which cylinders can take the recovered refrigerant: one class, under the tighter fill limit, in test for the whole
 * span. The smallest class that needs no more than four, else the largest that is in stock in sufficient number.
 */
export function planReceivers(request: ReceiverRequest): Result<CylinderPlan, EstimateProblem> {
  const usable = request.cylinders.filter((cylinder) => whyNotReceiver(cylinder, request) === null);
  const classes = classesOf(request, usable).filter(({ members, needed }) => members.length >= needed);
  const chosen = classes.find(({ needed }) => needed <= MOST_OF_ONE_CLASS) ?? classes.at(-1);
  if (!chosen) return refusal(shortage(request, usable));
  const spare = Math.min(request.spare, chosen.members.length - chosen.needed);
  const eligibleIds = chosen.members.map(({ id }) => id).toSorted();
  return success({
    needed: chosen.needed,
    spare,
    class_waterCapacity_kg: chosen.waterCapacity_kg,
    fillLimit_kg: chosen.limit_kg,
    eligibleIds,
    chosenIds: eligibleIds.slice(0, chosen.needed + spare),
    reason: {
      label: 'cylinders needed',
      value: chosen.needed,
      unit: '-',
      formula: 'n = ceil(mass / fill limit)',
      inputs: [
        { label: 'refrigerant to take', value: request.mass_kg, unit: 'kg', source: 'nameplate charge' },
        { label: 'fill limit of each', value: chosen.limit_kg, unit: 'kg', source: chosen.citation },
      ],
      limitedBy: null,
      source: chosen.citation,
    },
  });
}

function shortage(request: ReceiverRequest, usable: readonly Cylinder[]): EstimateProblem {
  const counts = new Map<string, number>();
  for (const cylinder of request.cylinders) {
    const why = whyNotReceiver(cylinder, request);
    if (why !== null) counts.set(why, (counts.get(why) ?? 0) + 1);
  }
  const passedOver = [...counts].map(([why, count]) => `${count} ${why}`).join(', ');
  return {
    code: 'too-few-cylinders',
    path: 'cylinders',
    message:
      `${formatQuantity(request.mass_kg, 'mass', 'lb', 0)} of ${request.refrigerant.name} needs empty cylinders; ` +
      `${usable.length} of ${request.cylinders.length} may take it, not enough of one class` +
      (passedOver === '' ? '' : ` (passed over: ${passedOver})`),
  };
}
