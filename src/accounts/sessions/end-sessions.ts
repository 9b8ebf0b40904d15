import { logSecurity } from '../../logging/index.ts';
import type { Site } from '../site.ts';
import { hashToken } from '../tokens.ts';
import { cookiesToEnd, readCookie } from './cookies.ts';

/** Ends the session of these headers on the server. Returns the cookies that clear it. */
export async function endSession(site: Site, headers: Headers): Promise<string[]> {
  const cleared: string[] = [];
  const { db } = site.store;
  for (const { token, clear } of cookiesToEnd(site, headers, 'session_token')) {
    await db.deleteFrom('session').where('token', '=', hashToken(token)).execute();
    cleared.push(clear);
  }
  for (const { token, clear } of cookiesToEnd(site, headers, 'step_token')) {
    await db.deleteFrom('sign_in_step').where('tokenHash', '=', hashToken(token)).execute();
    cleared.push(clear);
  }
  return cleared;
}

/**
 * Signs a person out everywhere, such as when a device of theirs is lost.
 * @param keep headers of the request whose own session goes on, when it is this person's; null ends them all
 * @returns how many sessions were ended
 */
export async function endSessions(
  person: string,
  keep: Headers | null,
  site: Site,
): Promise<number> {
  const token = keep === null ? null : readCookie(site, keep, 'session_token');
  const ended = await site.store.db
    .deleteFrom('session')
    .where('userId', '=', person)
    .where('token', '!=', token === null ? '' : hashToken(token))
    .executeTakeFirst();
  if (ended.numDeletedRows > 0n) logSecurity('sessions-ended');
  return Number(ended.numDeletedRows);
}

/** Ends one session of this person, by the id in their list. Whether it was there. */
export async function endOneSession(person: string, id: string, site: Site): Promise<boolean> {
  const ended = await site.store.db
    .deleteFrom('session')
    .where('userId', '=', person)
    .where('id', '=', id)
    .executeTakeFirst();
  if (ended.numDeletedRows === 1n) logSecurity('sessions-ended');
  return ended.numDeletedRows === 1n;
}
