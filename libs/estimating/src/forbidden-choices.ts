import type { SetupOutcome } from './estimate.ts';
import { unitsOfKind } from './gear-choice.ts';
import { type PlanInputs, setupOf } from './plan-inputs.ts';
import { partsOf } from './scope-parts.ts';
import { forbiddenOutcome } from './way-outcomes.ts';
import { whyNotHose, whyNotMachine } from './ways.ts';

/** Choices that somebody may think of and that are no way to do it, one for each reason. */
export function forbiddenChoices(inputs: PlanInputs): SetupOutcome[] {
  const { context, way } = inputs;
  if (!way || context.request.comparesWays === false) return [];
  const setup = setupOf(inputs);
  const { gear } = context.request;
  const machines = unitsOfKind(gear, 'recovery machine').flatMap((machine) => {
    const why = whyNotMachine(context, machine);
    return why === null
      ? []
      : [forbiddenOutcome(`any way with ${machine.id}`, { ...setup, machineIds: [machine.id] }, [why])];
  });
  const hoses = unitsOfKind(gear, 'hose set').flatMap((hose) => {
    const why = hose.use === 'transfer' ? whyNotHose(context, hose) : null;
    return why === null
      ? []
      : [forbiddenOutcome(`hose set ${hose.id}`, { ...setup, hoseSetId: hose.id }, [why])];
  });
  return [...machines, ...hoses, ...forbiddenEntry(inputs)];
}

/** Liquid into the evaporator of an evacuated machine whose tubes can freeze. */
function forbiddenEntry(inputs: PlanInputs): SetupOutcome[] {
  const { context } = inputs;
  const parts = partsOf(context.job.scope);
  if (!parts.charges || !parts.evacuates || context.chiller.evaporatorFluid === 'none') return [];
  const setup = { ...setupOf(inputs), entry: 'evaporator' as const };
  const why = context.chiller.waterFlow
    ? 'liquid into the evaporator before vapour has lifted its saturation above freezing'
    : 'liquid into the evaporator while no water flows: the tubes can freeze';
  return [forbiddenOutcome('liquid into the evaporator first', setup, [why])];
}
