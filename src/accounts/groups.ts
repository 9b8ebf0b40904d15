import type { Kysely } from 'kysely';
import { z } from 'zod';
import type { Tables } from '../store/index.ts';
import { can } from './can.ts';
import { NameSchema } from './fields.ts';
import { grant, type Outcome, refuseAs, refuseForm } from './problems.ts';
import { getSite, type Site } from './site.ts';
import type { Viewer } from './viewer.ts';

/** Most groups of one organisation. */
export const MOST_GROUPS = 100;

/** People a trainer looks after together. Names of groups stand outside the log. */
export type Group = {
  readonly id: string;
  readonly name: string;
  /** opaque ids */
  readonly people: ReadonlySet<string>;
};

const GroupSchema = z.object({
  id: z.uuidv7({ error: 'must be a UUID of version 7' }),
  name: NameSchema,
});

/** Two names that a reader takes for the same. */
export const sameName = (a: string, b: string): boolean => plainName(a) === plainName(b);
/** A name as it is compared: small letters, one blank between words. */
export const plainName = (name: string): string =>
  name.normalize('NFKC').trim().replace(/\s+/g, ' ').toLocaleLowerCase('en');

/** The groups of an organisation by name, each with the people in it. */
export async function groupsOf(org: string, site?: Site): Promise<Group[]> {
  const { store } = site ?? (await getSite());
  const rows = await store.db
    .selectFrom('person_group')
    .leftJoin('person_group_member', 'person_group_member.group', 'person_group.id')
    .select(['person_group.id', 'person_group.name', 'person_group_member.person'])
    .where('person_group.org', '=', org)
    .execute();
  const people = Map.groupBy(rows, ({ id }) => id);
  return [...people]
    .map(([id, members]) => ({
      id,
      name: members[0]?.name ?? '',
      people: new Set(members.flatMap(({ person }) => (person === null ? [] : [person]))),
    }))
    .sort((a, b) => a.name.localeCompare(b.name, 'en'));
}

const mayNot = (viewer: Viewer | null): viewer is null =>
  viewer === null || !can(viewer, 'group.set', { org: viewer.org });

const TRAINERS_ONLY = () => refuseAs(403, '', { key: 'group.trainer' });
const NO_GROUP = () => refuseAs(404, 'group', { key: 'group.none' });

const namesOf = (db: Kysely<Tables>, org: string) =>
  db.selectFrom('person_group').select(['id', 'name']).where('org', '=', org).execute();

/** Makes a group. The same id again, with the same name, makes nothing new. */
export async function makeGroup(
  viewer: Viewer | null,
  input: unknown,
  site?: Site,
  now: Date = new Date(),
): Promise<Outcome<string>> {
  if (mayNot(viewer)) return TRAINERS_ONLY();
  const read = GroupSchema.safeParse(input);
  if (!read.success) return refuseForm(read.error, 'The group');
  const { id, name } = read.data;
  const { store } = site ?? (await getSite());
  return store.write(async ({ db }) => {
    const known = await namesOf(db, viewer.org);
    if (known.some((one) => one.id === id && one.name === name)) return grant(id);
    if (known.some((one) => one.id === id || sameName(one.name, name))) {
      return refuseAs(409, 'name', { key: 'group.taken', put: { name } });
    }
    if (known.length >= MOST_GROUPS) {
      return refuseAs(409, 'name', { key: 'group.most', put: { most: MOST_GROUPS } });
    }
    await db
      .insertInto('person_group')
      .values({ id, org: viewer.org, name, madeAt: now.toISOString() })
      .execute();
    return grant(id);
  });
}

/** Gives a group another name. */
export async function renameGroup(
  viewer: Viewer | null,
  input: unknown,
  site?: Site,
): Promise<Outcome<string>> {
  if (mayNot(viewer)) return TRAINERS_ONLY();
  const read = GroupSchema.safeParse(input);
  if (!read.success) return refuseForm(read.error, 'The group');
  const { id, name } = read.data;
  const { store } = site ?? (await getSite());
  return store.write(async ({ db }) => {
    const known = await namesOf(db, viewer.org);
    if (!known.some((one) => one.id === id)) return NO_GROUP();
    if (known.some((one) => one.id !== id && sameName(one.name, name))) {
      return refuseAs(409, 'name', { key: 'group.taken', put: { name } });
    }
    await db.updateTable('person_group').set({ name }).where('id', '=', id).execute();
    return grant(id);
  });
}

/** Takes a group away. The people stay, and nothing signed changes. Away already is away. */
export async function removeGroup(
  viewer: Viewer | null,
  id: string,
  site?: Site,
): Promise<Outcome<string>> {
  if (mayNot(viewer)) return TRAINERS_ONLY();
  const { store } = site ?? (await getSite());
  await store.db
    .deleteFrom('person_group')
    .where('id', '=', id)
    .where('org', '=', viewer.org)
    .execute();
  return grant(id);
}

/** Puts these people, and nobody else, into a group. */
export async function setGroupPeople(
  viewer: Viewer | null,
  { id, people }: { readonly id: string; readonly people: readonly string[] },
  site?: Site,
): Promise<Outcome<string>> {
  if (mayNot(viewer)) return TRAINERS_ONLY();
  const { store } = site ?? (await getSite());
  return store.write(async ({ db }) => {
    const known = await namesOf(db, viewer.org);
    if (!known.some((one) => one.id === id)) return NO_GROUP();
    const members = await db
      .selectFrom('membership')
      .select('person')
      .where('org', '=', viewer.org)
      .execute();
    const here = new Set(members.map(({ person }) => person));
    const wanted = [...new Set(people)];
    if (wanted.some((person) => !here.has(person))) {
      return refuseAs(400, 'people', { key: 'group.stranger' });
    }
    await db.deleteFrom('person_group_member').where('group', '=', id).execute();
    // SQLite takes a limited number of values at once
    for (let at = 0; at < wanted.length; at += 200) {
      const rows = wanted.slice(at, at + 200).map((person) => ({ group: id, person }));
      await db.insertInto('person_group_member').values(rows).execute();
    }
    return grant(id);
  });
}
