import { fromBase58, toBase58 } from './base58.ts';
import { type Bytes, joinBytes } from './bytes.ts';

/** Multicodec prefix of an Ed25519 public key: 0xed as a varint. */
const ED25519_PREFIX = new Uint8Array([0xed, 0x01]);

/** Bytes in an Ed25519 public key. */
const KEY_LENGTH = 32;

/**
 * The name of a public key, here called its key id: Multikey, base58btc, as in W3C Controlled
 * Identifiers 1.0 section 2.2.2. Begins z6Mk for Ed25519. It is the key, so it cannot be mistaken.
 */
export const keyIdOf = (publicKey: Uint8Array): string =>
  `z${toBase58(joinBytes(ED25519_PREFIX, publicKey))}`;

/** The Ed25519 public key that a key id spells, or null. */
export function publicKeyOf(keyId: string): Bytes | null {
  if (!keyId.startsWith('z')) return null;
  const bytes = fromBase58(keyId.slice(1));
  if (bytes === null || bytes.length !== ED25519_PREFIX.length + KEY_LENGTH) return null;
  if (bytes[0] !== ED25519_PREFIX[0] || bytes[1] !== ED25519_PREFIX[1]) return null;
  return bytes.slice(ED25519_PREFIX.length);
}

/** The did:key of a key id: an issuer's name that needs no register to look it up in. */
export const didOf = (keyId: string): string => `did:key:${keyId}`;

/** Where a did:key document keeps its one key. */
export const verificationMethodOf = (did: string): string =>
  `${did}#${did.slice('did:key:'.length)}`;

/** The Ed25519 public key of a did:key, or null for any other text. */
export const publicKeyOfDid = (did: string): Bytes | null =>
  did.startsWith('did:key:') ? publicKeyOf(did.slice('did:key:'.length)) : null;
