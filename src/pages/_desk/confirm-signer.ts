import { z } from 'zod';
import { can, confirmSignIn, type Site, type Viewer } from '../../accounts/index.ts';
import { describeProblem } from '../../bench/index.ts';
import { type Done, refused, refusedFor } from './refused.ts';
import { whyNotWrite } from './workshop.ts';

const digest = () => {
  const must = 'must be a SHA-256, 64 hexadecimal digits';
  return z.string({ error: must }).regex(/^[0-9a-f]{64}$/, { error: must });
};

const ConfirmSchema = z.strictObject({
  password: z
    .string({ error: 'must be filled in' })
    .min(1, { error: 'must be filled in' })
    .max(128, { error: 'must be at most 128 characters' }),
  /** of the statement to be signed */
  statement: digest(),
  /** of the enrolment of a key that is new to the site; null when it is not */
  key: digest().nullable(),
});

export type Confirmed = {
  readonly ticket: string;
  readonly enrolTicket: string | null;
  readonly expires: string;
};

/** Signs in again at the moment of signing: one ticket for the statement, and one for a new key. */
export async function confirmSigner(
  viewer: Viewer | null,
  input: unknown,
  address: string | null,
  site: Site,
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
  const { password, statement, key } = read.data;
  const signed = await confirmSignIn(viewer, password, statement, address, site);
  if (!signed.ok) return { ok: false, ...signed.refusal };
  const { ticket, expires } = signed.value;
  if (key === null) return { ok: true, value: { ticket, enrolTicket: null, expires } };
  const enrol = await confirmSignIn(viewer, password, key, address, site);
  if (!enrol.ok) return { ok: false, ...enrol.refusal };
  return { ok: true, value: { ticket, enrolTicket: enrol.value.ticket, expires } };
}
