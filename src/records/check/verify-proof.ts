import { NotCanonicalError } from './canonical.ts';
import {
  findFaultInEnrolment,
  findFaultInLog,
  findFaultInMatch,
  findFaultInSignoff,
} from './check-evidence.ts';
import { checkStatus, type StatusFinding } from './check-status.ts';
import { openCheckpoint } from './checkpoint.ts';
import { verifyProofOf } from './data-integrity.ts';
import { publicKeyOfDid, verificationMethodOf } from './did-key.ts';
import { groupAt, ShapeError, textAt } from './json-shape.ts';
import { nameHash } from './name-hash.ts';
import { type ProofParts, readProofParts, type ShownName } from './proof-file.ts';
import {
  CANNOT_KNOW,
  type Check,
  type CheckId,
  type ProvedRecord,
  type Verdict,
} from './verdict.ts';

export type VerifyOptions = {
  /** did:key of every signer this reader trusts. Never taken from the file */
  readonly trusted: readonly string[];
  /** the moment the question is about, as toISOString writes it */
  readonly at: string;
};

const judge = (id: CheckId, fault: string | null, holds: string): Check =>
  fault === null ? { id, state: 'ok', sentence: holds } : { id, state: 'failed', sentence: fault };

const CHECKPOINT_FAULTS = {
  malformed: 'The checkpoint is not a signed note.',
  'unknown-signer': 'The checkpoint is not signed by a key that counts here.',
  'bad-signature': 'The checkpoint is not what its signer signed.',
} as const;

/** Everything that does not depend on trust or date. The one key is the issuer's. */
async function checkIntegrity(parts: ProofParts): Promise<Check[]> {
  const { credential, issuer, issuerKey } = parts;
  const isSigned = await verifyProofOf(credential, issuerKey, verificationMethodOf(issuer));
  const opened = await openCheckpoint(parts.checkpoint, [issuerKey]);
  const logged = opened.ok
    ? [
        judge(
          'checkpoint',
          null,
          `The checkpoint of the log at ${opened.checkpoint.size} events is as signed.`,
        ),
        judge(
          'log',
          findFaultInLog(parts, opened.checkpoint),
          'The sign-off is in that log, unaltered.',
        ),
        judge(
          'enrolment',
          findFaultInEnrolment(parts, opened.checkpoint),
          "The trainer's device key was enrolled in that log before it signed.",
        ),
      ]
    : [judge('checkpoint', CHECKPOINT_FAULTS[opened.why], '')];
  return [
    judge(
      'credential',
      isSigned ? null : 'The credential is not what its issuer signed.',
      'The credential is as its issuer signed it.',
    ),
    ...logged,
    judge(
      'device',
      await findFaultInSignoff(parts),
      "The statement is as the trainer's device signed it, and the trainer is not the person signed off.",
    ),
    judge('match', findFaultInMatch(parts), 'The credential and the statement say the same.'),
  ];
}

function checkName(parts: ProofParts, who: 'trainee' | 'trainer', shown: ShownName | null): Check {
  const field = who === 'trainee' ? 'who' : 'trainer';
  if (shown === null)
    return { id: who, state: 'unknown', sentence: `The file does not show the ${who}'s name.` };
  const isHash = /^[0-9a-f]{32}$/.test(shown.salt);
  const signed = textAt(parts.event, 'body', 'statement', field, 'nameHash');
  const holds = isHash && nameHash(shown.name, shown.salt) === signed;
  return judge(
    who,
    holds ? null : `The ${who}'s name is not the one signed for.`,
    `The ${who}'s name is the one signed for.`,
  );
}

function readRecord({ credential, event, names }: ProofParts): ProvedRecord {
  const statement = groupAt(event, 'body', 'statement');
  return {
    trainee: names.trainee?.name ?? null,
    trainer: names.trainer?.name ?? null,
    organisation: textAt(credential, 'issuer', 'name'),
    signoff: textAt(statement, 'signoff'),
    unit: textAt(statement, 'unit', 'title'),
    work: textAt(statement, 'work'),
    bench: textAt(statement, 'bench', 'asset'),
    observedAt: textAt(statement, 'observedAt'),
    validFrom: textAt(statement, 'validFrom'),
    validUntil: textAt(statement, 'validUntil'),
  };
}

type Period = 'before' | 'within' | 'after';

function findPeriod({ validFrom, validUntil }: ProvedRecord, at: string): Period {
  const day = at.slice(0, 10);
  if (day < validFrom) return 'before';
  return day > validUntil ? 'after' : 'within';
}

function describePeriod(
  period: Period,
  { validFrom, validUntil }: ProvedRecord,
  at: string,
): Check {
  const day = at.slice(0, 10);
  if (period === 'within')
    return judge('period', null, `${day} lies within ${validFrom} to ${validUntil}.`);
  if (period === 'after') return judge('period', `It ended on ${validUntil}.`, '');
  return {
    id: 'period',
    state: 'unknown',
    sentence: `It begins on ${validFrom} and says nothing of ${day}.`,
  };
}

/** A moment as people read it; anything else stays as it is. */
const sayMoment = (at: string): string =>
  /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/.test(at)
    ? `${at.slice(0, 10)} ${at.slice(11, 16)} UTC`
    : at;

function describeStatus(found: StatusFinding): Check {
  const id = 'withdrawal';
  if (found.state === 'altered')
    return judge(id, "The status list is not the issuer's, or was altered.", '');
  if (found.state === 'withdrawn')
    return judge(id, `It was withdrawn, by the status list of ${sayMoment(found.asOf)}.`, '');
  if (found.state === 'in-force')
    return judge(id, null, `It had not been withdrawn on ${sayMoment(found.asOf)}.`);
  return {
    id,
    state: 'unknown',
    sentence: `Nothing is known of a withdrawal after ${sayMoment(found.asOf)}.`,
  };
}

const finish = (rest: Omit<Verdict, 'cannotKnow'>): Verdict => ({
  ...rest,
  cannotKnow: CANNOT_KNOW,
});

const altered = (checks: readonly Check[], why: string): Verdict =>
  finish({
    verdict: 'altered',
    asOf: null,
    record: null,
    checks,
    sentence: `Altered. Do not rely on this file. ${why}`,
  });

async function judgeParts(parts: ProofParts, { at, trusted }: VerifyOptions): Promise<Verdict> {
  const isTrusted = trusted.includes(parts.issuer);
  const checks: Check[] = [
    judge('form', null, 'The file has the form of a proof.'),
    judge(
      'signer',
      isTrusted ? null : 'The signer is not in the list of signers you trust.',
      'The signer is in the list of signers you trust.',
    ),
    // A strange signer's key is tried too, only to tell a strange file from a damaged one.
    ...(await checkIntegrity(parts)),
    checkName(parts, 'trainee', parts.names.trainee),
    checkName(parts, 'trainer', parts.names.trainer),
  ];
  const status = await checkStatus(parts, at);
  const broken = checks.find((check) => check.state === 'failed' && check.id !== 'signer');
  if (broken !== undefined) return altered(checks, broken.sentence);
  const withdrawal = describeStatus(status);
  if (status.state === 'altered') return altered([...checks, withdrawal], withdrawal.sentence);

  const record = readRecord(parts);
  const period = findPeriod(record, at);
  const all = { checks: [...checks, describePeriod(period, record, at), withdrawal], record };
  if (!isTrusted) {
    const sentence = `Not from a trusted signer. The file is whole, but ${parts.issuer} is not in your list.`;
    return finish({
      ...all,
      record: null,
      verdict: 'not from a trusted signer',
      asOf: null,
      sentence,
    });
  }
  if (status.state === 'withdrawn') {
    const sentence = `Withdrawn. The record was genuine, and no longer holds.`;
    return finish({ ...all, verdict: 'withdrawn', asOf: null, sentence });
  }
  if (period === 'after') {
    const sentence = `Ended. The record is genuine, and held until ${record.validUntil}.`;
    return finish({ ...all, verdict: 'ended', asOf: null, sentence });
  }
  if (period === 'before' || status.state === 'unknown') {
    const asOf = period === 'before' ? at : status.asOf;
    const sentence = `Unknown as of ${sayMoment(asOf)}. The record is genuine; whether it holds cannot be told from this file.`;
    return finish({ ...all, verdict: 'unknown as of a date', asOf, sentence });
  }
  const sentence = `Genuine. The record is as signed and logged, holds until ${record.validUntil}, and had not been withdrawn on ${sayMoment(status.asOf)}.`;
  return finish({ ...all, verdict: 'genuine', asOf: null, sentence });
}

/**
 * Checks a proof file of unknown shape, with no network and no schema library. Only the keys given
 * are trusted, never the one found in the file. Never throws for a bad file.
 *
 * @throws RangeError when `at` is not a moment or `trusted` holds something that is not a did:key
 */
export async function verifyProof(file: unknown, options: VerifyOptions): Promise<Verdict> {
  if (!Number.isFinite(Date.parse(options.at))) throw new RangeError('at must be a moment.');
  const strange = options.trusted.find((did) => publicKeyOfDid(did) === null);
  if (strange !== undefined)
    throw new RangeError(`${strange} must be the did:key of an Ed25519 key.`);
  try {
    return await judgeParts(readProofParts(file), options);
  } catch (error) {
    if (!(error instanceof ShapeError) && !(error instanceof NotCanonicalError)) throw error;
    const sentence = `${error.message.replace(/\.$/, '')}.`;
    return altered([{ id: 'form', state: 'failed', sentence }], sentence);
  }
}
