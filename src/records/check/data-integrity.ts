import { fromBase58, toBase58 } from './base58.ts';
import { type Bytes, joinBytes } from './bytes.ts';
import { canonicalBytes, canonicalText } from './canonical.ts';
import { verificationMethodOf } from './did-key.ts';
import { sha256 } from './hash.ts';
import { groupAt, type JsonObject, valueAt } from './json-shape.ts';
import { type Signer, signBytes, verifySignature } from './signing-key.ts';

/*
 * Data Integrity proofs of the cryptosuite eddsa-jcs-2022: W3C Data Integrity EdDSA Cryptosuites
 * v1.0 (Recommendation of 15 May 2025), section 3.3.
 */

export type DataIntegrityProof = {
  readonly '@context'?: unknown;
  readonly type: 'DataIntegrityProof';
  readonly cryptosuite: 'eddsa-jcs-2022';
  readonly created: string;
  readonly verificationMethod: string;
  readonly proofPurpose: 'assertionMethod';
  readonly proofValue: string;
};

type ProofOptions = Omit<DataIntegrityProof, 'proofValue'>;

/** What is signed: the hash of the proof's options, then the hash of the document without proofs. */
export const integrityHash = (document: JsonObject, options: JsonObject): Bytes =>
  joinBytes(sha256(canonicalBytes(options)), sha256(canonicalBytes(document)));

/**
 * The document with one proof, in a list as Open Badges 3.0 asks.
 * @param document without a proof
 * @param options.created moment in UTC
 * @param options.issuer did:key of the signing key
 */
export async function addProof<Document extends JsonObject>(
  document: Document,
  key: Signer,
  options: { readonly created: string; readonly issuer: string },
): Promise<Document & { readonly proof: readonly [DataIntegrityProof] }> {
  const proof: ProofOptions = {
    // a document that is no linked data has no context to carry over
    ...(Object.hasOwn(document, '@context') ? { '@context': document['@context'] } : {}),
    type: 'DataIntegrityProof',
    cryptosuite: 'eddsa-jcs-2022',
    created: options.created,
    verificationMethod: verificationMethodOf(options.issuer),
    proofPurpose: 'assertionMethod',
  };
  const signature = await signBytes(key, integrityHash(document, proof));
  return { ...document, proof: [{ ...proof, proofValue: `z${toBase58(signature)}` }] };
}

/** Whether a list begins with another; both may be a single value. */
function beginsWith(whole: unknown, start: unknown): boolean {
  const all = Array.isArray(whole) ? whole : [whole];
  const first = Array.isArray(start) ? start : [start];
  return first.every(
    (one, index) => index < all.length && canonicalText(one) === canonicalText(all[index]),
  );
}

/**
 * Whether a document with exactly one proof, in a list or alone, carries that method's signature
 * by that key over all of it.
 * @throws ShapeError or NotCanonicalError for a document that has no such form
 */
export async function verifyProofOf(
  document: JsonObject,
  publicKey: Bytes,
  verificationMethod: string,
): Promise<boolean> {
  const { proof: given, ...unsecured } = document;
  if (Array.isArray(given) && given.length !== 1) return false;
  const proof = Array.isArray(given) ? groupAt(given, 0) : groupAt(document, 'proof');
  const { proofValue, ...options } = proof;
  const asDeclared =
    options['type'] === 'DataIntegrityProof' &&
    options['cryptosuite'] === 'eddsa-jcs-2022' &&
    options['proofPurpose'] === 'assertionMethod' &&
    options['verificationMethod'] === verificationMethod;
  if (!asDeclared || typeof proofValue !== 'string' || !proofValue.startsWith('z')) return false;
  let signed: JsonObject = unsecured;
  if (Object.hasOwn(options, '@context')) {
    const context = valueAt(options, '@context');
    if (!beginsWith(unsecured['@context'], context)) return false;
    signed = { ...unsecured, '@context': context };
  }
  const signature = fromBase58(proofValue.slice(1));
  if (signature?.length !== 64) return false;
  return verifySignature(publicKey, integrityHash(signed, options), signature);
}
