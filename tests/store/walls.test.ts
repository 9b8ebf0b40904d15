import { sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newId } from '../../src/records/index.ts';
import {
  asOrganisation,
  asSite,
  isIdConflict,
  listUnprotected,
  type Store,
  type Tables,
} from '../../src/store/index.ts';
import { hasPostgres, runSql } from '../helpers/postgres.ts';
import { draftInvitation, makeTempStore, SLOW } from './temp-store.ts';
import { makeTwoRoles, type TwoRoles } from './two-roles.ts';

/** Two workshops, each with a row in every kind of table: by organisation, by person, by group. */
const ORGS = ['org-a', 'org-b'] as const;
const EVENTS: Record<string, string> = { 'org-a': newId(), 'org-b': newId() };
const AT = '2026-03-03T09:30:00.000Z';

async function fillWorkshop(store: Store, org: string): Promise<void> {
  const person = `person-${org}`;
  const times = { createdAt: AT, updatedAt: AT };
  await store.write(async ({ db, append }) => {
    const add = async <Name extends keyof Tables>(table: Name, row: Tables[Name]) =>
      db
        .insertInto(table)
        .values(row as never)
        .execute();
    await add('organisation', { id: org, name: org, salt: 's', invented: 0, madeAt: AT });
    const email = `${org}@x.example`;
    await add('user', { id: person, name: org, email, emailVerified: 0, image: null, ...times });
    await add('membership', { person, org, role: 'trainer', salt: 's', joinedAt: AT });
    await add('sign_in_ticket', {
      ticketHash: org,
      person,
      statementHash: 'h',
      expiresAt: AT,
      usedAt: null,
    });
    await add('person_group', { id: `group-${org}`, org, name: 'class', madeAt: AT });
    await add('person_group_member', { group: `group-${org}`, person });
    await add('photo', {
      digest: 'd',
      org,
      signoff: org,
      about: person,
      type: 'image/jpeg',
      bytes: new Uint8Array([1, 2, 3]),
      received: AT,
    });
    await add('learning_answer', {
      person,
      id: org,
      lesson: 'l',
      question: 'q',
      right: 1,
      at: AT,
      received: AT,
    });
    await append(draftInvitation({ org, id: EVENTS[org] as never }));
  });
}

/** Every table a forgetful query is tried on, and the column that tells whose row it is. */
const FILLED = {
  organisation: 'id',
  user: 'id',
  membership: 'org',
  sign_in_ticket: 'ticketHash',
  person_group: 'org',
  person_group_member: 'group',
  photo: 'org',
  learning_answer: 'id',
  event: 'org',
} as const;

/** No condition at all: what somebody writes who forgot that there are other workshops. */
async function readForgetfully(store: Store, table: keyof Tables): Promise<string[]> {
  const rows = await store.db
    .selectFrom(table as 'event')
    .selectAll()
    .execute();
  const column = FILLED[table as keyof typeof FILLED];
  return rows.map((row) => String((row as Record<string, unknown>)[column]));
}

describe.skipIf(!hasPostgres())('walls between workshops on PostgreSQL', () => {
  let roles: TwoRoles;
  let store: Store;
  beforeAll(async () => {
    roles = await makeTwoRoles();
    store = await roles.open();
    for (const org of ORGS) await asSite(() => fillWorkshop(store, org));
  }, SLOW);
  afterAll(async () => {
    await store.close();
    await roles.remove();
  });

  it.each(Object.keys(FILLED) as (keyof typeof FILLED)[])(
    'a query of %s that forgets the organisation gives the rows of whoever asks, and without that none',
    async (table) => {
      for (const org of ORGS) {
        const seen = await asOrganisation(org, () => readForgetfully(store, table));
        expect(seen).toHaveLength(1);
        expect(seen[0]).toContain(org);
      }
      expect(await readForgetfully(store, table)).toEqual([]);
      expect(await asSite(() => readForgetfully(store, table))).toHaveLength(2);
    },
  );

  it('stand around every table but those of hashes', async () => {
    // https://www.postgresql.org/docs/15/catalog-pg-class.html
    const { rows } = await sql<{ name: string }>`
      select relname as name from pg_class
      where relnamespace = 'public'::regnamespace and relkind in ('r', 'p')
        and not (relrowsecurity and relforcerowsecurity)
      order by relname`.execute(store.db);
    expect(rows.map(({ name }) => name)).toEqual([
      'kysely_migration',
      'kysely_migration_lock',
      'log_head',
      'tree_node',
    ]);
  });

  it('refuse to add a row for another, to move one there, and to change or remove one', async () => {
    const group = { id: newId(), org: 'org-b', name: 'sneaked in', madeAt: AT };
    await asOrganisation('org-a', async () => {
      const adding = store.db.insertInto('person_group').values(group).execute();
      await expect(adding).rejects.toThrow(/row-level security/);
      const moving = store.db.updateTable('person_group').set({ org: 'org-b' }).execute();
      await expect(moving).rejects.toThrow(/row-level security/);
      await expect(store.append(draftInvitation({ org: 'org-b' }))).rejects.toThrow(
        /row-level security/,
      );
      const changed = await store.db
        .updateTable('person_group')
        .set({ name: 'x' })
        .where('org', '=', 'org-b')
        .executeTakeFirst();
      expect(changed.numUpdatedRows).toBe(0n);
      const removed = await store.db.deleteFrom('photo').where('org', '=', 'org-b').execute();
      expect(removed[0]?.numDeletedRows).toBe(0n);
    });
    expect(await asSite(() => readForgetfully(store, 'photo'))).toHaveLength(2);
  });

  it('hold on every connection of the pool, whoever used it before', async () => {
    const asked = Array.from({ length: 60 }, (_, i) => ORGS[i % 2] as string);
    const seen = await Promise.all(
      asked.map((org) => asOrganisation(org, () => readForgetfully(store, 'membership'))),
    );
    expect(seen).toEqual(asked.map((org) => [org]));
  });

  it('hold after a transaction that was undone, and inside one that changes whom it asks for', async () => {
    const fails = asOrganisation('org-a', () =>
      store.write(async ({ db }) => {
        const other = () => db.selectFrom('membership').select('org').execute();
        expect(await asOrganisation('org-b', other)).toEqual([{ org: 'org-b' }]);
        expect(await other()).toEqual([{ org: 'org-a' }]);
        expect(await asSite(other)).toHaveLength(2);
        throw new Error('undone');
      }),
    );
    await expect(fails).rejects.toThrow('undone');
    for (let i = 0; i < 12; i++) {
      expect(await readForgetfully(store, 'membership')).toEqual([]);
      expect(await asOrganisation('org-b', () => readForgetfully(store, 'membership'))).toEqual([
        'org-b',
      ]);
    }
  });

  it('hold when an undone transaction takes back what the connection was last told', async () => {
    const fails = asSite(() =>
      store.write(async ({ db }) => {
        const own = () => db.selectFrom('membership').select('org').execute();
        expect(await asOrganisation('org-b', own)).toEqual([{ org: 'org-b' }]);
        throw new Error('undone');
      }),
    );
    await expect(fails).rejects.toThrow('undone');
    expect(await asOrganisation('org-b', () => readForgetfully(store, 'membership'))).toEqual([
      'org-b',
    ]);
  });

  it('do not hide that an id is taken: an event under the id of another workshop’s is refused', async () => {
    const draft = draftInvitation({ org: 'org-a', id: EVENTS['org-b'] as never });
    const error = await asOrganisation('org-a', () => store.append(draft)).catch((e: unknown) => e);
    expect(isIdConflict(error)).toBe(true);
  });

  it('leave the role of the site without a right to the log’s rows, triggers and walls', async () => {
    for (const statement of [
      'delete from event',
      "update tree_node set hash = ''",
      'truncate event',
      'alter table event disable trigger all',
      'drop trigger event_refuses_delete on event',
      'alter table event no force row level security',
      'drop policy wall on event',
      'drop table event',
      'set session_replication_role = replica',
    ]) {
      await expect(runSql(roles.place.url, statement), statement).rejects.toThrow(
        /permission denied|must be owner/,
      );
    }
  });

  it('hold against the owner as well, whose protection of the log can only be taken off', async () => {
    const owner = await roles.open({ url: roles.place.ownerUrl });
    expect(await readForgetfully(owner, 'event')).toEqual([]);
    expect(await asOrganisation('org-a', () => readForgetfully(owner, 'event'))).toEqual(['org-a']);
    expect(await listUnprotected(owner.db)).toEqual([expect.stringMatching(/owns the tables/)]);
    await owner.close();
    expect(await listUnprotected(store.db)).toEqual([]);
  });

  it('are gone for a role above all rules, and the start says so', async () => {
    const root = await roles.open({ url: roles.rootUrl });
    expect(await listUnprotected(root.db)).toEqual([expect.stringMatching(/above all rules/)]);
    await root.close();
  });

  it('are found in place by the site’s role alone once the owner has made them', async () => {
    const alone = await roles.open({ url: roles.place.url });
    expect(await asOrganisation('org-b', () => readForgetfully(alone, 'event'))).toEqual(['org-b']);
    await alone.close();
  });
});

describe('on SQLite', () => {
  it('there is no wall: the conditions in each query are all there is', async () => {
    const temp = await makeTempStore();
    for (const org of ORGS) await fillWorkshop(temp.store, org);
    const seen = await asOrganisation('org-a', () => readForgetfully(temp.store, 'membership'));
    expect(seen).toEqual(['org-a', 'org-b']);
    await temp.remove();
  });
});
