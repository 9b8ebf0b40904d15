import type { Kysely } from 'kysely';
import { Secret, TOTP } from 'otpauth';
import type { Tables } from '../../store/index.ts';
import { openToken, sealToken } from '../sealed-token.ts';
import type { Site } from '../site.ts';

/** RFC 6238 with its defaults, which every app for codes knows: SHA-1, six digits, a new code every 30 s. */
const STEP_S = 30;
const DIGITS = 6;
/** Steps a clock may be off, each way. */
const DRIFT = 1;
/** RFC 4226 section 4, R6: at least 128 bits, 160 recommended. */
const SECRET_BYTES = 20;

/** What an app is told: by its camera (`uri`), or typed in. Shown while codes are being set up, never after. */
export type CodeMaker = { readonly uri: string; readonly secret: string };

// copied: a Buffer may lie in the middle of a larger piece of memory, and `slice` does not move it
const secretOf = (bytes: Uint8Array): Secret =>
  new Secret({ buffer: Uint8Array.from(bytes).buffer });

const maker = (secret: Secret, label: string, issuer: string, digits = DIGITS): TOTP =>
  new TOTP({ secret, label, issuer, algorithm: 'SHA1', digits, period: STEP_S });

/** The code of a moment: what an app shows. @param digits 6 to 8 */
export const codeAt = (secret: Uint8Array, at: Date, digits = DIGITS): string =>
  maker(secretOf(secret), '', '', digits).generate({
    timestamp: at.getTime(),
  });

/** The time step a code belongs to, or null when it is none of now, or of the step before or after. */
export function stepOfCode(
  secret: Uint8Array,
  code: string,
  now: Date,
  digits = DIGITS,
): number | null {
  const timestamp = now.getTime();
  const delta = maker(secretOf(secret), '', '', digits).validate({
    token: code,
    timestamp,
    window: DRIFT,
  });
  return delta === null ? null : Math.floor(timestamp / 1000 / STEP_S) + delta;
}

const sealingKey = ({ siteKey }: Pick<Site, 'siteKey'>): string =>
  siteKey.deriveSecret('one-time-codes');

function openSecret(site: Pick<Site, 'siteKey'>, person: string, sealed: string): Uint8Array {
  const opened = openToken(sealingKey(site), sealed);
  const isOurs =
    typeof opened === 'object' &&
    opened !== null &&
    'secret' in opened &&
    typeof opened.secret === 'string' &&
    'person' in opened &&
    opened.person === person;
  if (!isOurs) throw new Error('A secret for one-time codes does not fit the site key.');
  return Buffer.from((opened as { secret: string }).secret, 'base64');
}

/** Begins to set up codes, or begins again: a new secret that counts once a code of it was typed. */
export async function beginCodes(
  site: Site,
  who: { readonly person: string; readonly email: string; readonly organisation: string },
  now: Date,
): Promise<CodeMaker> {
  const secret = new Secret({ size: SECRET_BYTES });
  const sealedSecret = sealToken(sealingKey(site), {
    person: who.person,
    secret: Buffer.from(secret.bytes).toString('base64'),
  });
  const fresh = { sealedSecret, lastStep: 0, madeAt: now.toISOString(), confirmedAt: null };
  await site.store.db
    .insertInto('code_maker')
    .values({ person: who.person, ...fresh })
    // codes in use are taken away first, so that a change given up half-way leaves nobody without
    .onConflict((conflict) =>
      conflict.column('person').doUpdateSet(fresh).where('code_maker.confirmedAt', 'is', null),
    )
    .execute();
  return tellMaker(secret, who);
}

const tellMaker = (secret: Secret, who: { email: string; organisation: string }): CodeMaker => ({
  uri: maker(secret, who.email, who.organisation).toString(),
  secret: secret.base32.replace(/(.{4})(?=.)/g, '$1 '),
});

/** What is being set up and is not confirmed yet, or null. */
export async function codesBegun(
  site: Site,
  who: { readonly person: string; readonly email: string; readonly organisation: string },
): Promise<CodeMaker | null> {
  const row = await site.store.db
    .selectFrom('code_maker')
    .selectAll()
    .where('person', '=', who.person)
    .executeTakeFirst();
  if (row === undefined || row.confirmedAt !== null) return null;
  const secret = openSecret(site, who.person, row.sealedSecret);
  return tellMaker(secretOf(secret), who);
}

/**
 * Takes a code: whether it is right and newer than the last one taken. A code is taken once, RFC 6238 section 5.2:
 * of two people who send it at the same moment one gets in.
 * @param stage `begun`: also confirms codes that are being set up
 */
export async function takeCode(
  site: Site,
  db: Kysely<Tables>,
  person: string,
  code: string,
  stage: 'begun' | 'confirmed',
  now: Date,
): Promise<true | null> {
  const row = await db
    .selectFrom('code_maker')
    .selectAll()
    .where('person', '=', person)
    .executeTakeFirst();
  if (row === undefined || (row.confirmedAt === null) !== (stage === 'begun')) return null;
  const step = stepOfCode(openSecret(site, person, row.sealedSecret), code, now);
  if (step === null) return null;
  const taken = await db
    .updateTable('code_maker')
    .set({ lastStep: step, confirmedAt: row.confirmedAt ?? now.toISOString() })
    .where('person', '=', person)
    .where('sealedSecret', '=', row.sealedSecret)
    .where('lastStep', '<', step)
    .executeTakeFirst();
  return taken.numUpdatedRows === 1n ? true : null;
}
