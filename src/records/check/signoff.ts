import type { Cosign } from '../statement/cosign-schema.ts';
import type { Statement } from '../statement/statement-schema.ts';
import { type Bytes, fromBase64Url, toBase64Url } from './bytes.ts';
import { canonicalBytes } from './canonical.ts';
import { keyIdOf } from './did-key.ts';
import { cosignMeaningOf, meaningOf, type Unsaid } from './meaning.ts';
import { type Signer, signBytes, verifySignature } from './signing-key.ts';

/** A statement with the trainer's device signature: the body of practical.signed. */
export type Signoff = {
  readonly signoff: string;
  readonly statement: Statement;
  readonly keyId: string;
  /** over the canonical bytes of the statement, base 64 for addresses */
  readonly deviceSignature: string;
};

/** A second trainer's word with their device signature: the body of practical.cosigned. */
export type Cosigned = {
  readonly statement: Cosign;
  readonly keyId: string;
  /** over the canonical bytes of the statement, base 64 for addresses */
  readonly deviceSignature: string;
};

export type SignoffCheck =
  | { readonly ok: true }
  | { readonly ok: false; readonly sentence: string };

/** A statement nobody may sign. */
export class SignoffError extends Error {
  override readonly name = 'SignoffError';
}

/** The statement with the sentence of meaning its fields make: what is shown before signing. */
export const withMeaning = <One extends Unsaid>(unsaid: One): One & { meaning: string } => ({
  ...unsaid,
  meaning: meaningOf(unsaid),
});

/**
 * Signs a second trainer's word on a practical, network or none.
 * @throws SignoffError when the meaning is not the one of the fields
 */
export async function signCosign(statement: Cosign, key: Signer): Promise<Cosigned> {
  if (statement.meaning !== cosignMeaningOf(statement)) {
    throw new SignoffError('The meaning shown is not the one the statement makes.');
  }
  const signature = await signBytes(key, canonicalBytes(statement));
  return { statement, keyId: key.keyId, deviceSignature: toBase64Url(signature) };
}

/** Whether a co-signature was made by this device key, as it stands. Never throws. */
export async function checkCosign(
  { deviceSignature, keyId, statement }: Cosigned,
  publicKey: Bytes,
): Promise<SignoffCheck> {
  const fail = (sentence: string): SignoffCheck => ({ ok: false, sentence });
  try {
    if (keyIdOf(publicKey) !== keyId) return fail('The co-signature names another device key.');
    const signature = fromBase64Url(deviceSignature);
    if (signature === null) return fail('The signature is not in base 64.');
    const holds = await verifySignature(publicKey, canonicalBytes(statement), signature);
    return holds ? { ok: true } : fail("The co-signature is not what the trainer's device signed.");
  } catch {
    return fail('The co-signature does not have the form of one.');
  }
}

const signsForSelf = ({ trainer, who }: Pick<Statement, 'trainer' | 'who'>): boolean =>
  trainer.person === who.person;

/**
 * Signs on the device, network or none.
 * @throws SignoffError for a trainer's own practical, or a meaning that is not the one of the fields
 */
export async function signStatement(statement: Statement, key: Signer): Promise<Signoff> {
  if (signsForSelf(statement)) throw new SignoffError('Nobody signs off their own practical.');
  if (statement.meaning !== meaningOf(statement)) {
    throw new SignoffError('The meaning shown is not the one the statement makes.');
  }
  const signature = await signBytes(key, canonicalBytes(statement));
  return {
    signoff: statement.signoff,
    statement,
    keyId: key.keyId,
    deviceSignature: toBase64Url(signature),
  };
}

/**
 * Whether a sign-off was signed by this device key, as it stands. Whether that key was enrolled to
 * the trainer and not ended is for the log to say. Never throws.
 */
export async function checkSignoff(signoff: Signoff, publicKey: Bytes): Promise<SignoffCheck> {
  const { deviceSignature, keyId, statement } = signoff;
  const fail = (sentence: string): SignoffCheck => ({ ok: false, sentence });
  try {
    if (keyIdOf(publicKey) !== keyId) return fail('The sign-off names another device key.');
    if (signoff.signoff !== statement.signoff) return fail('The sign-off names another statement.');
    if (signsForSelf(statement)) return fail('The trainer and the person signed off are the same.');
    const signature = fromBase64Url(deviceSignature);
    if (signature === null) return fail('The signature is not in base 64.');
    const holds = await verifySignature(publicKey, canonicalBytes(statement), signature);
    return holds ? { ok: true } : fail("The statement is not what the trainer's device signed.");
  } catch {
    return fail('The sign-off does not have the form of one.');
  }
}
