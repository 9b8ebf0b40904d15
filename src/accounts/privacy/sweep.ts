import type { Kysely } from 'kysely';
import { addMonths, dayOf } from '../../competence/index.ts';
import { asSite, type Tables } from '../../store/index.ts';
import { forgetExpired } from '../forget-expired.ts';
import { daysOf } from './periods.ts';
import { monthsFor } from './retention-choice.ts';

/** How many rows are past their period, by what they are. */
export type Swept = {
  readonly session: number;
  readonly ticket: number;
  readonly invitation: number;
  readonly calendar: number;
  readonly openSitting: number;
  readonly photo: number;
};

const DAY_MS = 86_400_000;
type Past = { readonly table: keyof Tables; readonly column: string; readonly before: string };

/** What is past its period without regard to an organisation. */
function pastOf(now: Date): Readonly<Record<Exclude<keyof Swept, 'photo'>, readonly Past[]>> {
  const before = (days: number) => new Date(now.getTime() - days * DAY_MS).toISOString();
  return {
    session: [{ table: 'session', column: 'expiresAt', before: now.toISOString() }],
    ticket: [
      { table: 'sign_in_ticket', column: 'expiresAt', before: before(daysOf('sign-in')) },
      { table: 'sign_in_try', column: 'lastAt', before: before(daysOf('sign-in')) },
    ],
    invitation: [
      { table: 'invitation', column: 'usedAt', before: before(daysOf('invitation')) },
      { table: 'invitation', column: 'expiresAt', before: before(daysOf('invitation')) },
    ],
    calendar: [{ table: 'calendar_address', column: 'madeAt', before: before(daysOf('calendar')) }],
    openSitting: [
      { table: 'open_sitting', column: 'contactAt', before: before(daysOf('open-sitting')) },
    ],
  };
}

/** Counts, and in `erase` removes, the rows of one table that any of these columns puts past its period. */
async function sweepTable(
  db: Kysely<Tables>,
  past: readonly Past[],
  mode: 'count' | 'erase',
): Promise<number> {
  let rows = 0;
  for (const [table, all] of Map.groupBy(past, (one) => one.table)) {
    const found = await db
      .selectFrom(table as 'user')
      .select((of) => of.fn.countAll<number>().as('rows'))
      .where((or) => or.or(all.map((one) => or(one.column as 'id', '<', one.before))))
      .executeTakeFirstOrThrow();
    rows += Number(found.rows);
    if (mode === 'count') continue;
    await db
      .deleteFrom(table as 'user')
      .where((or) => or.or(all.map((one) => or(one.column as 'id', '<', one.before))))
      .execute();
  }
  return rows;
}

async function sweepPhotos(
  db: Kysely<Tables>,
  now: Date,
  mode: 'count' | 'erase',
): Promise<number> {
  let rows = 0;
  for (const { id } of await db.selectFrom('organisation').select('id').execute()) {
    const months = await monthsFor(db, id, 'photo');
    const before = addMonths(dayOf(now.toISOString()), -months);
    const old = await db
      .selectFrom('photo')
      .select((of) => of.fn.countAll<number>().as('rows'))
      .where('org', '=', id)
      .where('received', '<', before)
      .executeTakeFirstOrThrow();
    rows += Number(old.rows);
    if (mode === 'count') continue;
    await db.deleteFrom('photo').where('org', '=', id).where('received', '<', before).execute();
  }
  return rows;
}

/**
 * What is past its period: counted, or erased as well. Erasing goes by conditions alone, so doing it twice, or
 * in several processes at once, erases the same.
 */
export async function sweepExpired(
  db: Kysely<Tables>,
  now: Date,
  mode: 'count' | 'erase',
): Promise<Swept> {
  return asSite(() => sweepAll(db, now, mode));
}

async function sweepAll(db: Kysely<Tables>, now: Date, mode: 'count' | 'erase'): Promise<Swept> {
  const past = pastOf(now);
  const swept = {
    session: await sweepTable(db, past.session, mode),
    ticket: await sweepTable(db, past.ticket, mode),
    invitation: await sweepTable(db, past.invitation, mode),
    calendar: await sweepTable(db, past.calendar, mode),
    openSitting: await sweepTable(db, past.openSitting, mode),
    photo: await sweepPhotos(db, now, mode),
  };
  if (mode === 'erase') await forgetExpired(db, now);
  return swept;
}

/**
 * Erases what is past its period now and once a day from here on.
 * @returns what ends it
 */
export function sweepDaily(db: Kysely<Tables>): () => void {
  const sweep = () =>
    void sweepExpired(db, new Date(), 'erase').catch((error: unknown) => {
      console.error('What is past its period could not be erased:', error);
    });
  sweep();
  const timer = setInterval(sweep, DAY_MS);
  timer.unref();
  return () => clearInterval(timer);
}
