import type { Site } from './site.ts';

/**
 * Signs a person out everywhere, such as when a device of theirs is lost.
 * @param keep headers of the request whose own session goes on, when it is this person's; null ends them all
 * @returns how many sessions were ended
 */
export async function endSessions(
  person: string,
  keep: Headers | null,
  { auth, store }: Site,
): Promise<number> {
  const current = keep?.has('cookie') ? await auth.api.getSession({ headers: keep }) : null;
  const ended = await store.db
    .deleteFrom('session')
    .where('userId', '=', person)
    .where('token', '!=', current?.session.token ?? '')
    .executeTakeFirst();
  return Number(ended.numDeletedRows);
}
