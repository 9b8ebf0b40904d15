import type { Bytes } from './bytes.ts';
import { fromBase64, toBase64Url } from './bytes.ts';
import { canonicalBytes } from './canonical.ts';
import { publicKeyOfDid } from './did-key.ts';
import { HASH_LENGTH, sha256 } from './hash.ts';
import {
  countAt,
  groupAt,
  type JsonObject,
  listAt,
  requireFields,
  ShapeError,
  textAt,
  valueAt,
} from './json-shape.ts';

/** First field of every proof file: which form the rest has. */
export const PROOF_FORMAT = 'signed-to-saw/proof/1';

/** Where an event lies in the log, and the audit path from it to the checkpoint's root. */
export type LogPlace = { readonly index: number; readonly path: readonly string[] };

/** A name shown with the proof. The salt lets the check tie it to the hash that was signed. */
export type ShownName = { readonly name: string; readonly salt: string };

/** One sign-off, provable without this site. Every byte of it is bound by a hash or a signature. */
export type ProofFile = {
  readonly format: typeof PROOF_FORMAT;
  /** Verifiable Credential 2.0 as an Open Badges 3.0 AchievementCredential, signed by the site */
  readonly credential: JsonObject;
  /** the event practical.signed as the log has it, with the statement and the device's signature */
  readonly event: JsonObject;
  /** the event device-key.enrolled of the key that signed */
  readonly enrolment: JsonObject;
  readonly log: {
    /** C2SP checkpoint, a signed note */
    readonly checkpoint: string;
    readonly event: LogPlace;
    readonly enrolment: LogPlace;
  };
  /** names the holder chose to show; either may be left out without harm to the rest */
  readonly names: { readonly trainee?: ShownName; readonly trainer?: ShownName };
  /** status list as of some moment; null reads as "unknown" */
  readonly status: JsonObject | null;
};

/** The same, read and ready to check. */
export type ProofParts = {
  readonly kind: 'practical';
  readonly issuer: string;
  readonly issuerKey: Bytes;
  readonly credential: JsonObject;
  readonly event: JsonObject;
  readonly enrolment: JsonObject;
  readonly checkpoint: string;
  readonly eventPlace: ReadPlace;
  readonly enrolmentPlace: ReadPlace;
  readonly names: { readonly trainee: ShownName | null; readonly trainer: ShownName | null };
  readonly status: JsonObject | null;
};
export type ReadPlace = { readonly index: number; readonly path: readonly Bytes[] };

/** A SHA-256 hash in standard base 64. @throws ShapeError */
export function readHash(value: unknown, where: string): Bytes {
  const hash = typeof value === 'string' ? fromBase64(value) : null;
  if (hash?.length !== HASH_LENGTH) throw new ShapeError(`${where} must be a hash`);
  return hash;
}

/** Index and audit path out of a group that holds them. @throws ShapeError */
export const readPlace = (group: JsonObject, where: string): ReadPlace => ({
  index: countAt(group, 'index'),
  path: listAt(group, 'path').map((hash, step) => readHash(hash, `${where}.path[${step}]`)),
});

function readLogPlace(file: unknown, which: 'event' | 'enrolment'): ReadPlace {
  const place = groupAt(file, 'log', which);
  requireFields(place, `log.${which}`, ['index', 'path']);
  return readPlace(place, `log.${which}`);
}

/** A name with its salt. @throws ShapeError */
export function readShownName(shown: JsonObject, where: string): ShownName {
  requireFields(shown, where, ['name', 'salt']);
  return { name: textAt(shown, 'name'), salt: textAt(shown, 'salt') };
}

/** The name somebody chose to show, or null. @throws ShapeError */
export const readName = (names: JsonObject, who: string): ShownName | null =>
  Object.hasOwn(names, who) ? readShownName(groupAt(names, who), `names.${who}`) : null;

/** Who says to have signed the credential. @throws ShapeError */
export function readIssuer(file: JsonObject): { issuer: string; issuerKey: Bytes } {
  const issuer = textAt(file, 'credential', 'issuer', 'id');
  const issuerKey = publicKeyOfDid(issuer);
  if (issuerKey === null)
    throw new ShapeError('credential.issuer.id must be the did:key of an Ed25519 key');
  return { issuer, issuerKey };
}

/**
 * The parts of the proof of one sign-off.
 * @throws ShapeError naming the field and what it must be
 */
export function readPracticalParts(file: JsonObject): ProofParts {
  requireFields(file, 'The file', [
    'format',
    'credential',
    'event',
    'enrolment',
    'log',
    'names',
    'status',
  ]);
  requireFields(groupAt(file, 'log'), 'log', ['checkpoint', 'event', 'enrolment']);
  const names = groupAt(file, 'names');
  const stray = Object.keys(names).find((who) => who !== 'trainee' && who !== 'trainer');
  if (stray !== undefined) throw new ShapeError(`names has no field named ${stray}`);
  return {
    kind: 'practical',
    ...readIssuer(file),
    credential: groupAt(file, 'credential'),
    event: groupAt(file, 'event'),
    enrolment: groupAt(file, 'enrolment'),
    checkpoint: textAt(file, 'log', 'checkpoint'),
    eventPlace: readLogPlace(file, 'event'),
    enrolmentPlace: readLogPlace(file, 'enrolment'),
    names: { trainee: readName(names, 'trainee'), trainer: readName(names, 'trainer') },
    status: valueAt(file, 'status') === null ? null : groupAt(file, 'status'),
  };
}

/** Multihash of a SHA-256 hash, base 64 for addresses: `digestMultibase` of VC 2.0. */
export const multibaseOf = (digest: Uint8Array): string =>
  `u${toBase64Url(new Uint8Array([0x12, HASH_LENGTH, ...digest]))}`;

/** The same over the canonical value. */
export const digestMultibase = (value: unknown): string =>
  multibaseOf(sha256(canonicalBytes(value)));

/** Id of a unit at one version, under its issuer. */
export const achievementIdOf = (
  issuer: string,
  unit: { readonly id: string; readonly version: string },
) => `${issuer}/unit/${encodeURIComponent(unit.id)}/${encodeURIComponent(unit.version)}`;

/** First moment of the first day and last second of the last, UTC. */
export const dayStart = (date: string): string => `${date}T00:00:00Z`;
export const dayEnd = (date: string): string => `${date}T23:59:59Z`;
