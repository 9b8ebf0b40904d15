import { createHash } from 'node:crypto';
import { z } from 'zod';
import { dayOf } from '../../competence/index.ts';
import { idAt, newSalt } from '../../records/index.ts';
import { can } from '../can.ts';
import { grant, type Outcome, refuseAs } from '../problems.ts';
import type { Site } from '../site.ts';
import type { Viewer } from '../viewer.ts';
import { earlierOf, hashEarlier } from './earlier-of.ts';
import {
  type EarlierPlan,
  type PlannedEarlier,
  planEarlier,
  sameTraining,
} from './plan-earlier.ts';

const FORM = z.uuidv7();

/** The id of a row's event: the same for the same form and row, so that sending twice enters once. */
function idOfRow(form: string, row: number): string {
  const time = Number.parseInt(form.replaceAll('-', '').slice(0, 12), 16);
  const made = createHash('sha256').update(`${form}/${row}`).digest();
  return idAt(time, new Uint8Array(made.subarray(0, 10)));
}

const mayNot = (viewer: Viewer | null): viewer is null =>
  viewer === null || !can(viewer, 'earlier.import', { org: viewer.org });

async function knownIn(org: string, site: Site, form: string, rows: number) {
  const people = await site.store.db
    .selectFrom('membership')
    .innerJoin('user', 'user.id', 'membership.person')
    .select(['membership.person', 'user.name', 'user.email'])
    .where('membership.org', '=', org)
    .execute();
  const own = new Set(Array.from({ length: rows + 1 }, (_, row) => idOfRow(form, row)));
  const stated = (await earlierOf(org, site)).filter(({ id }) => !own.has(id));
  return {
    people,
    stated: new Set(
      stated.flatMap(({ words, ...one }) =>
        words === null ? [] : [sameTraining({ ...one, training: words.training })],
      ),
    ),
  };
}

/**
 * The dry run of a table of earlier training. What this very form has entered before does not count as stated,
 * so that sending it again says what it said.
 * @param form id of the form, UUIDv7
 */
export async function checkEarlier(
  viewer: Viewer | null,
  { form, text }: { readonly form: string; readonly text: string },
  site: Site,
  now: Date = new Date(),
): Promise<Outcome<EarlierPlan>> {
  if (mayNot(viewer)) return refuseAs(403, '', { key: 'earlier.trainer' });
  if (!FORM.safeParse(form).success) return refuseAs(400, '', { key: 'earlier.no-table' });
  const rows = text.split('\n').length;
  return grant(
    planEarlier(
      text,
      await knownIn(viewer.org, site, form, Math.min(rows, 3_000)),
      dayOf(now.toISOString()),
    ),
  );
}

/**
 * Enters every good row of a plan in one transaction, each once however often the form is sent.
 * @returns how many rows stand entered by this form
 */
export async function enterEarlier(
  viewer: Viewer | null,
  form: string,
  plan: EarlierPlan,
  site: Site,
  now: Date = new Date(),
): Promise<Outcome<number>> {
  if (mayNot(viewer)) return refuseAs(403, '', { key: 'earlier.trainer' });
  if (!FORM.safeParse(form).success || plan.good.length === 0) {
    return refuseAs(400, '', { key: 'earlier.no-table' });
  }
  const { org, person: by } = viewer;
  return site.store.write(async ({ db, append }) => {
    const held = await db
      .selectFrom('earlier_training')
      .select(['event', 'person', 'training', 'givenBy', 'paper'])
      .where('org', '=', org)
      .execute();
    const before = new Map(held.map((row) => [row.event, row]));
    const isSame = (id: string, one: PlannedEarlier) => {
      const kept = before.get(id);
      return kept?.person === one.person && kept.training === one.training;
    };
    const rows = plan.good.map((one) => ({ id: idOfRow(form, one.row), one }));
    if (rows.some(({ id, one }) => before.has(id) && !isSame(id, one))) {
      return refuseAs(409, '', { key: 'earlier.other-table' });
    }
    for (const { id, one } of rows) {
      if (before.has(id)) continue;
      const { person, training, givenBy, paper, machine, day, until } = one;
      const salt = newSalt();
      const words = { training, givenBy, paper };
      await append({
        id,
        kind: 'earlier.stated',
        version: 1,
        org,
        at: now.toISOString(),
        by,
        about: person,
        body: { machine, day, until, wordsHash: hashEarlier(words, salt) },
      });
      await db
        .insertInto('earlier_training')
        .values({ event: id, org, person, ...words, salt })
        .execute();
    }
    return grant(plan.good.length);
  });
}

const WithdrawSchema = z.object({
  id: z.uuidv7(),
  stated: z.uuidv7(),
  reason: z.enum(['wrong-person', 'wrong-details', 'paper-not-found', 'asked']),
});

/** Takes back one row that was stated by mistake, and erases its words. Taken back already is no mistake. */
export async function withdrawEarlier(
  viewer: Viewer | null,
  input: unknown,
  site: Site,
  now: Date = new Date(),
): Promise<Outcome<string>> {
  if (mayNot(viewer)) return refuseAs(403, '', { key: 'earlier.trainer' });
  const read = WithdrawSchema.safeParse(input);
  if (!read.success) return refuseAs(400, 'reason', { key: 'earlier.reason' });
  const { id, stated, reason } = read.data;
  const found = (await site.store.event(stated))?.event ?? null;
  if (found?.kind !== 'earlier.stated' || found.org !== viewer.org) {
    return refuseAs(404, '', { key: 'earlier.none' });
  }
  const { org, person: by } = viewer;
  const about = found.about ?? '';
  return site.store.write(async ({ db, append }) => {
    const gone = await db
      .deleteFrom('earlier_training')
      .where('event', '=', stated)
      .where('org', '=', org)
      .executeTakeFirst();
    // without words it was taken back before, or its person was erased
    if (gone.numDeletedRows === 0n) return grant(about);
    await append({
      id,
      kind: 'earlier.withdrawn',
      version: 1,
      org,
      at: now.toISOString(),
      by,
      about,
      body: { stated, reason },
    });
    return grant(about);
  });
}
