import { MEASURES } from '../../bench/index.ts';
import {
  achievementIdOf,
  dayEnd,
  dayStart,
  didOf,
  digestMultibase,
  statusEntryOf,
} from '../check/index.ts';
import type { EventOf } from '../events/index.ts';
import type { Statement } from '../statement/statement-schema.ts';

/** A published unit that ours lines up with: its id and name, never its wording. */
export type Alignment = {
  readonly name: string;
  readonly url: string;
  readonly code?: string;
  /** the standard or body it belongs to */
  readonly framework?: string;
};

export const alignmentOf = ({ code, framework, name, url }: Alignment) => ({
  type: ['Alignment'],
  targetName: name,
  targetUrl: url,
  ...(code === undefined ? {} : { targetCode: code }),
  ...(framework === undefined ? {} : { targetFramework: framework }),
});

export type CredentialInput = {
  readonly event: EventOf<'practical.signed'>;
  /** the event just as the log has it, which an older version need not be */
  readonly logged: unknown;
  /** its place in the log */
  readonly index: number;
  readonly keyId: string;
  readonly organisation: string;
  readonly alignments: readonly Alignment[];
};

/** Contexts of both forms of credential. */
export const CONTEXT = [
  'https://www.w3.org/ns/credentials/v2',
  'https://purl.imsglobal.org/spec/ob/v3p0/context-3.0.3.json',
];

const titleOf = (measure: string): string =>
  (MEASURES as Readonly<Record<string, { readonly title: string }>>)[measure]?.title ?? measure;

const describeSettings = ({ settings }: Statement): string =>
  settings
    .map(
      (one) =>
        `${titleOf(one.measure)} ${one.value} ${one.unit}, ${one.verdict} (${one.instrument})`,
    )
    .join('; ');

/** A list of sentences as one, whether or not each brought its own full stop. */
const joinSentences = (sentences: readonly string[]): string =>
  sentences.map((sentence) => sentence.trim().replace(/\.+$/, '')).join('; ');

function describePractical(statement: Statement): string {
  const { bench, blade, conditions, material, observedAt, place, work } = statement;
  const guard = bench.guardKind === 'none' ? 'no crown guard' : `a ${bench.guardKind} crown guard`;
  const measured = describeSettings(statement);
  return [
    `Watched on ${observedAt} at ${place}: ${work}, ${material}, on ${bench.asset}, a ${bench.class} ` +
      `with ${guard}, blade ${blade.diameter} mm with ${blade.teeth} teeth.`,
    measured === '' ? '' : `Measured: ${measured}.`,
    conditions.length === 0 ? '' : `Conditions: ${joinSentences(conditions)}.`,
  ]
    .filter((sentence) => sentence !== '')
    .join(' ');
}

/**
 * A sign-off as a Verifiable Credential 2.0 in the form of an Open Badges 3.0
 * AchievementCredential, not yet signed. The holder is a salted hash; the digest ties it to the
 * whole logged event.
 */
export function credentialOf(input: CredentialInput) {
  const { alignments, event, index, keyId, logged, organisation } = input;
  const { statement } = event.body;
  const issuer = didOf(keyId);
  const { unit } = statement;
  if (statement.validFrom === null || statement.validUntil === null) return null;
  return {
    '@context': CONTEXT,
    id: `urn:uuid:${statement.signoff}`,
    type: ['VerifiableCredential', 'AchievementCredential'],
    name: unit.title,
    description: "Employer's record of supervised competence. Not a licence.",
    issuer: { id: issuer, type: ['Profile'], name: organisation },
    validFrom: dayStart(statement.validFrom),
    validUntil: dayEnd(statement.validUntil),
    awardedDate: event.received,
    credentialSubject: {
      type: ['AchievementSubject'],
      identifier: [
        {
          type: 'IdentityObject',
          hashed: true,
          identityHash: statement.who.nameHash,
          identityType: 'name',
        },
      ],
      source: { id: `${issuer}/person/${statement.trainer.person}`, type: ['Profile'] },
      achievement: {
        id: achievementIdOf(issuer, unit),
        type: ['Achievement'],
        achievementType: 'Competency',
        humanCode: unit.id,
        version: unit.version,
        name: unit.title,
        description: `${unit.title}: ${statement.work}, on ${statement.bench.asset}.`,
        criteria: { narrative: statement.criteria.map(({ text }) => `- ${text}`).join('\n') },
        alignment: alignments.map(alignmentOf),
      },
    },
    evidence: [
      {
        id: `urn:uuid:${event.id}`,
        type: ['Evidence'],
        name: 'Practical watched at the machine by the trainer named as source',
        genre: 'practical',
        narrative: describePractical(statement),
      },
    ],
    relatedResource: [
      {
        id: `urn:uuid:${event.id}`,
        mediaType: 'application/json',
        digestMultibase: digestMultibase(logged),
      },
    ],
    credentialStatus: statusEntryOf(issuer, index),
  };
}
