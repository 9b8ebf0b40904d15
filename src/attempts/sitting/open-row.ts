import { type Outcome, refuse, type Site, type Viewer } from '../../accounts/index.ts';
import { type Work, WorkSchema } from '../../assessment/index.ts';
import type { StoreWrite, Tables } from '../../store/index.ts';
import { runClock } from './time.ts';

export type OpenRow = Tables['open_sitting'];
type Db = Pick<StoreWrite['db'], 'selectFrom'>;

/** The one form this person is sitting, or null. */
export async function openRowOf(db: Db, viewer: Viewer): Promise<OpenRow | null> {
  const row = await db
    .selectFrom('open_sitting')
    .selectAll()
    .where('person', '=', viewer.person)
    .where('org', '=', viewer.org)
    .executeTakeFirst();
  return row ?? null;
}

/** The blueprint of the form this viewer is sitting and since when, or null. */
export async function openSittingOf(
  site: Site,
  viewer: Viewer,
): Promise<{ readonly blueprint: string; readonly startedAt: string } | null> {
  const row = await openRowOf(site.store.db, viewer);
  return row && { blueprint: row.blueprint, startedAt: row.startedAt };
}

export const workIn = ({ work }: Pick<OpenRow, 'work'>): Work => WorkSchema.parse(JSON.parse(work));

/** The answer to a tab that no longer holds the attempt. */
export const TAKEN =
  'This test is open in another tab or on another device, and goes on there. Take it over to go on here.';

/** The attempt as it stands, its clock run to now, once it is clear that this tab holds it. */
export async function heldRow(
  db: Db,
  viewer: Viewer,
  { attempt, hold }: { readonly attempt: string; readonly hold: string },
  now: Date,
): Promise<Outcome<OpenRow>> {
  const row = await openRowOf(db, viewer);
  if (row === null || row.attempt !== attempt) {
    return refuse(410, 'attempt', 'This attempt is not open any more.');
  }
  if (row.hold !== hold) return refuse(409, 'hold', TAKEN);
  return { ok: true, value: runClock(row, now) };
}

export const signInFirst = () =>
  refuse(
    401,
    'attempt',
    'Nobody is signed in here any more; sign in again in another tab, and go on here. Your work is still on this device.',
  );
