import type { Firm } from '@brimline/firm';
import type { EntityManager, EntityTarget } from 'typeorm';
import {
  BaseEntity,
  ChillerEntity,
  CylinderEntity,
  FirmEntity,
  GearUnitEntity,
  JobEntity,
  PersonEntity,
  RateCardEntity,
  SiteEntity,
} from './entities/registers.ts';
import type { Store } from './store.ts';

const THE_FIRM = 1;

/** The firm's registers, written whole and read whole. */
export class FirmRepository {
  constructor(private readonly store: Store) {}

  /** Replaces everything that is held of the firm, in one transaction. */
  async save(firm: Firm): Promise<void> {
    await this.store.write(async (manager) => {
      const { name, notice, planFrom, planDays } = firm;
      await manager.upsert(FirmEntity, { id: THE_FIRM, name, notice, planFrom, planDays }, ['id']);
      await replace(
        manager,
        BaseEntity,
        firm.bases.map((facts, position) => ({ id: facts.id, position, facts })),
      );
      await replace(
        manager,
        SiteEntity,
        firm.sites.map((facts, position) => ({ id: facts.id, position, name: facts.name, facts })),
      );
      await replace(
        manager,
        ChillerEntity,
        firm.chillers.map((facts, position) => ({
          id: facts.id,
          position,
          siteId: facts.siteId,
          refrigerant: facts.refrigerant,
          facts,
        })),
      );
      await replace(
        manager,
        GearUnitEntity,
        firm.gear.map((facts, position) => ({ id: facts.id, position, kind: facts.kind, facts })),
      );
      await replace(
        manager,
        CylinderEntity,
        firm.cylinders.map((facts, position) => ({
          id: facts.id,
          position,
          refrigerant: facts.refrigerant,
          facts,
        })),
      );
      await replace(
        manager,
        PersonEntity,
        firm.people.map((facts, position) => ({ id: facts.id, position, name: facts.name, facts })),
      );
      await replace(manager, RateCardEntity, [{ id: firm.rateCard.id, position: 0, facts: firm.rateCard }]);
      await replace(
        manager,
        JobEntity,
        firm.jobs.map((facts, position) => ({
          id: facts.id,
          position,
          chillerId: facts.chillerId,
          scope: facts.scope,
          due: facts.due,
          facts,
        })),
      );
    });
  }

  /** The firm as it was saved; null in a new store. */
  async load(): Promise<Firm | null> {
    const manager = this.store.read;
    const firm = await manager.findOneBy(FirmEntity, { id: THE_FIRM });
    if (!firm) return null;
    const all = async <Facts>(entity: EntityTarget<{ facts: Facts; position: number }>): Promise<Facts[]> =>
      (await manager.find(entity, { order: { position: 'ASC' } })).map(({ facts }) => facts);
    const { name, notice, planFrom, planDays } = firm;
    const [rateCard] = await all(RateCardEntity);
    if (!rateCard) return null;
    return {
      name,
      notice,
      planFrom,
      planDays,
      bases: await all(BaseEntity),
      sites: await all(SiteEntity),
      chillers: await all(ChillerEntity),
      gear: await all(GearUnitEntity),
      cylinders: await all(CylinderEntity),
      people: await all(PersonEntity),
      rateCard,
      jobs: await all(JobEntity),
    };
  }
}

async function replace<Row extends object>(
  manager: EntityManager,
  entity: new () => Row,
  rows: Row[],
): Promise<void> {
  await manager.clear(entity);
  for (const row of rows) await manager.insert(entity, row as never);
}
