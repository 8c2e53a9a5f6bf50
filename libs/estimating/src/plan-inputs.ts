import type { CylinderPlan, Setup, SupplyPlan } from './estimate.ts';
import type { JobContext } from './job-context.ts';
import type { JobPhysics } from './job-physics.ts';
import type { TransferWay } from './transfer-way.ts';
import type { VacuumStation } from './vacuum-station.ts';

/** What limits a flow takes balances of its own: no way needs it to be ranked, an alternative needs one, the chosen all. */
export type Detail = 'ranked' | 'compared' | 'chosen';

export interface PlanInputs {
  readonly context: JobContext;
  readonly physics: JobPhysics;
  /** What moves refrigerant; null where the scope moves none. */
  readonly way: TransferWay | null;
  /** What tests and evacuates; null where the scope does neither. */
  readonly station: VacuumStation | null;
  readonly receivers: CylinderPlan | null;
  readonly supply: SupplyPlan | null;
  readonly detail: Detail;
}

/** The choices of a way, as they are shown. */
export function setupOf({ context, way, station, receivers }: PlanInputs): Setup {
  return {
    method: way?.method ?? 'none',
    machineIds: way?.machines.map(({ id }) => id) ?? [],
    hoseSetId: way?.hose.id ?? null,
    coresRemoved: way?.coresRemoved ?? context.job.setup.coresRemoved ?? true,
    coolerBypassed: way?.coolerBypassed ?? false,
    waterFlowing: context.chiller.waterFlow,
    entry: context.job.setup.entry ?? 'liquid line',
    pumpIds: station ? [station.way.pump.id] : [],
    vacuumHoseSetId: station?.way.vacuumHose.id ?? null,
    circuitOrder: way?.circuitOrder ?? context.circuitOrder,
    cylinderCapacity_kg: receivers?.class_waterCapacity_kg ?? null,
    warmedTo_K: way?.warmedTo_K ?? null,
  };
}
