import { nameHash, newId, newSalt } from '../records/index.ts';
import type { StoreWrite } from '../store/index.ts';
import type { Role } from './viewer.ts';

export type NewPerson = {
  readonly org: string;
  readonly role: Role;
  readonly name: string;
  /** In lower case. */
  readonly email: string;
  /** As `passwords/password-hash` makes it. */
  readonly passwordHash: string;
};

/**
 * Writes a person and their place in the organisation, inside a transaction that is already open, and logs
 * that they joined. The log gets the salted hash of the name, never the name. Returns the new opaque id.
 */
export async function addPerson(
  { db, append }: StoreWrite,
  { org, role, name, email, passwordHash }: NewPerson,
  at: string,
): Promise<string> {
  const person = newId();
  const salt = newSalt();
  const times = { createdAt: at, updatedAt: at };
  await db
    .insertInto('user')
    .values({ id: person, name, email, emailVerified: 0, image: null, ...times })
    .execute();
  await db
    .insertInto('account')
    .values({
      id: newId(),
      accountId: person,
      providerId: 'credential',
      userId: person,
      password: passwordHash,
      ...times,
    })
    .execute();
  await db.insertInto('membership').values({ person, org, role, salt, joinedAt: at }).execute();
  await append({
    id: newId(),
    kind: 'person.joined',
    version: 1,
    org,
    at,
    by: person,
    about: person,
    body: { role, nameHash: nameHash(name, salt) },
  });
  return person;
}
