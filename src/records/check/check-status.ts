import { verifyProofOf } from './data-integrity.ts';
import { verificationMethodOf } from './did-key.ts';
import { textAt, valueAt } from './json-shape.ts';
import type { ProofParts } from './proof-file.ts';
import { bitAt, decodeBits, statusEntryOf } from './status-list.ts';

/** Whether a sign-off was withdrawn, as far as the file can tell at a moment. */
export type StatusFinding =
  | { readonly state: 'in-force' | 'withdrawn'; readonly asOf: string }
  /** `asOf`: the last moment anything is known of */
  | { readonly state: 'unknown'; readonly asOf: string }
  | { readonly state: 'altered' };

/**
 * Reads the status list that lies in the file. A missing list, or one too old at `at`, tells
 * nothing; one that is not the issuer's, whole and unaltered, spoils the file.
 *
 * @param at moment asked about, as toISOString writes it
 * @throws ShapeError for a list that does not have the form of one
 */
export async function checkStatus(parts: ProofParts, at: string): Promise<StatusFinding> {
  const { credential, eventPlace, issuer, issuerKey, status } = parts;
  if (status === null) return { state: 'unknown', asOf: textAt(credential, 'proof', 0, 'created') };
  const entry = statusEntryOf(issuer, eventPlace.index);
  const isTheList =
    valueAt(status, 'id') === entry.statusListCredential &&
    valueAt(status, 'issuer') === issuer &&
    valueAt(status, 'credentialSubject', 'type') === 'BitstringStatusList' &&
    valueAt(status, 'credentialSubject', 'statusPurpose') === entry.statusPurpose;
  const isSigned = await verifyProofOf(status, issuerKey, verificationMethodOf(issuer));
  const bits = await decodeBits(textAt(status, 'credentialSubject', 'encodedList'));
  const bit = bits === null ? null : bitAt(bits, Number(entry.statusListIndex));
  if (!isTheList || !isSigned || bit === null) return { state: 'altered' };
  const asOf = textAt(status, 'validFrom');
  if (bit === 1) return { state: 'withdrawn', asOf };
  // Written so that an end that is no date reads as old.
  const isFresh = Date.parse(at) <= Date.parse(textAt(status, 'validUntil'));
  return { state: isFresh ? 'in-force' : 'unknown', asOf };
}
