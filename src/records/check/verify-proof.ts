import { NotCanonicalError } from './canonical.ts';
import {
  describePeriod,
  describeStatus,
  findPeriod,
  readRecord,
  sayMoment,
} from './check-holding.ts';
import { checkIntegrity, checkName } from './check-integrity.ts';
import { checkStatus } from './check-status.ts';
import { publicKeyOfDid } from './did-key.ts';
import { ShapeError } from './json-shape.ts';
import type { ProofParts } from './proof-file.ts';
import { readProofParts } from './read-proof.ts';
import { CANNOT_KNOW, type Check, checkSigner, type Verdict } from './verdict.ts';
import { judgeAuthorisation } from './verify-authorisation.ts';

export type VerifyOptions = {
  /** did:key of every signer this reader trusts. Never taken from the file */
  readonly trusted: readonly string[];
  /** the moment the question is about; days are those of UTC */
  readonly at: string;
};

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
    ...checkSigner(isTrusted),
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
  const at = Date.parse(options.at);
  if (!Number.isFinite(at)) throw new RangeError('at must be a moment.');
  const strange = options.trusted.find((did) => publicKeyOfDid(did) === null);
  if (strange !== undefined)
    throw new RangeError(`${strange} must be the did:key of an Ed25519 key.`);
  try {
    const parts = readProofParts(file);
    const question = { ...options, at: new Date(at).toISOString() };
    return await (parts.kind === 'practical'
      ? judgeParts(parts, question)
      : judgeAuthorisation(parts, question));
  } catch (error) {
    if (!(error instanceof ShapeError) && !(error instanceof NotCanonicalError)) throw error;
    const sentence = `${error.message.replace(/\.$/, '')}.`;
    return altered([{ id: 'form', state: 'failed', sentence }], sentence);
  }
}
