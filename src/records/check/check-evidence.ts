import { type Bytes, fromBase64Url } from './bytes.ts';
import { canonicalBytes, canonicalText } from './canonical.ts';
import type { Checkpoint } from './checkpoint.ts';
import { keyIdOf } from './did-key.ts';
import { groupAt, type JsonObject, listAt, textAt, valueAt } from './json-shape.ts';
import { leafHash } from './merkle-hash.ts';
import { verifyInclusion } from './merkle-verify.ts';
import {
  achievementIdOf,
  dayEnd,
  dayStart,
  digestMultibase,
  type ProofParts,
  type ReadPlace,
} from './proof-file.ts';
import { checkSignoff, type Signoff } from './signoff.ts';
import { statusEntryOf } from './status-list.ts';

/*
 * Each check answers with what is wrong, or null. They hold whatever the key is that signed; who is
 * trusted is another matter, settled in verifyProof.
 */

/** A sign-off with the enrolment of the key that signed it, and where both lie in the log. */
export type SignedParts = Pick<ProofParts, 'enrolment' | 'enrolmentPlace' | 'event' | 'eventPlace'>;

/** Whether an event lies at this place of the log that the checkpoint sums up. */
export const isLogged = (
  event: JsonObject,
  place: ReadPlace,
  { root, size }: Checkpoint,
): boolean => verifyInclusion({ ...place, size, root, leafHash: leafHash(canonicalBytes(event)) });

/** The sign-off lies in the log that the checkpoint sums up. */
export function findFaultInLog(
  { event, eventPlace }: SignedParts,
  checkpoint: Checkpoint,
): string | null {
  if (valueAt(event, 'kind') !== 'practical.signed')
    return 'The event in the file is not a sign-off.';
  return isLogged(event, eventPlace, checkpoint)
    ? null
    : 'The sign-off is not in the log at this checkpoint as it stands here.';
}

/** The key that signed was enrolled by that trainer in that organisation, earlier in the same log. */
export function findFaultInEnrolment(parts: SignedParts, checkpoint: Checkpoint): string | null {
  const { enrolment, enrolmentPlace, event, eventPlace } = parts;
  if (valueAt(enrolment, 'kind') !== 'device-key.enrolled')
    return 'The file holds no key enrolment.';
  if (!isLogged(enrolment, enrolmentPlace, checkpoint)) {
    return "The enrolment of the trainer's key is not in the log at this checkpoint as it stands here.";
  }
  if (enrolmentPlace.index >= eventPlace.index) return 'The key was enrolled after it had signed.';
  const sameHands =
    textAt(enrolment, 'by') === textAt(event, 'by') &&
    textAt(enrolment, 'org') === textAt(event, 'org') &&
    textAt(enrolment, 'body', 'keyId') === textAt(event, 'body', 'keyId');
  return sameHands ? null : 'The key that signed was enrolled to somebody else.';
}

function enrolledKey(enrolment: JsonObject): Bytes | null {
  const key = fromBase64Url(textAt(enrolment, 'body', 'publicKey', 'x'));
  return key !== null && keyIdOf(key) === textAt(enrolment, 'body', 'keyId') ? key : null;
}

/** The trainer's device signed the statement as it stands, and the event says the same as it. */
export async function findFaultInSignoff({
  enrolment,
  event,
}: SignedParts): Promise<string | null> {
  const key = enrolledKey(enrolment);
  if (key === null) return 'The enrolment names a key that is not the one it holds.';
  const checked = await checkSignoff(groupAt(event, 'body') as unknown as Signoff, key);
  if (!checked.ok) return checked.sentence;
  const statement = groupAt(event, 'body', 'statement');
  const agrees =
    textAt(event, 'id') === textAt(statement, 'signoff') &&
    textAt(event, 'by') === textAt(statement, 'trainer', 'person') &&
    textAt(event, 'about') === textAt(statement, 'who', 'person') &&
    textAt(event, 'org') === textAt(statement, 'org');
  return agrees ? null : 'The event and the statement in it are not of the same sign-off.';
}

/** The credential speaks of this statement and of nothing else. */
export function findFaultInMatch({
  credential,
  event,
  eventPlace,
  issuer,
}: ProofParts): string | null {
  const statement = groupAt(event, 'body', 'statement');
  if (valueAt(statement, 'decision') !== 'signed-off') return 'The statement is not a sign-off.';
  const unit = {
    id: textAt(statement, 'unit', 'id'),
    version: textAt(statement, 'unit', 'version'),
  };
  const expected: readonly (readonly [string, unknown, unknown])[] = [
    ['id', valueAt(credential, 'id'), `urn:uuid:${textAt(statement, 'signoff')}`],
    ['validFrom', valueAt(credential, 'validFrom'), dayStart(textAt(statement, 'validFrom'))],
    ['validUntil', valueAt(credential, 'validUntil'), dayEnd(textAt(statement, 'validUntil'))],
    [
      'holder',
      valueAt(credential, 'credentialSubject', 'identifier', 0, 'identityHash'),
      textAt(statement, 'who', 'nameHash'),
    ],
    [
      'unit',
      valueAt(credential, 'credentialSubject', 'achievement', 'id'),
      achievementIdOf(issuer, unit),
    ],
    [
      'record',
      valueAt(credential, 'relatedResource', 0, 'digestMultibase'),
      digestMultibase(event),
    ],
    [
      'status',
      canonicalText(groupAt(credential, 'credentialStatus')),
      canonicalText(statusEntryOf(issuer, eventPlace.index)),
    ],
  ];
  const wrong = expected.find(([, said, meant]) => said !== meant);
  if (wrong !== undefined) return `The credential and the statement differ in ${wrong[0]}.`;
  const types = listAt(credential, 'type');
  const isAchievement =
    types.includes('VerifiableCredential') && types.includes('AchievementCredential');
  return isAchievement ? null : 'The credential is not a credential of achievement.';
}
