import { z } from 'zod';
import {
  can,
  confirmSignIns,
  type RelyingParty,
  type Site,
  type Viewer,
} from '../../accounts/index.ts';
import { describeProblem } from '../../bench/index.ts';
import { confirmByPasskey } from './confirm-by-passkey.ts';
import { type Done, refused, refusedFor } from './refused.ts';
import { whyNotWrite } from './workshop.ts';

const digest = () => {
  const must = 'must be a SHA-256, 64 hexadecimal digits';
  return z.string({ error: must }).regex(/^[0-9a-f]{64}$/, { error: must });
};

/** Units that are signed with one password. */
const MOST_STATEMENTS = 12;

const ConfirmSchema = z
  .strictObject(
    {
      password: z
        .string({ error: 'must be filled in' })
        .min(1, { error: 'must be filled in' })
        .max(128, { error: 'must be at most 128 characters' })
        .optional(),
      /** what a passkey answered, in place of the password */
      passkey: z.unknown().optional(),
      /** of the one statement to be signed */
      statement: digest().optional(),
      /** of the statements to be signed; none only checks the password, and enrols the key */
      statements: z
        .array(digest(), { error: 'must list the SHA-256 of each statement' })
        .max(MOST_STATEMENTS, { error: `must list at most ${MOST_STATEMENTS} statements` })
        .optional(),
      /** of the enrolment of a key that is new to the site; null when it is not */
      key: digest().nullable(),
    },
    { error: 'must hold password or passkey, statements and key, and nothing else' },
  )
  .refine(({ password, passkey }) => password !== undefined || passkey !== undefined, {
    path: ['password'],
    error: 'must be filled in',
  });

export type Confirmed = {
  /** of the first statement; empty when none was named */
  readonly ticket: string;
  /** one to a statement, in their order */
  readonly tickets: readonly string[];
  readonly enrolTicket: string | null;
  readonly expires: string;
};

/**
 * Signs in again at the moment of signing, by password or by a passkey that was asked for just these statements: one
 * ticket for each of them, and one for a new key.
 * @param address network address that wrong passwords are counted for; null when not known
 * @param party whom a passkey has to be for; null where there can be none
 */
export async function confirmSigner(
  viewer: Viewer | null,
  input: unknown,
  address: string | null,
  site: Site,
  party: RelyingParty | null = null,
): Promise<Done<Confirmed>> {
  if (viewer === null) return refusedFor(401, '', 'desk.signed-out.sheet');
  if (!can(viewer, 'device-key.enrol', { org: viewer.org, person: viewer.person })) {
    return refusedFor(403, '', whyNotWrite(viewer));
  }
  const read = ConfirmSchema.safeParse(input);
  if (!read.success) {
    const { path, message } = describeProblem(read.error, 'The request');
    return refused(400, path, message);
  }
  const { password, passkey, statement, statements = [], key } = read.data;
  const hashes = statement === undefined ? statements : [statement, ...statements];
  const asked = key === null ? hashes : [...hashes, key];
  const signed =
    passkey === undefined
      ? await confirmSignIns(viewer, password ?? '', asked, address, site)
      : await confirmByPasskey(viewer, passkey, { hashes, key }, party, site);
  if (!signed.ok) return { ok: false, ...signed.refusal };
  const { expires } = signed.value;
  const tickets = signed.value.tickets.slice(0, hashes.length);
  const enrolTicket = key === null ? null : (signed.value.tickets.at(-1) ?? null);
  return { ok: true, value: { ticket: tickets[0] ?? '', tickets, enrolTicket, expires } };
}
