import type { Kysely, Selectable } from 'kysely';
import { logSecurity } from '../logging/index.ts';
import { newId } from '../records/index.ts';
import type { Tables } from '../store/index.ts';
import { addPerson } from './add-person.ts';
import { can } from './can.ts';
import { enterInvitation } from './enter-invitation.ts';
import {
  type InvitationInput,
  InvitationSchema,
  type PersonInput,
  PersonSchema,
} from './fields.ts';
import { hashNewPassword } from './passwords/hash-new-password.ts';
import { grant, type Outcome, refuseAs, refuseForm } from './problems.ts';
import { getSite, type Site } from './site.ts';
import { hashToken, makeToken } from './tokens.ts';
import type { Role, Viewer } from './viewer.ts';

/** How long an invitation can be used, days. */
export const INVITATION_DAYS = 7;

export type NewInvitation = {
  readonly id: string;
  /** Path of the link. The token in it is shown this once; only its hash is kept. */
  readonly path: string;
  /** ISO instant. */
  readonly expires: string;
};

/** What the invited person sees before they join. */
export type OpenInvitation = {
  readonly organisation: string;
  readonly role: Role;
  readonly name: string;
  readonly expires: string;
};

/** One row of the trainer's list: never the token. */
export type InvitationState = {
  readonly id: string;
  readonly role: Role;
  readonly name: string;
  readonly madeAt: string;
  readonly expires: string;
  readonly state: 'open' | 'used' | 'expired';
};

type InvitationRow = Selectable<Tables['invitation']>;

function stateOf(row: InvitationRow, now: string): InvitationState['state'] {
  if (row.usedAt !== null) return 'used';
  return row.expiresAt <= now ? 'expired' : 'open';
}

async function findOpen(
  db: Kysely<Tables>,
  token: string,
  now: string,
): Promise<Outcome<InvitationRow>> {
  const row = await db
    .selectFrom('invitation')
    .selectAll()
    .where('tokenHash', '=', hashToken(token))
    .executeTakeFirst();
  if (row === undefined) return refuseAs(404, '', { key: 'invitation.unknown' });
  const state = stateOf(row, now);
  if (state === 'open') return grant(row);
  return refuseAs(
    410,
    '',
    state === 'used'
      ? { key: 'invitation.used' }
      : { key: 'invitation.expired', put: { days: INVITATION_DAYS } },
  );
}

/** Makes a link for one person to join the viewer's organisation in one role. */
export async function invite(
  viewer: Viewer | null,
  input: InvitationInput,
  site?: Site,
  now: Date = new Date(),
): Promise<Outcome<NewInvitation>> {
  if (viewer === null || !can(viewer, 'invitation.make', { org: viewer.org })) {
    return refuseAs(403, '', { key: 'invitation.trainer' });
  }
  const read = InvitationSchema.safeParse(input);
  if (!read.success) {
    return refuseForm(read.error, 'The invitation');
  }
  const { role, name } = read.data;
  const { store } = site ?? (await getSite());
  const id = newId();
  const token = makeToken();
  const madeAt = now.toISOString();
  const expires = new Date(now.getTime() + INVITATION_DAYS * 24 * 60 * 60 * 1000).toISOString();
  await store.write((write) =>
    enterInvitation(write, viewer, { id, token, name, role, group: null }, { madeAt, expires }),
  );
  return grant({ id, path: `/invitation/${token}`, expires });
}

async function workshopName(db: Kysely<Tables>, org: string): Promise<string> {
  const { name } = await db
    .selectFrom('organisation')
    .select('name')
    .where('id', '=', org)
    .executeTakeFirstOrThrow();
  return name;
}

/** What the link offers, or one sentence why it no longer works. Looking does not use it up. */
export async function readInvitation(
  token: string,
  site?: Site,
  now: Date = new Date(),
): Promise<Outcome<OpenInvitation>> {
  const { store } = site ?? (await getSite());
  const found = await findOpen(store.db, token, now.toISOString());
  if (!found.ok) {
    logSecurity('link-refused');
    return found;
  }
  const { org, role, name, expiresAt } = found.value;
  const organisation = await workshopName(store.db, org);
  return grant({ organisation, role, name, expires: expiresAt });
}

/** Joins the organisation with a name, e-mail and password of one's own. The link is used up by it. */
export async function acceptInvitation(
  token: string,
  input: PersonInput,
  site?: Site,
  now: Date = new Date(),
): Promise<Outcome<{ readonly person: string; readonly email: string }>> {
  const open = site ?? (await getSite());
  const { store } = open;
  const at = now.toISOString();
  const offered = await findOpen(store.db, token, at);
  if (!offered.ok) return offered;
  const read = PersonSchema.safeParse(input);
  if (!read.success) {
    return refuseForm(read.error, 'The form');
  }
  const { name, email, password } = read.data;
  const workshop = await workshopName(store.db, offered.value.org);
  const hashed = await hashNewPassword(open, password, [workshop, name, email]);
  if (!hashed.ok) return hashed;
  const passwordHash = hashed.value;

  return store.write(async (write) => {
    // Looked up again: two people may have the same link open.
    const found = await findOpen(write.db, token, at);
    if (!found.ok) return found;
    const { id, org, role, group } = found.value;
    const taken = await write.db
      .selectFrom('user')
      .select('id')
      .where('email', '=', email)
      .executeTakeFirst();
    if (taken !== undefined) {
      return refuseAs(409, 'email', { key: 'email-taken' });
    }
    const person = await addPerson(write, { org, role, name, email, passwordHash }, at);
    if (group !== null) {
      await write.db.insertInto('person_group_member').values({ group, person }).execute();
    }
    await write.db
      .updateTable('invitation')
      .set({ usedAt: at, usedBy: person })
      .where('id', '=', id)
      .execute();
    await write.append({
      id: newId(),
      kind: 'invitation.used',
      version: 1,
      org,
      at,
      by: person,
      about: person,
      body: { invitation: id },
    });
    return grant({ person, email });
  });
}

/** The invitations of an organisation, newest first. */
export async function invitationsOf(
  org: string,
  site?: Site,
  now: Date = new Date(),
): Promise<InvitationState[]> {
  const { store } = site ?? (await getSite());
  const rows = await store.db
    .selectFrom('invitation')
    .selectAll()
    .where('org', '=', org)
    .orderBy('madeAt', 'desc')
    .execute();
  return rows.map((row) => ({
    id: row.id,
    role: row.role,
    name: row.name,
    madeAt: row.madeAt,
    expires: row.expiresAt,
    state: stateOf(row, now.toISOString()),
  }));
}
