import type { Kysely } from 'kysely';
import type { Tables } from '../store/index.ts';
import { hashToken } from './tokens.ts';

/**
 * Failures in a row that cost nothing, by what they are counted against. An address is shared by a whole
 * workshop, so it is given more room than one person's e-mail.
 */
const FREE_FAILURES = { email: 4, address: 40 } as const;
/** The first delay, seconds; each further failure doubles it. */
const FIRST_DELAY_S = 5;
const LONGEST_DELAY_S = 15 * 60;
/** After so long without a failure the count starts again, seconds: a day, or an hour for a whole workshop. */
const FORGET_AFTER_S = { email: 24 * 60 * 60, address: 60 * 60 } as const;

/**
 * Never the time of the try: of two at one moment the one whose clock was read first may come to the table second,
 * and would be told to wait for the other.
 */
const NOT_BLOCKED = '';

type CountedBy = keyof typeof FREE_FAILURES;
export type TryKeys = { readonly email: string; readonly address: string | null };

/** Seconds to wait after this many failures in a row: 0, then 5, 10, 20 ... up to 900. */
export function delayAfter(failures: number, countedBy: CountedBy): number {
  const beyond = failures - FREE_FAILURES[countedBy];
  if (beyond <= 0) return 0;
  return Math.min(LONGEST_DELAY_S, FIRST_DELAY_S * 2 ** (beyond - 1));
}

function countedKeys(keys: TryKeys): { key: string; countedBy: CountedBy }[] {
  const email = { key: hashToken(`email:${keys.email}`), countedBy: 'email' as const };
  if (keys.address === null) return [email];
  return [email, { key: hashToken(`address:${keys.address}`), countedBy: 'address' as const }];
}

/**
 * Takes one try, counted as failed until `forgetTries` says otherwise, so that many tries at the same
 * moment cannot all slip through. Returns the seconds still to wait, 0 when the try may go ahead.
 */
export async function takeTry(db: Kysely<Tables>, keys: TryKeys, now: Date): Promise<number> {
  return db.transaction().execute(async (trx) => {
    const rows = [];
    for (const { key, countedBy } of countedKeys(keys)) {
      const row = await trx
        .selectFrom('sign_in_try')
        .selectAll()
        .where('key', '=', key)
        .executeTakeFirst();
      if (row !== undefined && row.blockedUntil > now.toISOString()) {
        return Math.ceil((Date.parse(row.blockedUntil) - now.getTime()) / 1000);
      }
      const forgotten =
        row === undefined ||
        now.getTime() - Date.parse(row.lastAt) > FORGET_AFTER_S[countedBy] * 1000;
      rows.push({ key, countedBy, failures: (forgotten ? 0 : row.failures) + 1 });
    }
    for (const { key, countedBy, failures } of rows) {
      const delay = delayAfter(failures, countedBy) * 1000;
      const values = {
        failures,
        lastAt: now.toISOString(),
        blockedUntil: delay === 0 ? NOT_BLOCKED : new Date(now.getTime() + delay).toISOString(),
      };
      await trx
        .insertInto('sign_in_try')
        .values({ key, ...values })
        .onConflict((conflict) => conflict.column('key').doUpdateSet(values))
        .execute();
    }
    return 0;
  });
}

/** A right password ends the row of failures for that e-mail and takes back the address's last count. */
export async function forgetTries(db: Kysely<Tables>, keys: TryKeys): Promise<void> {
  await db.transaction().execute(async (trx) => {
    for (const { key, countedBy } of countedKeys(keys)) {
      if (countedBy === 'email') {
        await trx.deleteFrom('sign_in_try').where('key', '=', key).execute();
      } else {
        await trx
          .updateTable('sign_in_try')
          .set((update) => ({
            failures: update('failures', '-', 1),
            blockedUntil: NOT_BLOCKED,
          }))
          .where('key', '=', key)
          .execute();
      }
    }
  });
}
