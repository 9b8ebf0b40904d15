import {
  checkSignoff,
  fromBase64Url,
  fromHex,
  leafHash,
  openCheckpoint,
  publicKeyOfDid,
  type Signoff,
  textAt,
  utf8,
  valueAt,
  verifyInclusion,
} from '../../../records/check/index.ts';

/** A stored record with what it takes to check it: text, since that is what was hashed. */
export type RecordPieces = {
  /** the event as it lies in the store */
  readonly event: string;
  /** the enrolment of the key that signed, or null when none is found */
  readonly enrolment: string | null;
  /** signed head of the log */
  readonly checkpoint: string;
  readonly eventPlace: Place;
  readonly enrolmentPlace: Place | null;
  /** did:key of the site that keeps the log */
  readonly issuer: string;
};

type Place = { readonly index: number; readonly path: readonly string[] };

export type CheckedPart = {
  readonly id: 'device' | 'log' | 'checkpoint' | 'enrolment';
  readonly state: 'ok' | 'failed';
  readonly sentence: string;
};

const part = (id: CheckedPart['id'], holds: boolean, ok: string, failed: string): CheckedPart =>
  holds ? { id, state: 'ok', sentence: ok } : { id, state: 'failed', sentence: failed };

function parse(text: string | null): unknown {
  try {
    return text === null ? null : JSON.parse(text);
  } catch {
    return null;
  }
}

async function deviceHolds(event: unknown, enrolment: unknown): Promise<boolean> {
  try {
    const key = fromBase64Url(textAt(enrolment, 'body', 'publicKey', 'x'));
    const body = valueAt(event, 'body');
    if (key === null || typeof body !== 'object' || body === null) return false;
    return (await checkSignoff(body as Signoff, key)).ok;
  } catch {
    return false;
  }
}

/**
 * Checks a stored record from its own bytes: the device's signature, its place in the log, the head of
 * the log, and the enrolment of the key. The same on the site and in the browser. Never throws.
 */
export async function checkPieces(pieces: RecordPieces): Promise<CheckedPart[]> {
  const { event, enrolment, checkpoint, eventPlace, enrolmentPlace, issuer } = pieces;
  const siteKey = publicKeyOfDid(issuer);
  const opened = siteKey === null ? null : await openCheckpoint(checkpoint, [siteKey]);
  const head = opened?.ok ? opened.checkpoint : null;
  const isLogged = (text: string | null, place: Place | null): boolean => {
    if (text === null || place === null || head === null) return false;
    const path = place.path.map((hash) => fromHex(hash) ?? new Uint8Array(0));
    return verifyInclusion({
      index: place.index,
      path,
      size: head.size,
      root: head.root,
      leafHash: leafHash(utf8(text)),
    });
  };
  return [
    part(
      'device',
      await deviceHolds(parse(event), parse(enrolment)),
      "The statement is as the trainer's device signed it.",
      "The statement is not what the trainer's device signed.",
    ),
    part(
      'log',
      isLogged(event, eventPlace),
      'The record stands in the log, every byte as it was entered.',
      'The record is not what was entered in the log.',
    ),
    part(
      'checkpoint',
      head !== null,
      `The head of the log, over ${head?.size ?? 0} records, is as this site signed it.`,
      'The head of the log is not what this site signed.',
    ),
    part(
      'enrolment',
      isLogged(enrolment, enrolmentPlace),
      "The trainer's device key was enrolled in the same log.",
      "The enrolment of the trainer's device key is not in the log as it was entered.",
    ),
  ];
}
