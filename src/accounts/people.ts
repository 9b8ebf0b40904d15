import { nameHash } from '../records/index.ts';
import { cutIds } from '../store/index.ts';
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

/** A member without the hash of the name, which takes a while for thousands. */
export type ListedPerson = Omit<Person, 'nameHash'>;

const ROLES: Readonly<Record<Role, number>> = { trainee: 0, trainer: 1, employer: 2 };
const BY_NAME = new Intl.Collator('en', { numeric: true });

const membersOf = (org: string, { store }: Site) =>
  store.db
    .selectFrom('membership')
    .innerJoin('user', 'user.id', 'membership.person')
    .select(['membership.person', 'user.name', 'membership.role', 'membership.joinedAt'])
    .where('membership.org', '=', org);

/** Everybody in the organisation, by role and then name. */
export async function peopleOf(org: string, site?: Site): Promise<Person[]> {
  const rows = await membersOf(org, site ?? (await getSite()))
    .select('membership.salt')
    .execute();
  return byRole(rows).map(({ salt, ...row }) => ({ ...row, nameHash: nameHash(row.name, salt) }));
}

/** By role, and each role by name. */
export const byRole = <One extends ListedPerson>(people: readonly One[]): One[] =>
  people.toSorted((a, b) => ROLES[a.role] - ROLES[b.role] || a.name.localeCompare(b.name, 'en'));

/** Everybody in the organisation by name, without the hashes of their names: quick for thousands of people. */
export async function listPeople(org: string, site?: Site): Promise<ListedPerson[]> {
  const rows = await membersOf(org, site ?? (await getSite())).execute();
  return rows.sort((a, b) => BY_NAME.compare(a.name, b.name) || (a.person < b.person ? -1 : 1));
}

/** Those members of the organisation whose ids are among these, by role and then name. */
export async function membersAmong(
  org: string,
  ids: readonly string[],
  site: Site,
): Promise<ListedPerson[]> {
  const found: ListedPerson[] = [];
  for (const some of cutIds(ids)) {
    found.push(...(await membersOf(org, site).where('membership.person', 'in', some).execute()));
  }
  return byRole(found);
}

/** One member of the organisation, or null when it has no such person. */
export async function personOf(org: string, person: string, site?: Site): Promise<Person | null> {
  const row = await membersOf(org, site ?? (await getSite()))
    .select('membership.salt')
    .where('membership.person', '=', person)
    .executeTakeFirst();
  if (row === undefined) return null;
  const { salt, ...rest } = row;
  return { ...rest, nameHash: nameHash(row.name, salt) };
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
