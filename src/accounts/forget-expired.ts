import type { Kysely } from 'kysely';
import type { Tables } from '../store/index.ts';

const DAY_MS = 24 * 60 * 60 * 1000;

/** Drops what no longer counts: ended sessions, half sign-ins, tickets and failed tries more than a day old. */
export async function forgetExpired(db: Kysely<Tables>, now: Date): Promise<void> {
  const ended = now.toISOString();
  const dayAgo = new Date(now.getTime() - DAY_MS).toISOString();
  await db.transaction().execute(async (trx) => {
    await trx.deleteFrom('session').where('expiresAt', '<', ended).execute();
    await trx.deleteFrom('sign_in_ticket').where('expiresAt', '<', dayAgo).execute();
    await trx.deleteFrom('sign_in_step').where('expiresAt', '<', ended).execute();
    await trx.deleteFrom('passkey_challenge').where('expiresAt', '<', ended).execute();
    await trx.deleteFrom('sign_in_try').where('lastAt', '<', dayAgo).execute();
  });
}
