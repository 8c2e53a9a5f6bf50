import type { Cylinder } from '@brimline/firm';
import { refusal, type Result, success } from '@brimline/quantities';
import type { EstimateProblem, GearUse } from './estimate.ts';
import { anyOf, hosesAsGood, machinesAsGood, scalesFor, scaleUse } from './gear-choice.ts';
import type { PlanInputs } from './plan-inputs.ts';
import type { TransferWay } from './transfer-way.ts';

/** Largest tare among these cylinders. */
export function tareOf(cylinders: readonly Cylinder[], ids: readonly string[]): number {
  return Math.max(0, ...cylinders.filter(({ id }) => ids.includes(id)).map(({ tare_kg }) => tare_kg));
}

/** Gear that stands on site while refrigerant is moved. */
export function transferGear(
  { context, receivers, supply }: PlanInputs,
  way: TransferWay,
): Result<readonly GearUse[], EstimateProblem> {
  const { gear, cylinders } = context.request;
  const heaviest_kg = Math.max(
    receivers ? receivers.fillLimit_kg + tareOf(cylinders, receivers.eligibleIds) : 0,
    ...cylinders
      .filter(({ id }) => supply?.cylinderIds.includes(id))
      .map(({ contents_kg, tare_kg }) => contents_kg + tare_kg),
  );
  const scales = scalesFor(gear, heaviest_kg);
  if (scales.length === 0) {
    const message = `no scale in calibration carries ${Math.round(heaviest_kg)} kg`;
    return refusal({ code: 'no-scale', path: 'gear', message });
  }
  const uses = [
    machinesAsGood(gear, way.machines),
    hosesAsGood(gear, way.hose, way.machines.length),
    scaleUse(scales),
    ...(way.coresRemoved ? [anyOf(gear, 'core tool')] : []),
  ];
  const short = uses.find(({ count, eligibleIds }) => eligibleIds.length < count);
  if (!short) return success(uses);
  const message = `${short.count} of kind ${short.kind} are needed, ${short.eligibleIds.length} as good as chosen may be used`;
  return refusal({ code: 'too-little-gear', path: 'gear', message });
}
