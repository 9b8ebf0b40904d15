import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openSqliteFile } from '../../src/store/sqlite-dialect.ts';
import { draftInvitation, makeTempStore, ORG, type TempStore } from './temp-store.ts';

let temp: TempStore;
beforeEach(async () => {
  temp = await makeTempStore();
  await temp.store.append(draftInvitation());
  await temp.store.append(draftInvitation());
});
afterEach(() => temp.remove());

const ROW = `seq, id, org, kind, "by", about, json`;

describe('the log tables', () => {
  it.each([
    ["update event set json = '{}' where seq = 0", 'event'],
    ["update event set org = 'org-2'", 'event'],
    ["update or replace event set id = 'x' where seq = 0", 'event'],
    ['delete from event where seq = 1', 'event'],
    [`insert or replace into event select ${ROW} from event where seq = 0`, 'event'],
    [`replace into event (${ROW}) select 0, 'n', 'o', 'k', 'b', null, '{}'`, 'event'],
    [
      `insert into event (${ROW}) select ${ROW} from event where seq = 0
       on conflict (seq) do update set json = '{}'`,
      'event',
    ],
    ["update tree_node set hash = '00'", 'tree_node'],
    ['delete from tree_node', 'tree_node'],
    ["replace into tree_node (level, position, hash) values (0, 0, '00')", 'tree_node'],
  ])('refuse: %s', async (statement, table) => {
    const database = openSqliteFile(temp.file);
    expect(() => database.exec(statement)).toThrow(new RegExp(`${table} is append-only`));
    database.close();
    const stored = await temp.store.events({ org: ORG });
    expect(stored.map((one) => one.broken)).toEqual([null, null]);
  });

  it('would let INSERT OR REPLACE through without recursive triggers, so the store turns them on', () => {
    const careless = openSqliteFile(temp.file);
    careless.exec('pragma recursive_triggers = off');
    careless.exec(`insert or replace into event select ${ROW} from event where seq = 0`);
    expect(careless.prepare('pragma recursive_triggers').get()).toEqual({ recursive_triggers: 0 });
    careless.close();
    const careful = openSqliteFile(temp.file);
    expect(careful.prepare('pragma recursive_triggers').get()).toEqual({ recursive_triggers: 1 });
    careful.close();
  });

  it('are written ahead and to the disk before anything is acknowledged', () => {
    const database = openSqliteFile(temp.file);
    // https://sqlite.org/pragma.html#pragma_synchronous: FULL is 2
    expect(database.prepare('pragma synchronous').get()).toEqual({ synchronous: 2 });
    expect(database.prepare('pragma journal_mode').get()).toEqual({ journal_mode: 'wal' });
    expect(database.prepare('pragma foreign_keys').get()).toEqual({ foreign_keys: 1 });
    database.close();
  });
});
