import { groupAt, type JsonObject, listAt, textAt, valueAt } from './json-shape.ts';
import { dayEnd, dayStart, digestMultibase, multibaseOf } from './proof-file.ts';
import { type StatusEntry, statusEntryOf } from './status-list.ts';

/*
 * What a credential of leave to work must say, worked out from the events it is about. Maker and check
 * share it, so the two cannot drift apart.
 */

/** One practical in short, as the credential tells it whatever is left out of the file. */
export function evidenceOf(issuer: string, statement: JsonObject): JsonObject {
  const day = textAt(statement, 'observedAt');
  const title = textAt(statement, 'unit', 'title');
  const version = textAt(statement, 'unit', 'version');
  return {
    id: `urn:uuid:${textAt(statement, 'signoff')}`,
    type: ['Evidence'],
    name: title,
    genre: 'practical',
    narrative: `Watched at the machine on ${day} for the unit "${title}", version ${version}.`,
    observedAt: day,
    creator: {
      id: `${issuer}/person/${textAt(statement, 'trainer', 'person')}`,
      type: ['Profile'],
      otherIdentifier: [
        {
          type: 'IdentifierEntry',
          identifier: textAt(statement, 'trainer', 'nameHash'),
          identifierType: 'identifier',
        },
      ],
    },
  };
}

/** Ties a sign-off to its leaf in the log: the leaf hash is SHA-256 over 0x00 and the event. */
export const leafResource = (signoff: string, leaf: Uint8Array): JsonObject => ({
  id: `urn:uuid:${signoff}#leaf`,
  mediaType: 'application/octet-stream',
  digestMultibase: multibaseOf(leaf),
});

/** Ties the results cut out of a sign-off to it, shown or not. */
export const resultsResource = (signoff: string, results: unknown): JsonObject => ({
  id: `urn:uuid:${signoff}#results`,
  mediaType: 'application/json',
  digestMultibase: digestMultibase(results),
});

export const eventResource = (id: string, event: unknown): JsonObject => ({
  id: `urn:uuid:${id}`,
  mediaType: 'application/json',
  digestMultibase: digestMultibase(event),
});

/** The two status entries of leave to work: ended for good, and resting. */
export const authorisationStatus = (issuer: string, index: number): readonly StatusEntry[] => [
  statusEntryOf(issuer, index, 'revocation'),
  statusEntryOf(issuer, index, 'suspension'),
];

/** Members of the credential that follow from the authorisation alone, by what to call them. */
export function claimsOf(issuer: string, event: JsonObject, index: number) {
  const statement = groupAt(event, 'body', 'statement');
  const id = textAt(statement, 'id');
  const works = listAt(statement, 'work').map(String);
  const place = [textAt(statement, 'bench', 'id'), ...works].map(encodeURIComponent).join('/');
  return {
    id: `urn:uuid:${id}`,
    validFrom: dayStart(textAt(statement, 'from')),
    validUntil: dayEnd(textAt(statement, 'until')),
    holder: textAt(statement, 'who', 'nameHash'),
    giver: `${issuer}/person/${textAt(statement, 'by', 'person')}`,
    machine: `${issuer}/authorisation/${place}`,
    criteria: [textAt(statement, 'meaning'), ...listAt(statement, 'conditions').map(String)]
      .map((line) => `- ${line}`)
      .join('\n'),
    record: eventResource(id, event),
    status: authorisationStatus(issuer, index),
  };
}

/** The same members as a credential has them; undefined where it lacks one. */
export const claimsIn = (credential: JsonObject): Record<string, unknown> => ({
  id: valueAt(credential, 'id'),
  validFrom: valueAt(credential, 'validFrom'),
  validUntil: valueAt(credential, 'validUntil'),
  holder: valueAt(credential, 'credentialSubject', 'identifier', 0, 'identityHash'),
  giver: valueAt(credential, 'credentialSubject', 'source', 'id'),
  machine: valueAt(credential, 'credentialSubject', 'achievement', 'id'),
  criteria: valueAt(credential, 'credentialSubject', 'achievement', 'criteria', 'narrative'),
  record: valueAt(credential, 'relatedResource', 0),
  status: valueAt(credential, 'credentialStatus'),
});
