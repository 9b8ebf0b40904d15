import type { Kysely } from 'kysely';
import type { Tables } from '../../store/index.ts';

export type PasskeyLine = {
  readonly id: string;
  readonly name: string;
  readonly madeAt: string;
  readonly usedAt: string | null;
};

/** What a person can prove who they are with, beside the password. */
export type Factors = {
  /** whether one-time codes are set up */
  readonly codes: boolean;
  readonly passkeys: readonly PasskeyLine[];
  /** recovery codes not used yet */
  readonly recoveryLeft: number;
};

export async function factorsOf(db: Kysely<Tables>, person: string): Promise<Factors> {
  const maker = await db
    .selectFrom('code_maker')
    .select('confirmedAt')
    .where('person', '=', person)
    .executeTakeFirst();
  const passkeys = await db
    .selectFrom('passkey')
    .select(['id', 'name', 'madeAt', 'usedAt'])
    .where('person', '=', person)
    .orderBy('madeAt')
    .execute();
  const left = await db
    .selectFrom('recovery_code')
    .select('codeHash')
    .where('person', '=', person)
    .where('usedAt', 'is', null)
    .execute();
  const codes = maker !== undefined && maker.confirmedAt !== null;
  return { codes, passkeys, recoveryLeft: left.length };
}
