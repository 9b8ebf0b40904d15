import { randomInt } from 'node:crypto';
import type { Kysely } from 'kysely';
import type { Tables } from '../../store/index.ts';
import { hashToken } from '../tokens.ts';

/** Codes to write down, for when phone and passkey are lost. */
export const RECOVERY_CODES = 8;
/** 32 signs without those that look alike; 24 of them are 120 bits, so a plain hash is enough. */
const SIGNS = '23456789ABCDEFGHJKLMNPQRSTUVWXYZ';
const GROUPS = 6;
const IN_GROUP = 4;

const makeGroup = () =>
  Array.from({ length: IN_GROUP }, () => SIGNS[randomInt(SIGNS.length)]).join('');

const makeRecoveryCode = (): string => Array.from({ length: GROUPS }, makeGroup).join('-');

/** How a code is compared: without blanks and dashes, in capitals. */
const plain = (code: string): string => code.replace(/[\s-]/g, '').toUpperCase();

const hashCode = (person: string, code: string): string =>
  hashToken(`recovery:${person}:${plain(code)}`);

/** Whether what was typed has the length of a recovery code. */
export const looksLikeRecovery = (code: string): boolean =>
  plain(code).length === GROUPS * IN_GROUP;

/** New codes in place of all earlier ones, told this once. */
export async function makeRecoveryCodes(
  db: Kysely<Tables>,
  person: string,
  now: Date,
): Promise<string[]> {
  const codes = Array.from({ length: RECOVERY_CODES }, makeRecoveryCode);
  await db.deleteFrom('recovery_code').where('person', '=', person).execute();
  await db
    .insertInto('recovery_code')
    .values(
      codes.map((code) => ({
        codeHash: hashCode(person, code),
        person,
        madeAt: now.toISOString(),
        usedAt: null,
      })),
    )
    .execute();
  return codes;
}

/** Uses a code up. It works once: of two people who send it at the same moment one gets in. */
export async function takeRecoveryCode(
  db: Kysely<Tables>,
  person: string,
  code: string,
  now: Date,
): Promise<true | null> {
  const taken = await db
    .updateTable('recovery_code')
    .set({ usedAt: now.toISOString() })
    .where('codeHash', '=', hashCode(person, code))
    .where('person', '=', person)
    .where('usedAt', 'is', null)
    .executeTakeFirst();
  return taken.numUpdatedRows === 1n ? true : null;
}
