import type { AuthorisationParts } from './authorisation-file.ts';
import { findFaultInClaims, findFaultInGiving, findFaultInSecond } from './check-authorisation.ts';
import { describeLeftOut, findFaultInBasis, findFaultInShown } from './check-basis.ts';
import { describePeriod, findPeriod, sayMoment } from './check-holding.ts';
import { CHECKPOINT_FAULTS } from './check-integrity.ts';
import { checkGivers } from './check-names.ts';
import { checkStanding, describeStanding } from './check-standing.ts';
import { type Checkpoint, openCheckpoint } from './checkpoint.ts';
import { verifyProofOf } from './data-integrity.ts';
import { verificationMethodOf } from './did-key.ts';
import { readAuthorisation } from './read-authorisation.ts';
import {
  CANNOT_KNOW,
  CANNOT_KNOW_LEFT_OUT,
  type Check,
  checkSigner,
  judge,
  type Verdict,
} from './verdict.ts';

/** The signatures of trainers that the file shows; with none shown there is nothing to look at. */
async function describeShown(parts: AuthorisationParts, checkpoint: Checkpoint): Promise<Check> {
  const id = 'device';
  if (parts.basis.every(({ shown }) => shown !== 'all')) {
    return {
      id,
      state: 'unknown',
      sentence: "The file shows no practical whole, so no trainer's signature could be checked.",
    };
  }
  const fault = await findFaultInShown(parts, checkpoint);
  return judge(id, fault, "Every practical shown whole is as its trainer's device signed it.");
}

/** Everything that does not depend on trust or date. The one key is the issuer's. */
async function checkWhole(parts: AuthorisationParts): Promise<Check[]> {
  const { credential, issuer, issuerKey, second } = parts;
  const isSigned = await verifyProofOf(credential, issuerKey, verificationMethodOf(issuer));
  const opened = await openCheckpoint(parts.checkpoint, [issuerKey]);
  const signed = judge(
    'credential',
    isSigned ? null : 'The credential is not what its issuer signed.',
    'The credential is as its issuer signed it.',
  );
  if (!opened.ok) return [signed, judge('checkpoint', CHECKPOINT_FAULTS[opened.why], '')];
  const { checkpoint } = opened;
  return [
    signed,
    judge(
      'checkpoint',
      null,
      `The checkpoint of the log at ${checkpoint.size} events is as signed.`,
    ),
    judge(
      'log',
      findFaultInGiving(parts, checkpoint),
      'The authorisation is in that log, unaltered, and was given by somebody else.',
    ),
    judge(
      'basis',
      findFaultInBasis(parts, checkpoint),
      'Every practical it rests on was in that log before it.',
    ),
    await describeShown(parts, checkpoint),
    second === null
      ? { id: 'second', state: 'unknown', sentence: 'The file shows no second person who agreed.' }
      : judge(
          'second',
          findFaultInSecond(parts, checkpoint),
          'A second person agreed to it, in the same log.',
        ),
    judge('match', findFaultInClaims(parts), 'The credential and the authorisation say the same.'),
  ];
}

/**
 * Judges the proof of leave to work.
 * @throws ShapeError, NotCanonicalError for parts that are not what they should be
 */
export async function judgeAuthorisation(
  parts: AuthorisationParts,
  { at, trusted }: { readonly at: string; readonly trusted: readonly string[] },
): Promise<Verdict> {
  const isTrusted = trusted.includes(parts.issuer);
  const leftOut = describeLeftOut(parts);
  const cannotKnow = leftOut.every(({ state }) => state === 'ok')
    ? CANNOT_KNOW
    : [...CANNOT_KNOW, CANNOT_KNOW_LEFT_OUT];
  const checks: Check[] = [
    ...checkSigner(isTrusted),
    ...(await checkWhole(parts)),
    ...checkGivers(parts),
  ];
  const standing = await checkStanding(parts, at);
  const word = describeStanding(standing);
  const broken = [...checks, ...(standing.state === 'altered' ? [word] : [])].find(
    ({ id, state }) => state === 'failed' && id !== 'signer',
  );
  if (broken !== undefined || standing.state === 'altered') {
    const why = broken?.sentence ?? word.sentence;
    const sentence = `Altered. Do not rely on this file. ${why}`;
    return { verdict: 'altered', asOf: null, sentence, record: null, checks, cannotKnow };
  }
  const record = readAuthorisation(parts);
  const period = findPeriod(record, at);
  const all = [...checks, ...leftOut, describePeriod(period, record, at), word];
  const say = (
    verdict: Verdict['verdict'],
    sentence: string,
    asOf: string | null = null,
  ): Verdict => ({ verdict, asOf, sentence, record, checks: all, cannotKnow });
  if (!isTrusted) {
    const sentence = `Not from a trusted signer. The file is whole, but ${parts.issuer} is not in your list.`;
    return { ...say('not from a trusted signer', sentence), record: null };
  }
  if (standing.state === 'withdrawn') {
    return say(
      'withdrawn',
      'Withdrawn. The record was genuine, and a practical it rests on no longer holds.',
    );
  }
  if (standing.state === 'ended')
    return say('ended', 'Ended before its time. The record is genuine, and no longer holds.');
  if (period === 'after') {
    return say('ended', `Ended. The record is genuine, and held until ${record.validUntil}.`);
  }
  if (standing.state === 'suspended') {
    return say(
      'withdrawn',
      'Withdrawn for now. The record is genuine, and rests: it does not hold until it is refreshed.',
    );
  }
  if (period === 'before' || standing.state === 'unknown') {
    const asOf = period === 'before' ? at : standing.asOf;
    return say(
      'unknown as of a date',
      `Unknown as of ${sayMoment(asOf)}. The record is genuine; whether it holds cannot be told from this file.`,
      asOf,
    );
  }
  return say(
    'genuine',
    `Genuine. The record is as given and logged, holds until ${record.validUntil}, and had not been ended, and did not rest, on ${sayMoment(standing.asOf)}.`,
  );
}
