import { nameHash } from '../records/index.ts';
import { getSite, type Site } from './site.ts';
import type { Role } from './viewer.ts';

/** A member of an organisation. `nameHash` is how events and statements refer to the name. */
export type Person = {
  readonly person: string;
  readonly name: string;
  readonly role: Role;
  readonly joinedAt: string;
  readonly nameHash: string;
};

/** Everybody in the organisation, by role and then name. */
export async function peopleOf(org: string, site?: Site): Promise<Person[]> {
  const { store } = site ?? (await getSite());
  const rows = await store.db
    .selectFrom('membership')
    .innerJoin('user', 'user.id', 'membership.person')
    .select(['membership.person', 'user.name', 'membership.role', 'membership.joinedAt'])
    .select('membership.salt')
    .where('membership.org', '=', org)
    .execute();
  const order: Readonly<Record<Role, number>> = { trainee: 0, trainer: 1, employer: 2 };
  return rows
    .map(({ salt, ...row }) => ({ ...row, nameHash: nameHash(row.name, salt) }))
    .sort((a, b) => order[a.role] - order[b.role] || a.name.localeCompare(b.name, 'en'));
}

const BY_NAME = new Intl.Collator('en', { numeric: true });

/** Everybody in the organisation by name, without the hashes of their names: quick for thousands of people. */
export async function listPeople(org: string, site?: Site): Promise<Omit<Person, 'nameHash'>[]> {
  const { store } = site ?? (await getSite());
  const rows = await store.db
    .selectFrom('membership')
    .innerJoin('user', 'user.id', 'membership.person')
    .select(['membership.person', 'user.name', 'membership.role', 'membership.joinedAt'])
    .where('membership.org', '=', org)
    .execute();
  return rows.sort((a, b) => BY_NAME.compare(a.name, b.name) || (a.person < b.person ? -1 : 1));
}

/** One member of the organisation, or null when it has no such person. */
export async function personOf(org: string, person: string, site?: Site): Promise<Person | null> {
  return (await peopleOf(org, site)).find((one) => one.person === person) ?? null;
}

/** The organisation's own name. */
export async function organisationName(org: string, site?: Site): Promise<string> {
  const { store } = site ?? (await getSite());
  const row = await store.db
    .selectFrom('organisation')
    .select('name')
    .where('id', '=', org)
    .executeTakeFirst();
  return row?.name ?? '';
}
