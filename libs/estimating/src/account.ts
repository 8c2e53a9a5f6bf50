import type { RefrigerantAccount, Shortage } from './estimate.ts';
import { HEEL_SHARE } from './job-context.ts';
import type { CurveCylinder } from './charge-curve.ts';
import type { PlanInputs } from './plan-inputs.ts';
import { partsOf } from './scope-parts.ts';
import type { WorkPlan } from './work-plan.ts';

/**
 * Where every kilogram goes. What is lost as vapour, kept as heel, or was missing before becomes refrigerant to bring;
 * the machine gets its nameplate charge and not a gram more.
 */
export function accountOf({ context, supply }: PlanInputs, plan: WorkPlan): RefrigerantAccount {
  const { nameplate_kg, before_kg, job } = context;
  const parts = partsOf(job.scope);
  const leftAsVapour_kg = plan.vapourOut.reduce((sum, { recovery }) => sum + recovery.left_kg, 0);
  const recovered_kg = parts.recovers ? before_kg - leftAsVapour_kg : 0;
  const heelInCylinders_kg = parts.recovers && parts.charges ? recovered_kg * HEEL_SHARE : 0;
  const kept_kg = parts.recovers ? recovered_kg - heelInCylinders_kg : before_kg;
  const fromStock_kg = supply ? Math.max(0, nameplate_kg - kept_kg) : 0;
  return {
    nameplate_kg,
    before_kg,
    recovered_kg,
    leftAsVapour_kg,
    heelInCylinders_kg,
    fromStock_kg,
    after_kg: parts.charges ? nameplate_kg : 0,
  };
}

/** What makes up the refrigerant to bring. */
export function shortageOf({ context, supply }: PlanInputs, account: RefrigerantAccount): Shortage {
  const { recovers, charges } = partsOf(context.job.scope);
  const { nameplate_kg, before_kg, recovered_kg, leftAsVapour_kg, heelInCylinders_kg, fromStock_kg } =
    account;
  return {
    before_kg: charges ? Math.max(0, nameplate_kg - before_kg) : 0,
    lostAsVapour_kg: charges ? leftAsVapour_kg : 0,
    heelInCylinders_kg,
    toBring_kg: fromStock_kg,
    toBuy_kg: supply ? Math.max(0, fromStock_kg - supply.inStock_kg) : 0,
    surplus_kg: recovers && charges ? Math.max(0, recovered_kg - heelInCylinders_kg - nameplate_kg) : 0,
  };
}

/** Receivers with their heel, then stock, then what has to be bought and comes delivered. */
export function curveCylinders(
  { context, receivers, supply }: PlanInputs,
  account: RefrigerantAccount,
): CurveCylinder[] {
  let left_kg = account.recovered_kg;
  const own = (receivers?.fills ?? []).map(({ id, limit_kg }): CurveCylinder => {
    const fill_kg = Math.min(limit_kg, left_kg);
    left_kg -= fill_kg;
    return { id, limit_kg, start_kg: 0, heel_kg: fill_kg * HEEL_SHARE };
  });
  let missing_kg = account.fromStock_kg;
  const order = supply?.cylinderIds ?? [];
  const stock = context.request.cylinders
    .filter(({ id }) => order.includes(id))
    .toSorted((a, b) => order.indexOf(a.id) - order.indexOf(b.id))
    .map((cylinder): CurveCylinder => {
      const given_kg = Math.min(missing_kg, cylinder.contents_kg * (1 - HEEL_SHARE));
      missing_kg -= given_kg;
      return {
        id: cylinder.id,
        limit_kg: cylinder.contents_kg,
        start_kg: cylinder.contents_kg,
        heel_kg: cylinder.contents_kg * HEEL_SHARE,
      };
    });
  const bought =
    missing_kg > 1e-6 ? [{ id: 'to buy', limit_kg: missing_kg, start_kg: missing_kg, heel_kg: 0 }] : [];
  return [...own, ...stock, ...bought];
}
