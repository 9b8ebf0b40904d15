import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openSqliteFile } from '../../src/store/sqlite-dialect.ts';
import { hasPostgres } from '../helpers/postgres.ts';
import {
  draftInvitation,
  ENGINES,
  makePostgresStore,
  makeTempStore,
  ORG,
  SLOW,
  type TempFileStore,
  type TempStore,
} from './temp-store.ts';

const ROW = `seq, id, org, kind, "by", about, json`;

async function fill<Temp extends TempStore>(made: Promise<Temp>): Promise<Temp> {
  const temp = await made;
  await temp.store.append(draftInvitation());
  await temp.store.append(draftInvitation());
  return temp;
}

/** What both engines know. */
const EVERYWHERE: [string, string][] = [
  ["update event set json = '{}' where seq = 0", 'event'],
  ["update event set org = 'org-2'", 'event'],
  ['delete from event where seq = 1', 'event'],
  [
    `insert into event (${ROW}) select ${ROW} from event where seq = 0
       on conflict (seq) do update set json = '{}'`,
    'event',
  ],
  ["update tree_node set hash = '00'", 'tree_node'],
  ['delete from tree_node', 'tree_node'],
];

describe.each(ENGINES)('the log tables on %s', (name, make) => {
  let temp: TempStore;
  beforeEach(async () => {
    temp = await fill(make());
  }, SLOW);
  afterEach(() => temp.remove());

  const OWN: Record<string, [string, string][]> = {
    SQLite: [
      ["update or replace event set id = 'x' where seq = 0", 'event'],
      [`insert or replace into event select ${ROW} from event where seq = 0`, 'event'],
      [`replace into event (${ROW}) select 0, 'n', 'o', 'k', 'b', null, '{}'`, 'event'],
      ["replace into tree_node (level, position, hash) values (0, 0, '00')", 'tree_node'],
    ],
    PostgreSQL: [
      ['truncate event', 'event'],
      ['truncate tree_node, event cascade', 'tree_node'],
      [
        `merge into event using (select 0 as seq) one on event.seq = one.seq
         when matched then delete`,
        'event',
      ],
    ],
  };

  it.each([...EVERYWHERE, ...(OWN[name] ?? [])])('refuse: %s', async (statement, table) => {
    await expect(temp.runRaw(statement)).rejects.toThrow(new RegExp(`${table} is append-only`));
    const stored = await temp.store.events({ org: ORG });
    expect(stored.map((one) => one.broken)).toEqual([null, null]);
  });
});

describe('the log tables on SQLite alone', () => {
  let temp: TempFileStore;
  beforeEach(async () => {
    temp = await fill(makeTempStore());
  });
  afterEach(() => temp.remove());

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

describe.skipIf(!hasPostgres())('the log tables on PostgreSQL alone', () => {
  it('are on the disk before anything is acknowledged', async () => {
    const temp = await fill(makePostgresStore());
    // https://www.postgresql.org/docs/15/runtime-config-wal.html
    expect(await temp.runRaw('show fsync')).toEqual([{ fsync: 'on' }]);
    expect(await temp.runRaw('show synchronous_commit')).toEqual([{ synchronous_commit: 'on' }]);
    await temp.remove();
  });
});
