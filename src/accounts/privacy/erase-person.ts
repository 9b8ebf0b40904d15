import type { Kysely } from 'kysely';
import { z } from 'zod';
import { addMonths, dayOf } from '../../competence/index.ts';
import { asSite, type Tables } from '../../store/index.ts';
import { can } from '../can.ts';
import { plainName } from '../groups.ts';
import { grant, type Outcome, refuseAs } from '../problems.ts';
import { confirmSignIns } from '../sign-in-ticket.ts';
import type { Site } from '../site.ts';
import { hashToken } from '../tokens.ts';
import type { Role, Viewer } from '../viewer.ts';
import { TABLE_NAMES, TABLES_KEPT, type TableName } from './data-map.ts';
import { monthsFor } from './retention-choice.ts';
import { personColumn } from './rows-of.ts';

export const ERASE_REASONS = ['asked', 'asked-in-writing', 'period'] as const;

/** What erasing somebody would do: rows that go, by table, and records that stay. */
export type ErasurePlan = {
  readonly person: string;
  readonly name: string;
  readonly role: Role;
  readonly goes: readonly { readonly table: TableName; readonly rows: number }[];
  /** records in the log about or by them, which stay with an opaque id */
  readonly stays: number;
  /** ISO instant they asked at; null when they did not ask here */
  readonly askedAt: string | null;
  /** ISO instant of the last record about or by them */
  readonly lastAt: string;
  /** day the period of accounts is over for them */
  readonly dueOn: string;
};

const countRows = async (db: Kysely<Tables>, name: TableName, column: string, value: string) => {
  const row = await db
    .selectFrom(name as 'user')
    .select((of) => of.fn.countAll<number>().as('rows'))
    .where(column as 'id', '=', value)
    .executeTakeFirstOrThrow();
  return Number(row.rows);
};

/** The dry run: what goes, what stays. Changes nothing. */
export async function planErasure(
  viewer: Viewer | null,
  person: string,
  site: Site,
): Promise<Outcome<ErasurePlan>> {
  if (viewer === null || !can(viewer, 'person.erase', { org: viewer.org, person })) {
    return refuseAs(403, '', { key: 'privacy.erase.who' });
  }
  const { db } = site.store;
  const member = await db
    .selectFrom('membership')
    .innerJoin('user', 'user.id', 'membership.person')
    .select(['user.name', 'membership.role', 'membership.joinedAt'])
    .where('membership.person', '=', person)
    .where('membership.org', '=', viewer.org)
    .executeTakeFirst();
  if (member === undefined) return refuseAs(404, '', { key: 'privacy.erase.nobody' });
  const goes = [];
  for (const table of TABLE_NAMES) {
    const column = personColumn(table);
    const rows = column === null ? 0 : await countRows(db, table, column, person);
    if (rows > 0) goes.push({ table, rows });
  }
  const records = await db
    .selectFrom('event')
    .select(['seq', 'json'])
    .where('org', '=', viewer.org)
    .where((or) => or.or([or('about', '=', person), or('by', '=', person)]))
    .orderBy('seq')
    .execute();
  const last = records.at(-1);
  const lastAt = last === undefined ? member.joinedAt : receivedIn(last.json, member.joinedAt);
  const wish = await db
    .selectFrom('erasure_wish')
    .select('askedAt')
    .where('person', '=', person)
    .executeTakeFirst();
  const months = await monthsFor(db, viewer.org, 'account');
  return grant({
    person,
    name: member.name,
    role: member.role,
    goes,
    stays: records.length,
    askedAt: wish?.askedAt ?? null,
    lastAt,
    dueOn: addMonths(dayOf(lastAt), months),
  });
}

function receivedIn(json: string, otherwise: string): string {
  try {
    const { received } = JSON.parse(json) as { received?: unknown };
    return typeof received === 'string' ? received : otherwise;
  } catch {
    return otherwise; // a record that was written over
  }
}

const EraseSchema = z.object({
  id: z.uuidv7({ error: 'id' }),
  reason: z.enum(ERASE_REASONS, { error: 'reason' }),
  name: z.string({ error: 'name' }).max(200, { error: 'name' }),
  password: z.string({ error: 'password' }).min(1, { error: 'password' }).max(128, {
    error: 'password',
  }),
});

/** Why this person may not be erased now, or null. An organisation keeps somebody who can let others in. */
async function whyNot(
  db: Kysely<Tables>,
  org: string,
  { role, person }: Pick<ErasurePlan, 'role' | 'person'>,
): Promise<Outcome<never> | null> {
  if (role === 'trainee') return null;
  const others = await db
    .selectFrom('membership')
    .select('person')
    .where('org', '=', org)
    .where('role', '=', role)
    .where('person', '!=', person)
    .execute();
  if (others.length > 0) return null;
  return refuseAs(409, '', { key: `privacy.erase.only-${role}` });
}

/** Tables whose rows do not go with the row of the user by themselves. */
async function eraseRows(db: Kysely<Tables>, org: string, person: string): Promise<void> {
  const user = await db
    .selectFrom('user')
    .select(['name', 'email'])
    .where('id', '=', person)
    .executeTakeFirstOrThrow();
  await db
    .deleteFrom('sign_in_try')
    .where('key', '=', hashToken(`email:${user.email}`))
    .execute();
  // an invitation holds the name it was made for, used or not
  await db
    .deleteFrom('invitation')
    .where('org', '=', org)
    .where((or) => or.or([or('usedBy', '=', person), or('name', '=', user.name)]))
    .execute();
  for (const table of TABLE_NAMES) {
    const column = personColumn(table);
    if (column === null || table === 'user' || TABLES_KEPT[table].set === 'log') continue;
    await db
      .deleteFrom(table as 'user')
      .where(column as 'id', '=', person)
      .execute();
  }
  const { numDeletedRows } = await db
    .deleteFrom('user')
    .where('id', '=', person)
    .executeTakeFirstOrThrow();
  // the log must never say that somebody is erased whose name is still there
  if (Number(numDeletedRows) !== 1) throw new Error('The row of the person is out of reach.');
}

/**
 * Erases a person: every row about them goes, in one transaction with the record that says so. The log keeps
 * its entries; without the salts their hashes name nobody. Pressing twice erases once.
 * @param input id of the form, reason, the name typed again and the password of who erases
 * @param address network address of the browser, counted for wrong passwords
 */
export async function erasePerson(
  viewer: Viewer | null,
  person: string,
  input: unknown,
  { address, site, now = new Date() }: { address: string | null; site: Site; now?: Date },
): Promise<Outcome<string>> {
  const read = EraseSchema.safeParse(input);
  if (!read.success) {
    const field = read.error.issues[0]?.message ?? '';
    return refuseAs(400, field, { key: `privacy.erase.bad.${field}` });
  }
  const { id, reason, name, password } = read.data;
  const before = (await site.store.event(id))?.event ?? null;
  if (before?.kind === 'person.erased' && before.about === person && before.org === viewer?.org) {
    return grant(person);
  }
  const planned = await planErasure(viewer, person, site);
  if (!planned.ok) return planned;
  if (viewer === null) return refuseAs(403, '', { key: 'privacy.erase.who' });
  const plan = planned.value;
  const { org } = viewer;
  if (reason === 'asked' && plan.askedAt === null) {
    return refuseAs(409, 'reason', { key: 'privacy.erase.not-asked' });
  }
  if (reason === 'period' && dayOf(now.toISOString()) < plan.dueOn) {
    return refuseAs(409, 'reason', { key: 'privacy.erase.early', put: { day: plan.dueOn } });
  }
  if (plainName(name) !== plainName(plan.name)) {
    return refuseAs(400, 'name', { key: 'privacy.erase.bad.name' });
  }
  const signedIn = await confirmSignIns(viewer, password, [], address, site, now);
  if (!signedIn.ok) return signedIn;
  // Whether the viewer may was asked above, about a member of their own organisation. PostgreSQL shows the rows of
  // a person through their membership, which goes as well: so the site itself erases.
  const done = await asSite(() =>
    site.store.write(async ({ db, append }) => {
      const against = await whyNot(db, org, plan);
      if (against !== null) return against;
      const still = await db
        .selectFrom('membership')
        .select('person')
        .where('person', '=', person)
        .where('org', '=', org)
        .executeTakeFirst();
      if (still === undefined) return grant(person); // somebody else was first
      await eraseRows(db, org, person);
      await append({
        id,
        kind: 'person.erased',
        version: 1,
        org,
        at: now.toISOString(),
        by: viewer.person,
        about: person,
        body: { reason },
      });
      return grant(person);
    }),
  );
  if (done.ok) await site.store.scrub('log');
  return done;
}
