import { z } from 'zod';
import {
  addProof,
  canonicalBytes,
  didOf,
  type JsonObject,
  publicKeyOfDid,
  type Signer,
  sha256,
  toHex,
  verificationMethodOf,
  verifyProofOf,
} from '../check/index.ts';
import {
  count,
  DateSchema,
  DigestSchema,
  fields,
  InstantSchema,
  OpaqueIdSchema,
  oneOf,
  text,
} from '../fields.ts';

/** First field of a manifest: which form the rest has. */
export const PACK_FORMAT = 'signed-to-saw/pack/1';

/** Where the manifest lies in a pack. It names every other file, and never itself. */
export const MANIFEST_PATH = 'manifest.json';

/** A path inside a pack: folders and a name, nothing that leads out of it. */
const PathSchema = z
  .string({ error: 'must be a path inside the pack' })
  .regex(/^(?!.*\.\.)[A-Za-z0-9][A-Za-z0-9._/-]{0,199}$/, {
    error: 'must be a path inside the pack',
  });

export const PackFileSchema = fields({
  path: PathSchema,
  sha256: DigestSchema,
  /** bytes */
  size: count(0, 1_000_000_000),
});

const shape = {
  format: z.literal(PACK_FORMAT, { error: `must be "${PACK_FORMAT}"` }),
  /** first 128 bits of the SHA-256 of the rest, in hexadecimal: the same content has the same id */
  id: z.string({ error: 'must be 32 hexadecimal digits' }).regex(/^[0-9a-f]{32}$/, {
    error: 'must be 32 hexadecimal digits',
  }),
  /** did:key of the site that made it */
  issuer: text(120),
  /** when it was made */
  made: InstantSchema,
  /** the day it is about */
  asOf: DateSchema,
  organisation: text(200),
  language: oneOf('en', 'de'),
  paper: oneOf('a4', 'letter'),
  /** opaque ids; an empty list is everybody, and null every bench */
  scope: fields({
    people: z.array(OpaqueIdSchema, { error: 'must list the people chosen' }),
    bench: OpaqueIdSchema.nullable(),
  }),
  /** the log as it was: name, entries, and root in base 64 */
  log: fields({ origin: text(200), size: count(0, 1_000_000_000), root: text(60) }),
  /** every other file of the pack, by path */
  files: z.array(PackFileSchema, { error: 'must list the files' }).max(50_000, {
    error: 'must list at most 50000 files',
  }),
};

export const PackManifestSchema = fields({
  ...shape,
  proof: z.array(z.record(z.string(), z.unknown()), { error: 'must list one proof' }).length(1, {
    error: 'must list one proof',
  }),
});

/** What a pack holds, signed by the site. */
export type PackManifest = z.infer<typeof PackManifestSchema>;
export type PackFile = z.infer<typeof PackFileSchema>;
/** What a manifest says, before it has an id and a signature. */
export type PackFacts = Omit<PackManifest, 'format' | 'id' | 'issuer' | 'proof'>;

/** The id of a manifest: made from everything it says. */
const idOf = (unnamed: JsonObject): string => toHex(sha256(canonicalBytes(unnamed))).slice(0, 32);

/** A file's line in the manifest. */
export const describeFile = (path: string, bytes: Uint8Array): PackFile => ({
  path,
  sha256: toHex(sha256(bytes)),
  size: bytes.length,
});

/** The id a pack with these facts has. */
export const packIdOf = (facts: PackFacts, keyId: string): string =>
  idOf({ format: PACK_FORMAT, issuer: didOf(keyId), ...facts });

/** The manifest of a pack, signed with the key of the site. The same facts give the same bytes. */
export async function signManifest(
  facts: PackFacts,
  key: Signer & { readonly keyId: string },
): Promise<PackManifest> {
  const issuer = didOf(key.keyId);
  const unnamed = { format: PACK_FORMAT, issuer, ...facts } as const;
  const named = { ...unnamed, id: idOf(unnamed) };
  const signed = await addProof(named, key, { created: facts.made, issuer });
  return PackManifestSchema.parse(signed);
}

/** Whether the issuer named in a manifest signed all of it, and its id is its own. */
export async function holdsManifest(manifest: PackManifest): Promise<boolean> {
  const { id, proof, ...unnamed } = manifest;
  const key = publicKeyOfDid(manifest.issuer);
  if (key === null || idOf(unnamed) !== id) return false;
  return verifyProofOf(manifest, key, verificationMethodOf(manifest.issuer));
}
