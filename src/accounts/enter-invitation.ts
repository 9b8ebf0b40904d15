import { newId } from '../records/index.ts';
import type { StoreWrite } from '../store/index.ts';
import { hashToken } from './tokens.ts';
import type { Role, Viewer } from './viewer.ts';

/** Writes an invitation down and enters it in the log, in a transaction that is open. Only its hash is kept. */
export async function enterInvitation(
  { db, append }: StoreWrite,
  viewer: Viewer,
  made: {
    id: string;
    token: string;
    name: string;
    role: Role;
    group: string | null;
  },
  { madeAt, expires }: { madeAt: string; expires: string },
): Promise<void> {
  const { id, token, name, role, group } = made;
  await db
    .insertInto('invitation')
    .values({
      id,
      tokenHash: hashToken(token),
      org: viewer.org,
      role,
      name,
      invitedBy: viewer.person,
      madeAt,
      expiresAt: expires,
      usedAt: null,
      usedBy: null,
      group,
    })
    .execute();
  await append({
    id: newId(),
    kind: 'invitation.made',
    version: 1,
    org: viewer.org,
    at: madeAt,
    by: viewer.person,
    about: null,
    body: { invitation: id, role },
  });
}
