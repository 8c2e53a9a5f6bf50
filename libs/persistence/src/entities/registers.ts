import type { Base, Chiller, Cylinder, GearUnit, Job, Person, RateCard, Site } from '@brimline/firm';
import { Column, Entity, PrimaryColumn } from 'typeorm';
import { facts } from '../columns.ts';

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
export class BaseEntity {
  @PrimaryColumn({ type: 'varchar' })
  id!: string;

  @Column({ type: 'integer' })
  position!: number;

  @Column(facts())
  facts!: Base;
}

@Entity('site')
export class SiteEntity {
  @PrimaryColumn({ type: 'varchar' })
  id!: string;

  @Column({ type: 'integer' })
  position!: number;

  @Column({ type: 'varchar' })
  name!: string;

  @Column(facts())
  facts!: Site;
}

@Entity('chiller')
export class ChillerEntity {
  @PrimaryColumn({ type: 'varchar' })
  id!: string;

  @Column({ type: 'integer' })
  position!: number;

  @Column({ name: 'site_id', type: 'varchar' })
  siteId!: string;

  @Column({ type: 'varchar' })
  refrigerant!: string;

  @Column(facts())
  facts!: Chiller;
}

@Entity('gear_unit')
export class GearUnitEntity {
  @PrimaryColumn({ type: 'varchar' })
  id!: string;

  @Column({ type: 'integer' })
  position!: number;

  @Column({ type: 'varchar' })
  kind!: string;

  @Column(facts())
  facts!: GearUnit;
}

@Entity('cylinder')
export class CylinderEntity {
  @PrimaryColumn({ type: 'varchar' })
  id!: string;

  @Column({ type: 'integer' })
  position!: number;

  @Column({ type: 'varchar', nullable: true })
  refrigerant!: string | null;

  @Column(facts())
  facts!: Cylinder;
}

@Entity('person')
export class PersonEntity {
  @PrimaryColumn({ type: 'varchar' })
  id!: string;

  @Column({ type: 'integer' })
  position!: number;

  @Column({ type: 'varchar' })
  name!: string;

  @Column(facts())
  facts!: Person;
}

@Entity('rate_card')
export class RateCardEntity {
  @PrimaryColumn({ type: 'varchar' })
  id!: string;

  @Column({ type: 'integer' })
  position!: number;

  @Column(facts())
  facts!: RateCard;
}

@Entity('job')
export class JobEntity {
  @PrimaryColumn({ type: 'varchar' })
  id!: string;

  @Column({ type: 'integer' })
  position!: number;

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
