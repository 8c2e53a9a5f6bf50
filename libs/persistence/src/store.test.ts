import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { BookingEntity } from './entities/plans.ts';
import { BaseEntity } from './entities/registers.ts';
import { Store } from './store.ts';

let folder: string;
let store: Store;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'brimline-store-'));
  store = await Store.open(join(folder, 'test.sqlite'));
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

const booking = (unitId: string, start: number, end: number) => ({
  planId: 1,
  jobId: 'j',
  unitId,
  start: new Date(start),
  end: new Date(end),
});
const book = (unitId: string, start: number, end: number): Promise<unknown> =>
  store.write((manager) => manager.insert(BookingEntity, booking(unitId, start, end)));

describe('the store', () => {
  it('has tables that agree with the entities, triggers, a write-ahead log and foreign keys', async () => {
    expect(await store.pendingSchemaChanges()).toEqual([]);
    const triggers = await store.read.query(
      `SELECT name FROM sqlite_master WHERE type = 'trigger' ORDER BY name`,
    );
    expect(triggers.map(({ name }: { name: string }) => name)).toEqual([
      'booking_no_overlap_insert',
      'booking_no_overlap_update',
    ]);
    expect((await store.read.query('PRAGMA journal_mode'))[0].journal_mode).toBe('wal');
    expect((await store.read.query('PRAGMA foreign_keys'))[0].foreign_keys).toBe(1);
  });

  it('refuses a second taker for one unit at one time; spans that touch are no clash', async () => {
    await book('pump', 0, 100);
    await book('pump', 100, 200);
    await book('other', 50, 150);
    await expect(book('pump', 199, 201)).rejects.toThrow(/booking_no_overlap/);
    await expect(
      store.write((manager) =>
        manager.update(BookingEntity, { unitId: 'pump', start: new Date(100) }, { start: new Date(99) }),
      ),
    ).rejects.toThrow(/booking_no_overlap/);
    expect(await store.read.count(BookingEntity)).toBe(3);
  });

  it('lets exactly one of many racing writers have the unit', async () => {
    const outcomes = await Promise.allSettled(
      Array.from({ length: 40 }, (_, index) => book('pump', index % 5, 10)),
    );
    expect(outcomes.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    expect(await store.read.count(BookingEntity)).toBe(1);
  });

  it('saves a piece of work whole or not at all, and keeps other work apart', async () => {
    const row = (id: string) => ({ id, position: 0, facts: {} as never });
    const failing = store.write(async (manager) => {
      await manager.insert(BaseEntity, row('a'));
      await store.write((inner) => inner.insert(BaseEntity, row('b')));
      throw new Error('changed my mind');
    });
    const other = store.write((manager) => manager.insert(BaseEntity, row('c')));
    await expect(failing).rejects.toThrow(/changed my mind/);
    await other;
    expect((await store.read.find(BaseEntity)).map(({ id }) => id)).toEqual(['c']);
  });

  it('can not be written by the reading connection', async () => {
    await expect(store.read.insert(BaseEntity, { id: 'x', position: 0, facts: {} as never })).rejects.toThrow(
      /readonly/i,
    );
  });
});
