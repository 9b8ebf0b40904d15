import { hkdfSync } from 'node:crypto';
import { closeSync, existsSync, fsyncSync, openSync, readFileSync, writeSync } from 'node:fs';
import { z } from 'zod';
import {
  exportSigningKey,
  fromBase64Url,
  generateSigningKey,
  importSigningKey,
  type SigningKey,
} from '../records/index.ts';
import { StoreUnusable } from './problems.ts';

/** The site's own Ed25519 key: signs the heads of the log and countersigns proofs. */
export type SiteKey = SigningKey & {
  /** A secret for another use, derived by HKDF (RFC 5869) so that it tells nothing of the key: 64 hex digits. */
  readonly deriveSecret: (use: string) => string;
};

const keyRule = 'must be 32 bytes in base 64 for addresses';
const KeyPartSchema = z
  .string({ error: keyRule })
  .refine((text) => fromBase64Url(text)?.length === 32, { error: keyRule });

/** site-key.json: an Ed25519 private key as a JSON Web Key (RFC 8037). */
const SiteKeyFileSchema = z.strictObject({
  format: z.literal('site-key/1'),
  key: z.strictObject({
    kty: z.literal('OKP'),
    crv: z.literal('Ed25519'),
    x: KeyPartSchema,
    d: KeyPartSchema,
  }),
});
type SiteKeyFile = z.infer<typeof SiteKeyFileSchema>;

async function makeKeyFile(file: string): Promise<SiteKeyFile> {
  const key = await exportSigningKey(await generateSigningKey({ keep: 'exportable' }));
  const made: SiteKeyFile = { format: 'site-key/1', key };
  // wx: never over an existing key. 0600: nobody but the site reads it.
  const descriptor = openSync(file, 'wx', 0o600);
  try {
    writeSync(descriptor, `${JSON.stringify(made, null, 2)}\n`);
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
  return made;
}

function readKeyFile(file: string): SiteKeyFile {
  let value: unknown;
  try {
    value = JSON.parse(readFileSync(file, 'utf8'));
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
  }
  const read = SiteKeyFileSchema.safeParse(value);
  if (read.success) return read.data;
  throw new StoreUnusable(`${file} is not a site key; put the right one back from your backup.`);
}

/**
 * The key of this site. It is made at the first start; where a log exists without it, nothing is made, since
 * a new key could not go on with the log of the old one.
 * @param log the log's file, or whether there is a log
 * @throws StoreUnusable, or the disk's own error
 */
export async function openSiteKey(file: string, log: string | boolean): Promise<SiteKey> {
  const isLogThere = typeof log === 'boolean' ? log : existsSync(log);
  if (!existsSync(file) && isLogThere) {
    throw new StoreUnusable(
      `${file} is missing, and the log of this site was signed with it; put it back from your backup.`,
    );
  }
  const { key } = existsSync(file) ? readKeyFile(file) : await makeKeyFile(file);
  const signing = await importSigningKey(key).catch(() => {
    throw new StoreUnusable(`${file} is not a site key; put the right one back from your backup.`);
  });
  const seed = Buffer.from(key.d, 'base64url');
  return {
    ...signing,
    deriveSecret: (use) =>
      Buffer.from(hkdfSync('sha256', seed, 'signed-to-saw', use, 32)).toString('hex'),
  };
}
