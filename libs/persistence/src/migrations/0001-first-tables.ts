import type { MigrationInterface, QueryRunner } from 'typeorm';

const REGISTERS: Readonly<Record<string, string>> = {
  base: '',
  site: '"name" varchar NOT NULL, ',
  chiller: '"site_id" varchar NOT NULL, "refrigerant" varchar NOT NULL, ',
  gear_unit: '"kind" varchar NOT NULL, ',
  cylinder: '"refrigerant" varchar, ',
  person: '"name" varchar NOT NULL, ',
  rate_card: '',
  job: '"chiller_id" varchar NOT NULL, "scope" varchar NOT NULL, "due" varchar(16) NOT NULL, ',
};

/** Overlap of half-open spans of one unit in one plan; the name is what a caller looks for. */
const CLASH = `SELECT RAISE(ABORT, 'booking_no_overlap') WHERE EXISTS (
  SELECT 1 FROM "booking" AS "other" WHERE "other"."plan_id" = NEW."plan_id" AND "other"."unit_id" = NEW."unit_id"
  AND "other"."id" IS NOT NEW."id" AND "other"."start" < NEW."end" AND NEW."start" < "other"."end");`;

export class FirstTables1764000000000 implements MigrationInterface {
  readonly name = 'FirstTables1764000000000';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(
      `CREATE TABLE "firm" ("id" integer PRIMARY KEY NOT NULL, "name" varchar NOT NULL, "notice" varchar NOT NULL, "plan_from" varchar(10) NOT NULL, "plan_days" integer NOT NULL)`,
    );
    for (const [table, columns] of Object.entries(REGISTERS)) {
      await runner.query(
        `CREATE TABLE "${table}" ("id" varchar PRIMARY KEY NOT NULL, "position" integer NOT NULL, ${columns}"facts" text NOT NULL)`,
      );
    }
    await runner.query(
      `CREATE TABLE "plan" ("id" integer PRIMARY KEY AUTOINCREMENT NOT NULL, "made" integer NOT NULL, "seed" integer NOT NULL, "engine_version" varchar NOT NULL, "content" text NOT NULL)`,
    );
    await runner.query(
      `CREATE TABLE "booking" ("id" integer PRIMARY KEY AUTOINCREMENT NOT NULL, "plan_id" integer NOT NULL, "unit_id" varchar NOT NULL, "job_id" varchar NOT NULL, "start" integer NOT NULL, "end" integer NOT NULL)`,
    );
    await runner.query(
      `CREATE TRIGGER "booking_no_overlap_insert" BEFORE INSERT ON "booking" BEGIN ${CLASH} END`,
    );
    await runner.query(
      `CREATE TRIGGER "booking_no_overlap_update" BEFORE UPDATE ON "booking" BEGIN ${CLASH} END`,
    );
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const table of ['booking', 'plan', ...Object.keys(REGISTERS), 'firm'])
      await runner.query(`DROP TABLE "${table}"`);
  }
}
