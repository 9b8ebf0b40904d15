import { newId } from '../records/index.ts';
import { asSite } from '../store/index.ts';
import { grant, type Outcome, refuse } from './problems.ts';
import { type NewResetLink, replaceLink } from './reset-links.ts';
import type { Site } from './site.ts';

/** Who made a link that no person made: it was printed on the machine of the site. */
export const PRINTED = 'printed';

/**
 * Makes a link for a new password without anybody signed in, for whoever stands at the machine of the site: for a
 * trainer or employer who has lost every way in, and whom nobody can help. Passkeys and codes go with it. The log has
 * an entry without a name, and the person is told after signing in.
 * @param email of the person
 */
export async function printResetLink(
  email: string,
  { store }: Pick<Site, 'store'>,
  now: Date = new Date(),
): Promise<Outcome<NewResetLink>> {
  return asSite(async () => {
    const found = await store.db
      .selectFrom('user')
      .innerJoin('membership', 'membership.person', 'user.id')
      .select(['membership.person', 'membership.org', 'membership.role'])
      .where('user.email', '=', email.trim().toLowerCase())
      .executeTakeFirst();
    if (found === undefined) return refuse(404, 'email', 'Nobody here has this e-mail address.');
    if (found.role === 'trainee') {
      return refuse(403, 'email', 'This is a trainee: their trainer makes the link on the site.');
    }
    const { person, org } = found;
    const id = newId();
    return store.write(async (write) => {
      const link = { id, org, person, clears: 'everything', madeBy: PRINTED } as const;
      const made = await replaceLink(write, link, now);
      await write.append({
        id: newId(),
        kind: 'reset-link.printed',
        version: 1,
        org,
        at: now.toISOString(),
        by: org,
        about: person,
        body: { link: id, clears: 'everything' },
      });
      return grant(made);
    });
  });
}
