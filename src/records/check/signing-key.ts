import { type Bytes, fromBase64Url, fromHex, toBase64Url, utf8 } from './bytes.ts';
import { keyIdOf } from './did-key.ts';

/** Public Ed25519 key as a JSON Web Key, RFC 8037 section 2. */
export type PublicJwk = { readonly kty: 'OKP'; readonly crv: 'Ed25519'; readonly x: string };

/** Private Ed25519 key as a JSON Web Key. */
export type PrivateJwk = PublicJwk & { readonly d: string };

/** A key that can sign. It can be kept in IndexedDB as it is, unextractable key and all. */
export type SigningKey = {
  readonly privateKey: CryptoKey;
  /** 32 bytes */
  readonly publicKey: Bytes;
  /** the public key spelt as Multikey, z6Mk... */
  readonly keyId: string;
};

/** Whatever signs with a key: one held by WebCrypto, or a keeper that signs on request. */
export type Signer =
  | SigningKey
  | (Pick<SigningKey, 'publicKey' | 'keyId'> & {
      /** Ed25519 signature, 64 bytes */
      readonly signBytes: (bytes: Bytes) => Bytes | Promise<Bytes>;
    });

/** A key that cannot be read, or whose halves do not belong together. */
export class KeyError extends Error {
  override readonly name = 'KeyError';
}

export const publicJwkOf = (publicKey: Uint8Array): PublicJwk => ({
  kty: 'OKP',
  crv: 'Ed25519',
  x: toBase64Url(publicKey),
});

const withId = (privateKey: CryptoKey, publicKey: Bytes): SigningKey => ({
  privateKey,
  publicKey,
  keyId: keyIdOf(publicKey),
});

/**
 * A new key pair. Kept `on-device`, the private half can never be read out again, not even by us;
 * `exportable` is for the site's own key, which has to be written to a file.
 */
export async function generateSigningKey(options: {
  readonly keep: 'on-device' | 'exportable';
}): Promise<SigningKey> {
  const usages: KeyUsage[] = ['sign', 'verify'];
  const extractable = options.keep === 'exportable';
  const pair = (await crypto.subtle.generateKey('Ed25519', extractable, usages)) as CryptoKeyPair;
  const publicKey = new Uint8Array(await crypto.subtle.exportKey('raw', pair.publicKey));
  return withId(pair.privateKey, publicKey);
}

/**
 * The key of a private JSON Web Key; from here on it cannot be read out again.
 * @throws KeyError when it is not an Ed25519 key or its halves do not belong together
 */
export async function importSigningKey(jwk: PrivateJwk): Promise<SigningKey> {
  const publicKey = fromBase64Url(jwk.x);
  if (publicKey === null) throw new KeyError('x must be 32 bytes in base 64 for addresses.');
  // Only these members: a stray `key_ops` or `use` is no reason to refuse a good key.
  const { kty, crv, x, d } = jwk;
  const privateKey = await crypto.subtle
    .importKey('jwk', { kty, crv, x, d }, 'Ed25519', false, ['sign'])
    .catch(() => {
      throw new KeyError('The key is not a private Ed25519 key as a JSON Web Key.');
    });
  const key = withId(privateKey, publicKey);
  const probe = utf8('Do both halves of this key belong together?');
  if (!(await verifySignature(publicKey, probe, await signBytes(key, probe)))) {
    throw new KeyError('The private and the public half of the key do not belong together.');
  }
  return key;
}

/**
 * The private JSON Web Key of an exportable key.
 * @throws KeyError when the key was made to stay on its device
 */
export async function exportSigningKey(key: SigningKey): Promise<PrivateJwk> {
  if (!key.privateKey.extractable) throw new KeyError('This key was made to stay on its device.');
  const { d } = await crypto.subtle.exportKey('jwk', key.privateKey);
  return { ...publicJwkOf(key.publicKey), d: d as string };
}

/** Ed25519 signature, RFC 8032 section 5.1.6: 64 bytes, the same for the same key and bytes. */
export async function signBytes(signer: Signer, bytes: Bytes): Promise<Bytes> {
  if ('signBytes' in signer) return signer.signBytes(bytes);
  return new Uint8Array(await crypto.subtle.sign('Ed25519', signer.privateKey, bytes));
}

/** Whether the signature is that key's over those bytes. Never throws. */
export async function verifySignature(
  publicKey: Bytes,
  bytes: Bytes,
  signature: Bytes,
): Promise<boolean> {
  try {
    const key = await crypto.subtle.importKey('raw', publicKey, 'Ed25519', true, ['verify']);
    return await crypto.subtle.verify('Ed25519', key, signature, bytes);
  } catch {
    return false;
  }
}

/** RFC 8032 section 7.1, TEST 1: a signature over nothing. */
const KNOWN = {
  publicKey: 'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
  signature:
    'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
};

/**
 * Whether this browser or engine checks Ed25519 signatures at all. Ask before a verdict is shown: where it
 * does not, every good signature would look like a bad one.
 */
export async function canCheckSignatures(): Promise<boolean> {
  if (globalThis.crypto?.subtle === undefined) return false;
  const [publicKey, signature] = [fromHex(KNOWN.publicKey), fromHex(KNOWN.signature)];
  if (publicKey === null || signature === null) return false;
  return verifySignature(publicKey, new Uint8Array(0), signature);
}
