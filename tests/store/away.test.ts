import { sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isStoreAway, openStore } from '../../src/store/index.ts';
import { hasPostgres } from '../helpers/postgres.ts';
import { draftInvitation, makePostgresStore, ORG, SLOW, type TempStore } from './temp-store.ts';

describe.skipIf(!hasPostgres())('a database that goes away', () => {
  let temp: TempStore;
  beforeAll(async () => {
    temp = await makePostgresStore();
  }, SLOW);
  afterAll(() => temp.remove(), SLOW);

  /** As a restart of the server does to every connection of the site. */
  const endConnections = () =>
    temp.runRaw(
      "select pg_terminate_backend(pid) from pg_stat_activity where datname = current_database() and application_name = 'signed-to-saw'",
    );

  it('is told from a fault of ours: nobody listens, or the connection ends half-way', async () => {
    const nobody = openStore({ url: 'postgres://x@127.0.0.1:9/x' }, temp.siteKey);
    expect(await nobody.catch(isStoreAway)).toBe(true);
    const cut = temp.store.write(async ({ db, append }) => {
      await append(draftInvitation());
      await endConnections();
      await sql`select 1`.execute(db);
    });
    expect(await cut.catch(isStoreAway)).toBe(true);
    expect(await temp.store.events({ org: ORG })).toEqual([]);
    expect(isStoreAway(new Error('a fault of ours'))).toBe(false);
    const wrong = sql`select nothing_like_it`.execute(temp.store.db);
    expect(await wrong.catch(isStoreAway)).toBe(false);
  });

  it(
    'is used again when it is back, and what is entered meanwhile is kept once',
    async () => {
      const drafts = Array.from({ length: 60 }, () => draftInvitation());
      const entering = Promise.all(
        drafts.map((draft) =>
          temp.store.append(draft).then(
            () => draft.id,
            (error: unknown) => {
              if (!isStoreAway(error)) throw error;
              return null;
            },
          ),
        ),
      );
      for (let i = 0; i < 3; i++) await endConnections();
      const acknowledged = (await entering).filter((id) => id !== null);
      const again = await temp.store.append(draftInvitation());
      const stored = (await temp.store.events({ org: ORG })).map(({ event }) => event?.id);
      expect(new Set(stored).size).toBe(stored.length);
      expect(acknowledged.filter((id) => !stored.includes(id))).toEqual([]);
      expect(stored.at(-1)).toBe(again.event.id);
    },
    SLOW,
  );
});
