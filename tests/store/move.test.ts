import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { fillDemoWorkshop, openSite } from '../../src/accounts/index.ts';
import { asOrganisation, asSite, openSiteKey, openStore } from '../../src/store/index.ts';
import { moveStore } from '../../src/store/move/index.ts';
import { hasPostgres, runSql } from '../helpers/postgres.ts';
import { draftInvitation, ORG, SLOW } from './temp-store.ts';
import { makeTwoRoles, type TwoRoles } from './two-roles.ts';

describe.skipIf(!hasPostgres())('moving a store to PostgreSQL', () => {
  let roles: TwoRoles;
  let dataDir: string;
  let file: string;
  beforeEach(async () => {
    roles = await makeTwoRoles();
    dataDir = mkdtempSync(join(tmpdir(), 'move-test-'));
    file = join(dataDir, 'store.sqlite');
  }, SLOW);
  afterEach(async () => {
    await roles.remove();
    rmSync(dataDir, { recursive: true, force: true });
  });

  const readKey = () => openSiteKey(join(dataDir, 'site-key.json'), false);
  const site = async (database: TwoRoles['place'] | null) =>
    openSite({ dataDir, contentDir: 'content', address: new URL('http://localhost'), database });
  const fillEvents = async (count: number) => {
    const store = await openStore({ file }, await readKey());
    for (let done = 0; done < count; done += 500) {
      await store.write(async ({ append }) => {
        for (let i = done; i < Math.min(count, done + 500); i++) await append(draftInvitation());
      });
    }
    const checkpoint = await store.checkpoint();
    await store.close();
    return checkpoint;
  };

  it('brings the invented workshop over whole: people sign in as before and the log goes on', async () => {
    const before = await site(null);
    const filled = await fillDemoWorkshop(before, 'a password of some length');
    expect(filled.ok).toBe(true);
    const org = (await before.store.db.selectFrom('organisation').select('id').execute())[0]?.id;
    const stored = await before.store.events({ org: org ?? '' });
    const checkpoint = await before.store.checkpoint();
    await before.store.close();

    const moved = await moveStore({ file, target: roles.place, siteKey: await readKey() });
    expect(moved).toMatchObject({ size: stored.length, checkpoint });
    const people = moved.tables.find(({ name }) => name === 'user');
    const raw = new DatabaseSync(file);
    expect(people?.rows).toBe(raw.prepare('select count(*) as n from user').get()?.['n']);
    raw.close();

    const after = await site(roles.place);
    const there = await asOrganisation(org ?? '', () => after.store.events({ org: org ?? '' }));
    expect(there.map(({ text }) => text)).toEqual(stored.map(({ text }) => text));
    const [someone] = filled.ok ? filled.value : [];
    const signedIn = await asSite(() =>
      after.auth.api.signInEmail({
        body: { email: someone?.email ?? '', password: 'a password of some length' },
      }),
    ).catch((error: unknown) => error);
    expect(signedIn).toMatchObject({ user: { email: someone?.email } });
    const next = await asOrganisation(ORG, () => after.store.append(draftInvitation()));
    expect(next.seq).toBe(stored.length);
    await after.store.close();
  }, 120_000);

  it('proves 5,000 events by their root, counts and sums, and tells how far it is', async () => {
    const checkpoint = await fillEvents(5_000);
    const told: string[] = [];
    const moved = await moveStore({
      file,
      target: roles.place,
      siteKey: await readKey(),
      tell: (doing, table, rows) => told.push(`${doing} ${table} ${rows}`),
    });
    expect(moved).toMatchObject({ size: 5_000, checkpoint });
    for (const one of ['copy event 2500', 'compare event 2500', 'audit event 3000']) {
      expect(told).toContain(one);
    }
    // a perfect tree of n leaves has 2n - 1 nodes; RFC 6962 2.1 splits 5,000 into 4096 + 512 + 256 + 128 + 8
    expect(moved.tables.find(({ name }) => name === 'tree_node')?.rows).toBe(2 * 5_000 - 5);
  }, 240_000);

  it(
    'leaves a database alone that holds a row or somebody else’s table',
    async () => {
      await fillEvents(3);
      const order = { file, target: roles.place, siteKey: await readKey() };
      await runSql(roles.rootUrl, 'create table other (id int)');
      await expect(moveStore(order)).rejects.toThrow(/not empty \(table other\)/);
      await runSql(roles.rootUrl, 'drop table other');
      expect((await moveStore(order)).size).toBe(3);
      await expect(moveStore(order)).rejects.toThrow(/not empty \(table \w+\)/);
    },
    SLOW,
  );

  it(
    'leaves nothing behind when it is broken off or a row comes out differently, and works the next time',
    async () => {
      await fillEvents(3);
      const order = { file, target: roles.place, siteKey: await readKey() };
      const broken = moveStore({
        ...order,
        tell: (_doing, table) => {
          if (table === 'event') throw new Error('broken off');
        },
      });
      await expect(broken).rejects.toThrow('broken off');
      // the database itself changes what is put into it
      await runSql(
        roles.rootUrl,
        `create function meddle() returns trigger language plpgsql as $$
       begin new.hash = upper(new.hash); return new; end $$`,
        'create trigger meddle before insert on tree_node for each row execute function meddle()',
      );
      await expect(moveStore(order)).rejects.toThrow(/Table tree_node came out differently/);
      await runSql(roles.rootUrl, 'drop trigger meddle on tree_node');
      expect((await moveStore(order)).size).toBe(3);
    },
    SLOW,
  );
});
