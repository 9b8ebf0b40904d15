import { evidenceOf, leafResource, resultsResource } from './authorisation-claims.ts';
import type { AuthorisationParts, BasisPart } from './authorisation-file.ts';
import { canonicalBytes, canonicalText } from './canonical.ts';
import { findFaultInEnrolment, findFaultInSignoff } from './check-evidence.ts';
import type { Checkpoint } from './checkpoint.ts';
import { groupAt, type JsonObject, listAt, textAt, valueAt } from './json-shape.ts';
import { leafHash } from './merkle-hash.ts';
import { verifyInclusion } from './merkle-verify.ts';
import type { Check } from './verdict.ts';

/** Leaf hash of a sign-off, shown or not. */
const leafOf = (part: BasisPart) =>
  part.shown === 'all' ? leafHash(canonicalBytes(part.event)) : part.leaf;

/** What the credential holds of one sign-off, or undefined. */
const resourceIn = (credential: JsonObject, id: string): unknown =>
  listAt(credential, 'relatedResource').find((one) => valueAt(one, 'id') === id);

const same = (one: unknown, other: JsonObject): boolean =>
  one !== undefined && canonicalText(one) === canonicalText(other);

/** The practical as the credential tells it. */
export const evidenceIn = (credential: JsonObject, signoff: string): unknown =>
  listAt(credential, 'evidence').find((one) => valueAt(one, 'id') === `urn:uuid:${signoff}`);

/** Every practical is in the log, before the authorisation, and is the one the credential means. */
export function findFaultInBasis(
  { basis, credential, event, eventPlace }: AuthorisationParts,
  { root, size }: Checkpoint,
): string | null {
  const ids = listAt(event, 'body', 'statement', 'basis').map(String);
  const isAll =
    basis.length === ids.length &&
    listAt(credential, 'evidence').length === ids.length &&
    listAt(credential, 'relatedResource').length === 1 + 2 * ids.length;
  if (!isAll) return 'The file does not hold every practical that the authorisation names.';
  for (const [at, part] of basis.entries()) {
    const signoff = ids[at] as string;
    const leaf = leafOf(part);
    if (!verifyInclusion({ ...part.place, size, root, leafHash: leaf }))
      return `Practical ${at + 1} is not in the log at this checkpoint as it stands here.`;
    if (part.place.index >= eventPlace.index)
      return `Practical ${at + 1} was entered after the authorisation that rests on it.`;
    const resource = resourceIn(credential, `urn:uuid:${signoff}#leaf`);
    const isMeant =
      same(resource, leafResource(signoff, leaf)) &&
      resourceIn(credential, `urn:uuid:${signoff}#results`) !== undefined &&
      evidenceIn(credential, signoff) !== undefined;
    if (!isMeant) return `Practical ${at + 1} is not the one that the credential means.`;
    if (part.shown === 'results') {
      const cut = resourceIn(credential, `urn:uuid:${signoff}#results`);
      if (!same(cut, resultsResource(signoff, part.results)))
        return `The results shown of practical ${at + 1} are not the ones that were signed for.`;
    }
  }
  return null;
}

/** A sign-off shown whole is of this person on this machine, as told in the credential. */
function findFaultInMatch(
  part: Extract<BasisPart, { shown: 'all' }>,
  at: number,
  { credential, event, issuer }: AuthorisationParts,
): string | null {
  const signoff = String(valueAt(event, 'body', 'statement', 'basis', at));
  const statement = groupAt(part.event, 'body', 'statement');
  const leave = groupAt(event, 'body', 'statement');
  const fits =
    valueAt(part.event, 'kind') === 'practical.signed' &&
    textAt(part.event, 'id') === signoff &&
    textAt(part.event, 'org') === textAt(event, 'org') &&
    valueAt(statement, 'decision') === 'signed-off' &&
    textAt(statement, 'who', 'person') === textAt(leave, 'who', 'person') &&
    textAt(statement, 'bench', 'id') === textAt(leave, 'bench', 'id');
  if (!fits) return `Practical ${at + 1} is not a sign-off of this person on this machine.`;
  return same(evidenceIn(credential, signoff), evidenceOf(issuer, statement))
    ? null
    : `The credential and practical ${at + 1} do not say the same.`;
}

/** Each sign-off shown whole was signed on a device enrolled to its trainer. */
export async function findFaultInShown(
  parts: AuthorisationParts,
  checkpoint: Checkpoint,
): Promise<string | null> {
  for (const [at, part] of parts.basis.entries()) {
    if (part.shown !== 'all') continue;
    const signed = {
      event: part.event,
      eventPlace: part.place,
      enrolment: part.enrolment.event,
      enrolmentPlace: part.enrolment.place,
    };
    const fault =
      findFaultInMatch(part, at, parts) ??
      findFaultInEnrolment(signed, checkpoint) ??
      (await findFaultInSignoff(signed));
    if (fault !== null) return fault;
  }
  return null;
}

/** What the holder left out, in words: none of it stops the rest from being checked. */
export function describeLeftOut({ basis }: AuthorisationParts): Check[] {
  const id = 'left-out';
  const all = basis.length;
  const count = (shown: BasisPart['shown']) => basis.filter((part) => part.shown === shown).length;
  const [nothing, results] = [count('nothing'), count('results')];
  const without = (sentence: string): Check => ({ id, state: 'unknown', sentence });
  const found: Check[] = [];
  if (nothing > 0) {
    found.push(
      without(
        `Left out: results, settings and the trainer's signature of ${nothing} of ${all} practicals. They stand in the log; for day, unit and trainer, the site's signature alone speaks.`,
      ),
    );
  }
  if (results > 0) {
    found.push(
      without(
        `Left out: settings and the trainer's signature of ${results} of ${all} practicals. They stand in the log; for the results, the site's signature alone speaks.`,
      ),
    );
  }
  if (found.length > 0) return found;
  return [{ id, state: 'ok', sentence: `Nothing is left out of the ${all} practicals shown.` }];
}
