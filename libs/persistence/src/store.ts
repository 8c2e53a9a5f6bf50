import { AsyncLocalStorage } from 'node:async_hooks';
import { DataSource, type EntityManager } from 'typeorm';
import { PLAN_ENTITIES } from './entities/plans.ts';
import { REGISTER_ENTITIES } from './entities/registers.ts';
import { FirstTables1764000000000 } from './migrations/0001-first-tables.ts';

const BUSY_TIMEOUT_MS = 5000;

/**
 * One SQLite file with one writer and one reader. The driver hands every caller the same connection, so writes stand
 * in a queue and each is a transaction of its own; reads go by a second connection that can't write.
 */
export class Store {
  private tail: Promise<unknown> = Promise.resolve();
  private readonly open = new AsyncLocalStorage<EntityManager>();

  private constructor(
    private readonly writer: DataSource,
    private readonly reader: DataSource,
  ) {}

  /** Opens the file, makes or updates its tables, and starts in write-ahead mode with foreign keys on. */
  static async open(file: string): Promise<Store> {
    const source = (name: string): DataSource =>
      new DataSource({
        name,
        type: 'sqlite',
        database: file,
        entities: [...REGISTER_ENTITIES, ...PLAN_ENTITIES],
        migrations: [FirstTables1764000000000],
        enableWAL: true,
        busyTimeout: BUSY_TIMEOUT_MS,
      });
    const writer = await source('write').initialize();
    await writer.runMigrations({ transaction: 'each' });
    beginImmediately(writer);
    const reader = await source('read').initialize();
    await reader.query('PRAGMA query_only = ON');
    return new Store(writer, reader);
  }

  get read(): EntityManager {
    return this.reader.manager;
  }

  /** Runs a piece of work as one transaction; work begun inside it joins it. */
  async write<Value>(work: (manager: EntityManager) => Promise<Value>): Promise<Value> {
    const joined = this.open.getStore();
    if (joined) return work(joined);
    const turn = this.tail.then(() =>
      this.writer.transaction((manager) => this.open.run(manager, () => work(manager))),
    );
    this.tail = turn.catch(() => undefined);
    return turn;
  }

  /** True while the file answers. */
  async isReady(): Promise<boolean> {
    const [row] = await this.reader.query('SELECT 1 AS "one"');
    return row.one === 1;
  }

  /** SQL that would bring the tables to the entities; empty when migrations and entities agree. */
  async pendingSchemaChanges(): Promise<string[]> {
    const log = await this.writer.driver.createSchemaBuilder().log();
    return log.upQueries.map(({ query }) => query);
  }

  async close(): Promise<void> {
    await this.tail;
    await this.reader.destroy();
    await this.writer.destroy();
  }
}

/** A transaction that reads first and then writes would fail at once beside another writer; one that begins so waits. */
function beginImmediately(source: DataSource): void {
  const runner = source.createQueryRunner();
  const query = runner.query.bind(runner);
  runner.query = ((text: string, ...rest: unknown[]) =>
    (query as (text: string, ...rest: unknown[]) => Promise<unknown>)(
      text === 'BEGIN TRANSACTION' ? 'BEGIN IMMEDIATE' : text,
      ...rest,
    )) as typeof runner.query;
}
