import { newId } from '../../records/index.ts';
import type { Site } from '../site.ts';
import { hashToken, makeToken } from '../tokens.ts';
import type { Role } from '../viewer.ts';
import { writeCookie } from './cookies.ts';
import { deviceKind } from './device-kind.ts';
import { SESSION_LENGTH_S } from './limits.ts';

/** `enrol`: the workshop asks for a second step and this person has none yet, so only that can be set up. */
export type Level = 'full' | 'enrol';

/** Opens a session with a token of 256 bits, of which the hash alone is kept. Returns the cookies to set. */
export async function openSession(
  site: Site,
  who: { readonly person: string; readonly role: Role; readonly level: Level },
  headers: Headers,
  now: Date,
): Promise<string[]> {
  const token = makeToken();
  const at = now.toISOString();
  await site.store.db
    .insertInto('session')
    .values({
      id: newId(),
      token: hashToken(token),
      userId: who.person,
      role: who.role,
      level: who.level,
      device: deviceKind(headers),
      createdAt: at,
      updatedAt: at,
      seenAt: at,
      freshAt: at,
      expiresAt: new Date(now.getTime() + SESSION_LENGTH_S * 1000).toISOString(),
      ipAddress: '',
      userAgent: '',
    })
    .execute();
  return [writeCookie(site, 'session_token', token, SESSION_LENGTH_S)];
}

/**
 * Gives a session a new token after the person has proved again who they are, or has changed how they sign in: the
 * old token is worth nothing from here on. It does not last longer by it.
 */
export async function rotateSession(
  site: Site,
  session: { readonly id: string; readonly expiresAt: string },
  level: Level,
  now: Date,
): Promise<string[]> {
  const token = makeToken();
  const changed = await site.store.db
    .updateTable('session')
    .set({ token: hashToken(token), level, freshAt: now.toISOString(), seenAt: now.toISOString() })
    .where('id', '=', session.id)
    .executeTakeFirst();
  if (changed.numUpdatedRows === 0n) return [];
  const left = Math.max(0, Math.floor((Date.parse(session.expiresAt) - now.getTime()) / 1000));
  return [writeCookie(site, 'session_token', token, left)];
}
