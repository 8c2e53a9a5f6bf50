import type { GearKind, GearUnit, HoseSet, RecoveryMachine, Scale, VacuumPump } from '@brimline/firm';
import type { GearUse } from './estimate.ts';

type UnitOf<Kind extends GearKind> = Extract<GearUnit, { kind: Kind }>;

export function unitsOfKind<Kind extends GearKind>(gear: readonly GearUnit[], kind: Kind): UnitOf<Kind>[] {
  return gear.filter((unit): unit is UnitOf<Kind> => unit.kind === kind);
}

function use(kind: GearKind, count: number, eligible: readonly GearUnit[]): GearUse {
  return { kind, count, eligibleIds: eligible.map(({ id }) => id).toSorted() };
}

/** Machines that would do what the chosen one does at least as well: the scheduler may book any of them. */
export function machinesAsGood(gear: readonly GearUnit[], chosen: readonly RecoveryMachine[]): GearUse {
  const least = chosen[0]!;
  const eligible = unitsOfKind(gear, 'recovery machine').filter(
    (machine) =>
      machine.vapourRate_kg_s >= least.vapourRate_kg_s &&
      machine.directLiquidRate_kg_s >= least.directLiquidRate_kg_s &&
      machine.finalVacuum_Pa <= least.finalVacuum_Pa &&
      machine.ratingRefrigerant === least.ratingRefrigerant &&
      (machine.coolerBypass || !least.coolerBypass) &&
      (machine.flammableSafe || !least.flammableSafe) &&
      machine.made >= least.made &&
      least.pressureClasses.every((one) => machine.pressureClasses.includes(one)),
  );
  return use('recovery machine', chosen.length, eligible);
}

export function hosesAsGood(gear: readonly GearUnit[], chosen: HoseSet, count: number): GearUse {
  const eligible = unitsOfKind(gear, 'hose set').filter(
    (hose) =>
      hose.use === chosen.use &&
      hose.bore_m >= chosen.bore_m &&
      hose.length_m <= chosen.length_m &&
      hose.fittingBore_m >= chosen.fittingBore_m &&
      hose.valveBore_m >= chosen.valveBore_m,
  );
  return use('hose set', count, eligible);
}

export function pumpsAsGood(gear: readonly GearUnit[], chosen: VacuumPump): GearUse {
  const eligible = unitsOfKind(gear, 'vacuum pump').filter(
    (pump) => pump.speed_m3_s >= chosen.speed_m3_s && pump.ultimate_Pa <= chosen.ultimate_Pa,
  );
  return use('vacuum pump', 1, eligible);
}

/** Scales that carry the load, the smallest resolution first kept out: any that carries it will do. */
export function scalesFor(gear: readonly GearUnit[], load_kg: number): Scale[] {
  return unitsOfKind(gear, 'scale').filter(({ capacity_kg }) => capacity_kg >= load_kg);
}

export function anyOf(gear: readonly GearUnit[], kind: GearKind): GearUse {
  return use(
    kind,
    1,
    gear.filter((unit) => unit.kind === kind),
  );
}

export function scaleUse(scales: readonly Scale[]): GearUse {
  return use('scale', 1, scales);
}
