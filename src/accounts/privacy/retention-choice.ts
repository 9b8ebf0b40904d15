import type { Kysely } from 'kysely';
import { z } from 'zod';
import type { Tables } from '../../store/index.ts';
import { can } from '../can.ts';
import { grant, type Outcome, refuseAs } from '../problems.ts';
import type { Site } from '../site.ts';
import type { Viewer } from '../viewer.ts';
import { CHOSEN_PERIODS, type ChosenPeriod, rangeOf, usualMonths } from './periods.ts';

/** Months this organisation keeps photos, or accounts without a record: its own choice, or the usual. */
export async function monthsFor(
  db: Kysely<Tables>,
  org: string,
  kind: ChosenPeriod,
): Promise<number> {
  const row = await db
    .selectFrom('retention_choice')
    .select('months')
    .where('org', '=', org)
    .where('kind', '=', kind)
    .executeTakeFirst();
  return row?.months ?? usualMonths(kind);
}

/** A period as it stands for an organisation, and who chose it; nobody did while the usual one stands. */
export type PeriodNow = {
  readonly kind: ChosenPeriod;
  readonly months: number;
  readonly chosen: { readonly by: string; readonly at: string } | null;
};

/** The periods of an organisation in the order they are shown. */
export async function periodsNow(org: string, { store }: Site): Promise<readonly PeriodNow[]> {
  const rows = await store.db
    .selectFrom('retention_choice')
    .select(['kind', 'months', 'setBy', 'setAt'])
    .where('org', '=', org)
    .execute();
  return CHOSEN_PERIODS.map((kind) => {
    const row = rows.find((one) => one.kind === kind);
    return row === undefined
      ? { kind, months: usualMonths(kind), chosen: null }
      : { kind, months: row.months, chosen: { by: row.setBy, at: row.setAt } };
  });
}

const months = (kind: ChosenPeriod) => {
  const { least, most } = rangeOf(kind);
  return z
    .string({ error: kind })
    .trim()
    .regex(/^\d{1,3}$/, { error: kind })
    .transform(Number)
    .refine((value) => value >= least && value <= most, { error: kind });
};
const ChoiceSchema = z.object({ photo: months('photo'), account: months('account') });

/** Sets the organisation's own periods. The same again changes nothing, not even who chose it and when. */
export async function choosePeriods(
  viewer: Viewer | null,
  input: unknown,
  site: Site,
  now: Date = new Date(),
): Promise<Outcome<null>> {
  if (viewer === null || !can(viewer, 'rules.set', { org: viewer.org })) {
    return refuseAs(403, '', { key: 'privacy.periods.who' });
  }
  const read = ChoiceSchema.safeParse(input);
  if (!read.success) {
    const kind = CHOSEN_PERIODS.find((one) => one === read.error.issues[0]?.message) ?? 'photo';
    return refuseAs(400, kind, { key: `privacy.periods.${kind}`, put: rangeOf(kind) });
  }
  const setAt = now.toISOString();
  const stand = await periodsNow(viewer.org, site);
  const changed = stand.filter(({ kind, months: before }) => read.data[kind] !== before);
  await site.store.write(async ({ db }) => {
    for (const { kind } of changed) {
      const row = { months: read.data[kind], setBy: viewer.person, setAt };
      await db
        .insertInto('retention_choice')
        .values({ org: viewer.org, kind, ...row })
        .onConflict((conflict) => conflict.columns(['org', 'kind']).doUpdateSet(row))
        .execute();
    }
  });
  return grant(null);
}
