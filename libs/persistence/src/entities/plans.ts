import type { WeekPlan } from '@brimline/planning';
import { Column, Entity, PrimaryGeneratedColumn } from 'typeorm';
import { facts, instant } from '../columns.ts';

/** A plan as it was made: never changed afterwards. */
@Entity('plan')
export class PlanEntity {
  @PrimaryGeneratedColumn({ type: 'integer' })
  id!: number;

  @Column(instant('made'))
  made!: Date;

  @Column({ type: 'integer' })
  seed!: number;

  @Column({ name: 'engine_version', type: 'varchar' })
  engineVersion!: string;

  @Column(facts('content'))
  content!: WeekPlan;
}

/** One person, gear unit or cylinder, taken for a span; a trigger refuses a second taker in the same plan. */
@Entity('booking')
export class BookingEntity {
  @PrimaryGeneratedColumn({ type: 'integer' })
  id!: number;

  @Column({ name: 'plan_id', type: 'integer' })
  planId!: number;

  @Column({ name: 'unit_id', type: 'varchar' })
  unitId!: string;

  @Column({ name: 'job_id', type: 'varchar' })
  jobId!: string;

  @Column(instant('start'))
  start!: Date;

  @Column(instant('end'))
  end!: Date;
}

export const PLAN_ENTITIES = [PlanEntity, BookingEntity] as const;
