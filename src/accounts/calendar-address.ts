import { z } from 'zod';
import { logSecurity } from '../logging/index.ts';
import { isLanguage, type Language } from '../words/index.ts';
import { can } from './can.ts';
import { grant, type Outcome, refuseAs } from './problems.ts';
import { getSite, type Site } from './site.ts';
import { hashToken, makeToken } from './tokens.ts';
import { ROLES, type Role, type Viewer } from './viewer.ts';

export type CalendarNames = 'full' | 'opaque';
const NamesSchema = z.enum(['full', 'opaque']);

/** The calendar address of one person, as they may see it again: never the secret itself. */
export type KeptCalendar = { readonly madeAt: string; readonly names: CalendarNames };

/** Whose calendar an address opens, and what it may tell. */
export type OpenCalendar = {
  readonly org: string;
  readonly person: string;
  readonly role: Role;
  readonly language: Language;
  readonly names: CalendarNames;
};

const mayNot = (viewer: Viewer | null): viewer is null =>
  viewer === null || !can(viewer, 'feed.make', { org: viewer.org, person: viewer.person });

/**
 * Makes the secret address of the viewer's own calendar, 256 bits of chance of which only the hash is kept. An
 * address made before stops working. Returns its path, told this once.
 */
export async function makeCalendarAddress(
  viewer: Viewer | null,
  choice: { readonly names: string; readonly language: Language },
  site?: Site,
  now: Date = new Date(),
): Promise<Outcome<string>> {
  if (mayNot(viewer)) return refuseAs(403, '', { key: 'feed.own' });
  const names = NamesSchema.safeParse(choice.names);
  if (!names.success) return refuseAs(400, 'names', { key: 'feed.names' });
  const { store } = site ?? (await getSite());
  const token = makeToken();
  await store.write(async ({ db }) => {
    await db.deleteFrom('calendar_address').where('person', '=', viewer.person).execute();
    await db
      .insertInto('calendar_address')
      .values({
        tokenHash: hashToken(token),
        org: viewer.org,
        person: viewer.person,
        madeAt: now.toISOString(),
        language: choice.language,
        names: names.data,
      })
      .execute();
  });
  return grant(`/calendar/${token}.ics`);
}

/** Takes the viewer's calendar address away; none is no mistake. */
export async function removeCalendarAddress(
  viewer: Viewer | null,
  site?: Site,
): Promise<Outcome<null>> {
  if (mayNot(viewer)) return refuseAs(403, '', { key: 'feed.own' });
  const { store } = site ?? (await getSite());
  await store.db.deleteFrom('calendar_address').where('person', '=', viewer.person).execute();
  return grant(null);
}

/** The viewer's address, or null where they have none. */
export async function calendarOfViewer(viewer: Viewer, site?: Site): Promise<KeptCalendar | null> {
  const { store } = site ?? (await getSite());
  const row = await store.db
    .selectFrom('calendar_address')
    .select(['madeAt', 'names'])
    .where('person', '=', viewer.person)
    .executeTakeFirst();
  return row ?? null;
}

/** Whose calendar this token opens; null for one that is not known, or of somebody who has left. */
export async function openCalendar(token: string, site?: Site): Promise<OpenCalendar | null> {
  const { store } = site ?? (await getSite());
  const row = await store.db
    .selectFrom('calendar_address')
    .innerJoin('membership', 'membership.person', 'calendar_address.person')
    .select(['membership.org', 'membership.person', 'membership.role', 'language', 'names'])
    .where('tokenHash', '=', hashToken(token))
    .executeTakeFirst();
  if (row === undefined || !ROLES.includes(row.role)) {
    logSecurity('link-refused');
    return null;
  }
  return { ...row, language: isLanguage(row.language) ? row.language : 'en' };
}
