import type { Site } from '../site.ts';
import { hashToken } from '../tokens.ts';
import type { Viewer } from '../viewer.ts';
import { readCookie } from './cookies.ts';
import { FRESH_S, IDLE_S } from './limits.ts';
import type { Level } from './open-session.ts';

/** The session a request belongs to, with its person. Instants are ISO in UTC. */
export type OwnSession = {
  readonly id: string;
  readonly level: Level;
  /** whether the person has just proved who they are */
  readonly fresh: boolean;
  readonly expiresAt: string;
  readonly viewer: Viewer;
};

/** How stale the time of the last request may be, ms: a page of many requests writes once. */
const SEEN_STEP_MS = 60_000;

/**
 * The session of these headers, or null: unknown, over after twelve hours, over after too long without a request,
 * or opened in another role than the person has now. Notes that it is in use; never sets a cookie.
 */
export async function findSession(
  site: Site,
  headers: Headers,
  now: Date,
): Promise<OwnSession | null> {
  // Nobody without a cookie is looked up, so a stranger's visit never touches the session table.
  const token = readCookie(site, headers, 'session_token');
  if (token === null) return null;
  const { db } = site.store;
  const row = await db
    .selectFrom('session')
    .innerJoin('user', 'user.id', 'session.userId')
    .innerJoin('membership', 'membership.person', 'session.userId')
    .select(['session.id', 'session.level', 'session.freshAt', 'session.seenAt'])
    .select(['session.role as openedAs', 'session.expiresAt', 'session.createdAt'])
    .select(['user.name', 'user.email', 'membership.person', 'membership.org', 'membership.role'])
    .where('session.token', '=', hashToken(token))
    .where('session.expiresAt', '>', now.toISOString())
    .executeTakeFirst();
  if (row === undefined || row.openedAs !== row.role) return null;
  const { id, level, expiresAt, createdAt, person, org, name, email, role } = row;
  const quiet = now.getTime() - Date.parse(row.seenAt);
  if (quiet > IDLE_S[role] * 1000) return null;
  if (quiet > SEEN_STEP_MS) {
    await db
      .updateTable('session')
      .set({ seenAt: now.toISOString() })
      .where('id', '=', id)
      .execute();
  }
  const fresh = now.getTime() - Date.parse(row.freshAt) < FRESH_S * 1000;
  return {
    id,
    level,
    fresh,
    expiresAt,
    viewer: { person, org, name, email, role, signedInAt: createdAt },
  };
}
