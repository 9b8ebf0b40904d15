import type { Bytes } from './bytes.ts';
import { verifyProofOf } from './data-integrity.ts';
import { verificationMethodOf } from './did-key.ts';
import { type JsonObject, textAt, valueAt } from './json-shape.ts';
import type { ProofParts } from './proof-file.ts';
import { bitAt, decodeBits, type StatusEntry, statusEntryOf } from './status-list.ts';

type Issuer = Pick<ProofParts, 'issuer' | 'issuerKey'>;

/**
 * The bits of the status list an entry points at, or null for a list that is not the issuer's own, whole
 * and unaltered.
 * @throws ShapeError for a list that does not have the form of one
 */
export async function openStatusList(
  status: JsonObject,
  entry: StatusEntry,
  { issuer, issuerKey }: Issuer,
): Promise<Bytes | null> {
  const isTheList =
    valueAt(status, 'id') === entry.statusListCredential &&
    valueAt(status, 'issuer') === issuer &&
    valueAt(status, 'credentialSubject', 'type') === 'BitstringStatusList' &&
    valueAt(status, 'credentialSubject', 'statusPurpose') === entry.statusPurpose;
  const isSigned = await verifyProofOf(status, issuerKey, verificationMethodOf(issuer));
  const bits = await decodeBits(textAt(status, 'credentialSubject', 'encodedList'));
  return isTheList && isSigned ? bits : null;
}

/** Whether a status list still tells anything at a moment; an end that is no date reads as old. */
export const isFreshAt = (status: JsonObject, at: string): boolean =>
  Date.parse(at) <= Date.parse(textAt(status, 'validUntil'));

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
  const { credential, eventPlace, issuer, status } = parts;
  if (status === null) return { state: 'unknown', asOf: textAt(credential, 'proof', 0, 'created') };
  const entry = statusEntryOf(issuer, eventPlace.index);
  const bits = await openStatusList(status, entry, parts);
  const bit = bits === null ? null : bitAt(bits, Number(entry.statusListIndex));
  if (bit === null) return { state: 'altered' };
  const asOf = textAt(status, 'validFrom');
  if (bit === 1) return { state: 'withdrawn', asOf };
  return { state: isFreshAt(status, at) ? 'in-force' : 'unknown', asOf };
}
