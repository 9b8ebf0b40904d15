import {
  achievementIdOf,
  claimsOf,
  didOf,
  eventResource,
  evidenceOf,
  type JsonObject,
  leafResource,
  type ResultsShown,
  resultsResource,
} from '../check/index.ts';
import type { EventOf } from '../events/index.ts';
import type { Statement } from '../statement/statement-schema.ts';
import { type Alignment, alignmentOf, CONTEXT } from './credential.ts';

/** Lets a reader of linked data keep the members of evidence that neither standard names. */
const UNDEFINED_TERMS = 'https://www.w3.org/ns/credentials/undefined-terms/v2';

/** A sign-off that leave rests on, with what is needed to tie the credential to it. */
export type BasisClaim = {
  readonly statement: Statement;
  readonly leaf: Uint8Array;
  readonly results: ResultsShown;
};

export type AuthorisationCredentialInput = {
  readonly event: EventOf<'authorisation.given'>;
  /** the event just as the log has it */
  readonly logged: JsonObject;
  /** its place in the log */
  readonly index: number;
  /** in the order the authorisation names them */
  readonly basis: readonly BasisClaim[];
  readonly keyId: string;
  readonly organisation: string;
  /** published units that the units it rests on are held against */
  readonly alignments: readonly Alignment[];
};

const listOf = (words: readonly string[]): string => words.join(', ');

/** The units it rests on, each once, under the issuer's own names. */
function unitAlignments(basis: readonly BasisClaim[], issuer: string) {
  const units = new Map(
    basis.map(({ statement: { unit } }) => [achievementIdOf(issuer, unit), unit]),
  );
  return [...units].map(([url, { id, title, version }]) =>
    alignmentOf({ name: title, url, code: `${id} ${version}` }),
  );
}

/**
 * Leave to work as a Verifiable Credential 2.0 in the form of an Open Badges 3.0 AchievementCredential, not
 * yet signed. It says the same however much of the practicals a file shows: what is left out is held by
 * its hash.
 */
export function authorisationCredentialOf(input: AuthorisationCredentialInput) {
  const { alignments, basis, event, index, keyId, logged, organisation } = input;
  const { statement } = event.body;
  const issuer = didOf(keyId);
  const claims = claimsOf(issuer, logged, index);
  const machine = listOf([...new Set(basis.map((one) => one.statement.bench.class))]);
  const { thickness, length } = statement.largest;
  return {
    '@context': [...CONTEXT, UNDEFINED_TERMS],
    id: claims.id,
    type: ['VerifiableCredential', 'AchievementCredential'],
    name: `Leave to work on ${statement.bench.asset}: ${listOf(statement.work)}`,
    description: "Employer's record of supervised competence. Not a licence.",
    issuer: { id: issuer, type: ['Profile'], name: organisation },
    validFrom: claims.validFrom,
    validUntil: claims.validUntil,
    awardedDate: event.received,
    credentialSubject: {
      type: ['AchievementSubject'],
      identifier: [
        {
          type: 'IdentityObject',
          hashed: true,
          identityHash: claims.holder,
          identityType: 'name',
        },
      ],
      source: { id: claims.giver, type: ['Profile'] },
      achievement: {
        id: claims.machine,
        type: ['Achievement'],
        achievementType: 'Competency',
        name: `${listOf(statement.work)} on ${statement.bench.asset}`,
        specialization: machine,
        description: [
          `Leave in writing for ${listOf(statement.work)} on ${statement.bench.asset}, a ${machine}.`,
          statement.supervised === 'always' ? 'Only while a supervisor is at the bench.' : '',
          thickness === null ? '' : `Stock up to ${thickness} mm thick.`,
          length === null ? '' : `Stock up to ${length} mm long.`,
        ]
          .filter((sentence) => sentence !== '')
          .join(' '),
        criteria: { narrative: claims.criteria },
        alignment: [...unitAlignments(basis, issuer), ...alignments.map(alignmentOf)],
      },
    },
    evidence: basis.map((one) => evidenceOf(issuer, one.statement as unknown as JsonObject)),
    relatedResource: [
      eventResource(event.id, logged),
      ...basis.flatMap(({ leaf, results, statement: { signoff } }) => [
        leafResource(signoff, leaf),
        resultsResource(signoff, results),
      ]),
    ],
    credentialStatus: claims.status,
  };
}
