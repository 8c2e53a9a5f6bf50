import type { Base, Chiller, Cylinder, GearUnit, Job, Person, RateCard, Site } from '@brimline/firm';
import { Column, Entity, PrimaryColumn } from 'typeorm';
import { facts } from '../columns.ts';

/** What every row of a register has: its name, and its place in the list. */
abstract class RegisterRow {
  @PrimaryColumn({ type: 'varchar' })
  id!: string;

  @Column({ type: 'integer' })
  position!: number;
}

/** The firm itself: one row. */
@Entity('firm')
export class FirmEntity {
  @PrimaryColumn({ type: 'integer' })
  id!: number;

  @Column({ type: 'varchar' })
  name!: string;

  @Column({ type: 'varchar' })
  notice!: string;

  @Column({ name: 'plan_from', type: 'varchar', length: 10 })
  planFrom!: string;

  @Column({ name: 'plan_days', type: 'integer' })
  planDays!: number;
}

@Entity('base')
export class BaseEntity extends RegisterRow {
  @Column(facts())
  facts!: Base;
}

@Entity('site')
export class SiteEntity extends RegisterRow {
  @Column({ type: 'varchar' })
  name!: string;

  @Column(facts())
  facts!: Site;
}

@Entity('chiller')
export class ChillerEntity extends RegisterRow {
  @Column({ name: 'site_id', type: 'varchar' })
  siteId!: string;

  @Column({ type: 'varchar' })
  refrigerant!: string;

  @Column(facts())
  facts!: Chiller;
}

@Entity('gear_unit')
export class GearUnitEntity extends RegisterRow {
  @Column({ type: 'varchar' })
  kind!: string;

  @Column(facts())
  facts!: GearUnit;
}

@Entity('cylinder')
export class CylinderEntity extends RegisterRow {
  @Column({ type: 'varchar', nullable: true })
  refrigerant!: string | null;

  @Column(facts())
  facts!: Cylinder;
}

@Entity('person')
export class PersonEntity extends RegisterRow {
  @Column({ type: 'varchar' })
  name!: string;

  @Column(facts())
  facts!: Person;
}

@Entity('rate_card')
export class RateCardEntity extends RegisterRow {
  @Column(facts())
  facts!: RateCard;
}

@Entity('job')
export class JobEntity extends RegisterRow {
  @Column({ name: 'chiller_id', type: 'varchar' })
  chillerId!: string;

  @Column({ type: 'varchar' })
  scope!: string;

  @Column({ type: 'varchar', length: 16 })
  due!: string;

  @Column(facts())
  facts!: Job;
}

export const REGISTER_ENTITIES = [
  FirmEntity,
  BaseEntity,
  SiteEntity,
  ChillerEntity,
  GearUnitEntity,
  CylinderEntity,
  PersonEntity,
  RateCardEntity,
  JobEntity,
] as const;
