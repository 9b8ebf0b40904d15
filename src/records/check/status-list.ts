import { type Bytes, fromBase64Url, toBase64Url } from './bytes.ts';
import { addProof, type DataIntegrityProof } from './data-integrity.ts';
import { didOf } from './did-key.ts';
import type { Signer } from './signing-key.ts';

/*
 * Which records were withdrawn or ended, and which rest, as W3C Bitstring Status Lists v1.0
 * (Recommendation of 15 May 2025): one bit an event of the log, gzipped, signed by the site, with the
 * time it was made.
 */

/** Bits in a list: the least the standard allows, so that an entry hides among many. */
export const LIST_BITS = 131_072;

/** A longer list than this is not one of ours; it also keeps a small file from unpacking to a huge one. */
const MAX_BYTES = 4 * 1024 * 1024;

const CREDENTIALS_V2 = 'https://www.w3.org/ns/credentials/v2';

/** `revocation`: withdrawn or ended for good; `suspension`: rests until it is refreshed. */
export type StatusPurpose = 'revocation' | 'suspension';

export type StatusEntry = {
  readonly id: string;
  readonly type: 'BitstringStatusListEntry';
  readonly statusPurpose: StatusPurpose;
  readonly statusListIndex: string;
  readonly statusListCredential: string;
};

export type StatusList = {
  readonly '@context': readonly string[];
  readonly id: string;
  readonly type: readonly string[];
  readonly issuer: string;
  readonly validFrom: string;
  readonly validUntil: string;
  readonly credentialSubject: {
    readonly id: string;
    readonly type: 'BitstringStatusList';
    readonly statusPurpose: StatusPurpose;
    readonly encodedList: string;
  };
  readonly proof: readonly [DataIntegrityProof];
};

/** Where the status of the event at this place in the log is kept: list number and bit in it. */
export const statusPlaceOf = (index: number): { readonly list: number; readonly bit: number } => ({
  list: Math.floor(index / LIST_BITS),
  bit: index % LIST_BITS,
});

const listIdOf = (issuer: string, list: number, purpose: StatusPurpose): string =>
  `${issuer}/status/${purpose === 'suspension' ? 'suspension/' : ''}${list}`;

/** The entry a credential carries for the event at this place in the log. */
export function statusEntryOf(
  issuer: string,
  index: number,
  purpose: StatusPurpose = 'revocation',
): StatusEntry {
  const { list, bit } = statusPlaceOf(index);
  const id = listIdOf(issuer, list, purpose);
  return {
    id: `${id}#${bit}`,
    type: 'BitstringStatusListEntry',
    statusPurpose: purpose,
    statusListIndex: String(bit),
    statusListCredential: id,
  };
}

async function pipe(bytes: Bytes, through: GenericTransformStream): Promise<Bytes> {
  const reader = new Blob([bytes]).stream().pipeThrough(through).getReader();
  const parts: Uint8Array[] = [];
  let length = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    length += value.length;
    if (length > MAX_BYTES) {
      await reader.cancel();
      throw new RangeError('The status list is too long.');
    }
    parts.push(value);
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

/** A bit string as the standard spells it: gzipped, base 64 for addresses, `u` in front. */
export async function encodeBits(bits: Bytes): Promise<string> {
  return `u${toBase64Url(await pipe(bits, new CompressionStream('gzip')))}`;
}

/** The bit string of its spelling, or null. */
export async function decodeBits(encoded: string): Promise<Bytes | null> {
  const packed = encoded.startsWith('u') ? fromBase64Url(encoded.slice(1)) : null;
  if (packed === null) return null;
  return pipe(packed, new DecompressionStream('gzip')).catch(() => null);
}

/** Bit `index` of a bit string, or null past its end; index 0 is the highest bit of byte 0. */
export function bitAt(bits: Bytes, index: number): 0 | 1 | null {
  const byte = bits[Math.floor(index / 8)];
  return byte === undefined ? null : (((byte >> (7 - (index % 8))) & 1) as 0 | 1);
}

/**
 * A signed status list.
 * @param options.purpose what a bit says; `revocation` unless told
 * @param options.withdrawn places in the log of every record to mark; those of other lists are passed over
 * @param options.asOf when it was made
 * @param options.validUntil from then on it is too old to rely on
 */
export async function buildStatusList(
  key: Signer,
  options: {
    readonly list: number;
    readonly purpose?: StatusPurpose;
    readonly withdrawn: Iterable<number>;
    readonly asOf: string;
    readonly validUntil: string;
  },
): Promise<StatusList> {
  const bits = new Uint8Array(LIST_BITS / 8);
  for (const index of options.withdrawn) {
    const { list, bit } = statusPlaceOf(index);
    if (list === options.list) bits[bit >> 3] = (bits[bit >> 3] as number) | (0x80 >> (bit & 7));
  }
  const issuer = didOf(key.keyId);
  const purpose = options.purpose ?? 'revocation';
  const id = listIdOf(issuer, options.list, purpose);
  const list = {
    '@context': [CREDENTIALS_V2],
    id,
    type: ['VerifiableCredential', 'BitstringStatusListCredential'],
    issuer,
    validFrom: options.asOf,
    validUntil: options.validUntil,
    credentialSubject: {
      id: `${id}#list`,
      type: 'BitstringStatusList' as const,
      statusPurpose: purpose,
      encodedList: await encodeBits(bits),
    },
  } satisfies Omit<StatusList, 'proof'>;
  return addProof(list, key, { created: options.asOf, issuer });
}
