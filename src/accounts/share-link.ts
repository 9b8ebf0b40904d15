import { z } from 'zod';
import { logSecurity } from '../logging/index.ts';
import { newId } from '../records/index.ts';
import { can } from './can.ts';
import { grant, type Outcome, refuseAs } from './problems.ts';
import { getSite, type Site } from './site.ts';
import { hashToken, makeToken } from './tokens.ts';
import type { Viewer } from './viewer.ts';

/** Days a link may work, at most. */
export const LONGEST_SHARE = 90;

/** The log is told of one opening in so many ms: who opens a link again and again cannot fill the log. */
const LOGGED_EVERY = 10 * 60_000;

const DAY = 86_400_000;

/** What a link shows. The people are opaque ids, and none of them is everybody. */
export type SharedScope = { readonly people: readonly string[]; readonly bench: string | null };

/** A link as those see it who may make one: never its secret. */
export type ShareLink = SharedScope & {
  readonly id: string;
  readonly madeBy: string;
  readonly madeAt: string;
  readonly endsAt: string;
  readonly endedAt: string | null;
  readonly purpose: string;
  readonly openings: number;
  readonly openedAt: string | null;
};

/** What whoever holds the secret gets to see. */
export type OpenShare = SharedScope & {
  readonly id: string;
  readonly org: string;
  readonly madeAt: string;
  readonly endsAt: string;
  readonly purpose: string;
};

const InputSchema = z.object({
  /** made where the form is, so that sending it twice makes one link */
  id: z.uuidv7({ error: 'share.id' }),
  purpose: z
    .string({ error: 'share.purpose' })
    .trim()
    .min(1, { error: 'share.purpose' })
    .max(200, { error: 'share.purpose' }),
  until: z.iso.date({ error: 'share.until' }),
});

const mayNot = (viewer: Viewer | null): viewer is null =>
  viewer === null || !can(viewer, 'share.make', { org: viewer.org });

/** Days from one day to another. */
const daysBetween = (from: string, to: string): number =>
  Math.round((Date.parse(to) - Date.parse(from)) / DAY);

/**
 * Makes a link that shows some records to whoever holds it, until the end of a day in UTC. 256 bits of chance,
 * of which only the hash is kept: nobody guesses one of them, so guesses are not counted.
 * Returns its path, told this once.
 */
export async function makeShareLink(
  viewer: Viewer | null,
  input: { readonly id: string; readonly purpose: string; readonly until: string } & SharedScope,
  site?: Site,
  now: Date = new Date(),
): Promise<Outcome<string>> {
  if (mayNot(viewer)) return refuseAs(403, '', { key: 'share.refused' });
  const read = InputSchema.safeParse(input);
  if (!read.success) {
    const [issue] = read.error.issues;
    const path = String(issue?.path[0] ?? '');
    return refuseAs(400, path, { key: issue?.message ?? '', put: { most: LONGEST_SHARE } });
  }
  const { id, purpose, until } = read.data;
  const days = daysBetween(now.toISOString().slice(0, 10), until);
  if (days < 1 || days > LONGEST_SHARE) {
    return refuseAs(400, 'until', { key: 'share.until', put: { most: LONGEST_SHARE } });
  }
  const { store } = site ?? (await getSite());
  const token = makeToken();
  const at = now.toISOString();
  const endsAt = `${until}T23:59:59.999Z`;
  const { bench, people } = input;
  return store.write(async ({ append, db }) => {
    const twice = await db.selectFrom('share_link').select('id').where('id', '=', id).execute();
    // its secret was shown once and is not known any more
    if (twice.length > 0) return refuseAs(409, 'id', { key: 'share.twice' });
    await db
      .insertInto('share_link')
      .values({
        id,
        tokenHash: hashToken(token),
        org: viewer.org,
        madeBy: viewer.person,
        madeAt: at,
        endsAt,
        endedAt: null,
        people: JSON.stringify(people),
        bench,
        purpose,
        openings: 0,
        unlogged: 0,
        loggedAt: null,
        openedAt: null,
      })
      .execute();
    await append({
      id: newId(),
      kind: 'share.made',
      version: 1,
      org: viewer.org,
      at,
      by: viewer.person,
      about: null,
      body: { link: id, endsAt, people: [...people], bench },
    });
    return grant(`/shared/${token}`);
  });
}

/** Every link of the organisation, the newest first. */
export async function shareLinksOf(org: string, site?: Site): Promise<ShareLink[]> {
  const { store } = site ?? (await getSite());
  const rows = await store.db
    .selectFrom('share_link')
    .select(['id', 'madeBy', 'madeAt', 'endsAt', 'endedAt', 'people', 'bench', 'purpose'])
    .select(['openings', 'openedAt'])
    .where('org', '=', org)
    .orderBy('madeAt', 'desc')
    .orderBy('id', 'desc')
    .execute();
  return rows.map((row) => ({ ...row, people: JSON.parse(row.people) as string[] }));
}

/** Whether a link still opens something. */
export const isShareOpen = (
  { endedAt, endsAt }: Pick<ShareLink, 'endedAt' | 'endsAt'>,
  now: Date,
): boolean => endedAt === null && Date.parse(endsAt) > now.getTime();

/** Ends a link at once. One that has ended already is no mistake. */
export async function endShareLink(
  viewer: Viewer | null,
  id: string,
  site?: Site,
  now: Date = new Date(),
): Promise<Outcome<null>> {
  if (mayNot(viewer)) return refuseAs(403, '', { key: 'share.refused' });
  const { store } = site ?? (await getSite());
  const at = now.toISOString();
  return store.write(async ({ append, db }) => {
    const row = await db
      .selectFrom('share_link')
      .select(['endedAt', 'endsAt'])
      .where('id', '=', id)
      .where('org', '=', viewer.org)
      .executeTakeFirst();
    if (row === undefined) return refuseAs(404, 'id', { key: 'share.none' });
    if (!isShareOpen(row, now)) return grant(null);
    await db.updateTable('share_link').set({ endedAt: at }).where('id', '=', id).execute();
    await append({
      id: newId(),
      kind: 'share.ended',
      version: 1,
      org: viewer.org,
      at,
      by: viewer.person,
      about: null,
      body: { link: id },
    });
    return grant(null);
  });
}

/**
 * What this secret opens, and one more opening counted; null for one that is not known, has run out or was
 * ended. The log is told at most once in ten minutes, with how often it was opened since.
 */
export async function openShare(
  token: string,
  site?: Site,
  now: Date = new Date(),
): Promise<OpenShare | null> {
  const { store } = site ?? (await getSite());
  const tokenHash = hashToken(token);
  const find = (db: typeof store.db) =>
    db.selectFrom('share_link').selectAll().where('tokenHash', '=', tokenHash).executeTakeFirst();
  const known = await find(store.db);
  if (known === undefined || !isShareOpen(known, now)) {
    logSecurity('link-refused');
    return null;
  }
  const at = now.toISOString();
  return store.write(async ({ append, db }) => {
    const row = await find(db);
    if (row === undefined || !isShareOpen(row, now)) return null;
    const unlogged = row.unlogged + 1;
    const isDue = row.loggedAt === null || now.getTime() - Date.parse(row.loggedAt) >= LOGGED_EVERY;
    await db
      .updateTable('share_link')
      .set({
        openings: row.openings + 1,
        openedAt: at,
        unlogged: isDue ? 0 : unlogged,
        ...(isDue ? { loggedAt: at } : {}),
      })
      .where('id', '=', row.id)
      .execute();
    if (isDue) {
      await append({
        id: newId(),
        kind: 'share.opened',
        version: 1,
        org: row.org,
        at,
        by: row.id,
        about: null,
        body: { link: row.id, openings: unlogged },
      });
    }
    const { bench, endsAt, id, madeAt, org, purpose } = row;
    return { id, org, madeAt, endsAt, purpose, bench, people: JSON.parse(row.people) as string[] };
  });
}
