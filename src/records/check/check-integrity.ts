import {
  findFaultInEnrolment,
  findFaultInLog,
  findFaultInMatch,
  findFaultInSignoff,
} from './check-evidence.ts';
import { isNameOf } from './check-names.ts';
import { openCheckpoint } from './checkpoint.ts';
import { verifyProofOf } from './data-integrity.ts';
import { verificationMethodOf } from './did-key.ts';
import { textAt } from './json-shape.ts';
import type { ProofParts, ShownName } from './proof-file.ts';
import { type Check, judge } from './verdict.ts';

/** Why a checkpoint does not count. */
export const CHECKPOINT_FAULTS = {
  malformed: 'The checkpoint is not a signed note.',
  'unknown-signer': 'The checkpoint is not signed by a key that counts here.',
  'bad-signature': 'The checkpoint is not what its signer signed.',
} as const;

/** Everything that does not depend on trust or date. The one key is the issuer's. */
export async function checkIntegrity(parts: ProofParts): Promise<Check[]> {
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

/** Whether a name shown is the one that was signed for. */
export function checkName(
  parts: ProofParts,
  who: 'trainee' | 'trainer',
  shown: ShownName | null,
): Check {
  const field = who === 'trainee' ? 'who' : 'trainer';
  if (shown === null)
    return { id: who, state: 'unknown', sentence: `The file does not show the ${who}'s name.` };
  const holds = isNameOf(shown, textAt(parts.event, 'body', 'statement', field, 'nameHash'));
  return judge(
    who,
    holds ? null : `The ${who}'s name is not the one signed for.`,
    `The ${who}'s name is the one signed for.`,
  );
}
