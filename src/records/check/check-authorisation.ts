import { claimsIn, claimsOf } from './authorisation-claims.ts';
import type { AuthorisationParts } from './authorisation-file.ts';
import { canonicalText } from './canonical.ts';
import { isLogged } from './check-evidence.ts';
import type { Checkpoint } from './checkpoint.ts';
import { groupAt, listAt, textAt, valueAt } from './json-shape.ts';

/*
 * Checks of leave to work, each answering with what is wrong, or null. The practicals it rests on are
 * looked at in check-basis.
 */

/** The authorisation lies in the log, and event and statement are of the same one. */
export function findFaultInGiving(
  { event, eventPlace }: AuthorisationParts,
  checkpoint: Checkpoint,
): string | null {
  if (valueAt(event, 'kind') !== 'authorisation.given')
    return 'The event in the file is not an authorisation.';
  if (!isLogged(event, eventPlace, checkpoint))
    return 'The authorisation is not in the log at this checkpoint as it stands here.';
  const statement = groupAt(event, 'body', 'statement');
  const agrees =
    textAt(event, 'id') === textAt(statement, 'id') &&
    textAt(event, 'by') === textAt(statement, 'by', 'person') &&
    textAt(event, 'about') === textAt(statement, 'who', 'person') &&
    textAt(event, 'org') === textAt(statement, 'org');
  if (!agrees) return 'The event and the authorisation in it are not of the same one.';
  return textAt(event, 'by') === textAt(event, 'about')
    ? 'The person authorised gave it to themselves.'
    : null;
}

/** A second person, neither the one authorised nor the one who gave it, agreed later in the same log. */
export function findFaultInSecond(
  { event, eventPlace, second }: AuthorisationParts,
  checkpoint: Checkpoint,
): string | null {
  if (second === null) return null;
  const { event: word, place } = second;
  if (valueAt(word, 'kind') !== 'authorisation.seconded')
    return 'The second event in the file is not of a second person.';
  if (!isLogged(word, place, checkpoint) || place.index <= eventPlace.index)
    return "The second person's word is not in the log at this checkpoint as it stands here.";
  const by = textAt(word, 'by');
  const holds =
    textAt(word, 'body', 'authorisation') === textAt(event, 'id') &&
    textAt(word, 'body', 'answer') === 'agrees' &&
    textAt(word, 'org') === textAt(event, 'org') &&
    textAt(word, 'about') === textAt(event, 'about') &&
    by !== textAt(event, 'by') &&
    by !== textAt(event, 'about');
  return holds ? null : "The second person's word is not that somebody else agrees to this.";
}

/** The credential speaks of this authorisation and of nothing else. */
export function findFaultInClaims({
  credential,
  event,
  eventPlace,
  issuer,
}: AuthorisationParts): string | null {
  const said = claimsIn(credential);
  const wrong = Object.entries(claimsOf(issuer, event, eventPlace.index)).find(
    ([name, meant]) => canonicalText(said[name] ?? null) !== canonicalText(meant),
  );
  if (wrong !== undefined) return `The credential and the authorisation differ in ${wrong[0]}.`;
  const types = listAt(credential, 'type');
  const isAchievement =
    types.includes('VerifiableCredential') && types.includes('AchievementCredential');
  return isAchievement ? null : 'The credential is not a credential of achievement.';
}
