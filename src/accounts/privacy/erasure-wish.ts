import { addMonths, dayOf } from '../../competence/index.ts';
import { can } from '../can.ts';
import { peopleOf } from '../people.ts';
import { grant, type Outcome, refuseAs } from '../problems.ts';
import type { Site } from '../site.ts';
import type { Role, Viewer } from '../viewer.ts';
import { monthsFor } from './retention-choice.ts';

/** Somebody to be erased: they asked, or the period is over. */
export type ErasureDue = {
  readonly person: string;
  readonly name: string;
  readonly role: Role;
  /** ISO instant; null when they did not ask */
  readonly askedAt: string | null;
  /** day the period was over; null when it is not */
  readonly overSince: string | null;
};

/** When the viewer asked to be erased, an ISO instant; null when they did not. */
export async function wishOf({ person }: Viewer, { store }: Site): Promise<string | null> {
  const row = await store.db
    .selectFrom('erasure_wish')
    .select('askedAt')
    .where('person', '=', person)
    .executeTakeFirst();
  return row?.askedAt ?? null;
}

/** Asks to be erased, or takes that back. Asking twice is asking once. */
export async function wishErasure(
  viewer: Viewer | null,
  what: 'ask' | 'take-back',
  site: Site,
  now: Date = new Date(),
): Promise<Outcome<null>> {
  if (viewer === null || !can(viewer, 'my-data.read', viewer)) {
    return refuseAs(403, '', { key: 'privacy.own' });
  }
  const { org, person } = viewer;
  const { db } = site.store;
  if (what === 'take-back') {
    await db.deleteFrom('erasure_wish').where('person', '=', person).execute();
  } else {
    await db
      .insertInto('erasure_wish')
      .values({ person, org, askedAt: now.toISOString() })
      .onConflict((conflict) => conflict.column('person').doNothing())
      .execute();
  }
  return grant(null);
}

/** Everybody of the organisation who asked, or whose period is over, the longest waiting first. */
export async function erasuresDue(
  org: string,
  site: Site,
  now: Date = new Date(),
): Promise<ErasureDue[]> {
  const { db } = site.store;
  const wishes = new Map(
    (
      await db
        .selectFrom('erasure_wish')
        .select(['person', 'askedAt'])
        .where('org', '=', org)
        .execute()
    ).map(({ person, askedAt }) => [person, askedAt]),
  );
  const months = await monthsFor(db, org, 'account');
  const today = dayOf(now.toISOString());
  const due: ErasureDue[] = [];
  for (const { person, name, role, joinedAt } of await peopleOf(org, site)) {
    const askedAt = wishes.get(person) ?? null;
    // nobody who joined within the period can be without a record for so long
    const isOld = addMonths(dayOf(joinedAt), months) <= today;
    const over = isOld
      ? addMonths(dayOf(await lastRecord(org, person, joinedAt, site)), months)
      : null;
    const overSince = over !== null && over <= today ? over : null;
    if (askedAt !== null || overSince !== null)
      due.push({ person, name, role, askedAt, overSince });
  }
  return due.sort((a, b) =>
    (a.askedAt ?? a.overSince ?? '').localeCompare(b.askedAt ?? b.overSince ?? ''),
  );
}

async function lastRecord(
  org: string,
  person: string,
  joinedAt: string,
  { store }: Site,
): Promise<string> {
  const row = await store.db
    .selectFrom('event')
    .select('json')
    .where('org', '=', org)
    .where((or) => or.or([or('about', '=', person), or('by', '=', person)]))
    .orderBy('seq', 'desc')
    .limit(1)
    .executeTakeFirst();
  const [, received] = /"received":"([^"]{24})"/.exec(row?.json ?? '') ?? [];
  return received ?? joinedAt;
}
