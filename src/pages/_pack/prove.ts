import { createHmac } from 'node:crypto';
import type { Site } from '../../accounts/index.ts';
import type { EventOf } from '../../records/index.ts';
import { toBase64, utf8 } from '../../records/index.ts';
import { leaveProofOf } from '../_desk/leave-proof.ts';
import { recordOf } from '../_desk/proof-of.ts';
import type { PackProof } from './content.ts';

const fileOf = (value: unknown): Uint8Array => utf8(`${JSON.stringify(value, null, 1)}\n`);

/**
 * Salts that are the same each time the same pack is made, and that nobody without the key of the site can
 * work out: 128 bits in hexadecimal.
 */
function saltsFor(id: string, site: Site): () => string {
  const secret = site.siteKey.deriveSecret('pack salts');
  let made = 0;
  return () => {
    made += 1;
    return createHmac('sha256', secret).update(`${id} ${made}`).digest('hex').slice(0, 32);
  };
}

/** The proof of leave to work, with everything it rests on. */
export async function proveLeave(
  given: EventOf<'authorisation.given'>,
  site: Site,
  made: string,
): Promise<PackProof> {
  const salt = saltsFor(given.id, site);
  const asked = { shown: 'all', names: 'shown', salt } as const;
  const done = await leaveProofOf(given, asked, site, new Date(made));
  if (!done.ok) return { ok: false, why: done.message };
  const { file, verdict } = done.value;
  const path = `proofs/authorisation-${given.id}.json`;
  return { ok: true, path, bytes: fileOf(file), verdict: verdict.verdict };
}

/** The proof of one sign-off. */
export async function proveSheet(
  signoff: string,
  org: string,
  site: Site,
  made: string,
): Promise<PackProof> {
  const record = await recordOf(signoff, org, site, new Date(made));
  if (record.state === 'broken') return { ok: false, why: record.sentence };
  if (record.state !== 'proved') return { ok: false, why: 'There is no proof of it.' };
  const { file, verdict } = record;
  const path = `proofs/sign-off-${signoff}.json`;
  return { ok: true, path, bytes: fileOf(file), verdict: verdict.verdict };
}

/** The hashes of a proof of consistency as they are written. */
export const hashesOf = (path: readonly Uint8Array[]): string[] =>
  path.map((hash) => toBase64(hash));
