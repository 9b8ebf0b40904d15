import {
  addProof,
  type Bytes,
  didOf,
  PROOF_FORMAT,
  type ProofFile,
  type ShownName,
  type Signer,
  type StatusList,
  toBase64,
  verifyProof,
} from '../check/index.ts';
import { type EventKindName, type EventOf, type LogEntry, readEvent } from '../events/index.ts';
import { type Alignment, credentialOf } from './credential.ts';

/** An event out of the log with its audit path to the checkpoint. */
export type ProvedEntry = { readonly entry: LogEntry; readonly path: readonly Bytes[] };

export type ProofInput = {
  /** practical.signed */
  readonly signoff: ProvedEntry;
  /** device-key.enrolled of the key that signed */
  readonly enrolment: ProvedEntry;
  /** signed note both paths lead to */
  readonly checkpoint: string;
  /** name of the employer, as the credential shows it */
  readonly organisation: string;
  /** names to show; leave one out to keep it back */
  readonly names: { readonly trainee?: ShownName; readonly trainer?: ShownName };
  readonly alignments: readonly Alignment[];
  /** newest status list, or null */
  readonly status: StatusList | null;
  /** now, as toISOString writes it */
  readonly issuedAt: string;
};

/** A proof that cannot be made; the message says why in one sentence. */
export class ProofError extends Error {
  override readonly name = 'ProofError';
}

/** An entry of the log as the log has it and as the newest version reads it. @throws ProofError */
export function openEntry<Kind extends EventKindName>(entry: LogEntry, kind: Kind) {
  const logged: unknown = JSON.parse(entry.text);
  const read = readEvent(logged);
  if (!read.ok)
    throw new ProofError(`Event ${entry.index} of the log cannot be read: ${read.error.message}`);
  if (read.event.kind !== kind)
    throw new ProofError(`Event ${entry.index} of the log must be ${kind}.`);
  return { logged: logged as ProofFile['event'], event: read.event as unknown as EventOf<Kind> };
}

/** Where an entry lies, as a proof file spells it. */
export const placeOf = ({ entry, path }: ProvedEntry) => ({
  index: entry.index,
  path: path.map(toBase64),
});

/**
 * The proof file of one sign-off, signed with the site's key. It is checked before it is handed
 * out: a proof that its own check would call altered is never made.
 *
 * @throws ProofError when the parts do not belong together or the practical was not signed off
 */
export async function buildProof(input: ProofInput, key: Signer): Promise<ProofFile> {
  const { alignments, checkpoint, enrolment, issuedAt, names, organisation, signoff, status } =
    input;
  const { event, logged } = openEntry(signoff.entry, 'practical.signed');
  const enrolled = openEntry(enrolment.entry, 'device-key.enrolled');
  const unsigned = credentialOf({
    event,
    logged,
    index: signoff.entry.index,
    keyId: key.keyId,
    organisation,
    alignments,
  });
  if (unsigned === null)
    throw new ProofError('There is no proof of a practical that was not signed off.');
  const issuer = didOf(key.keyId);
  const file: ProofFile = {
    format: PROOF_FORMAT,
    credential: await addProof(unsigned, key, { created: issuedAt, issuer }),
    event: logged,
    enrolment: enrolled.logged,
    log: { checkpoint, event: placeOf(signoff), enrolment: placeOf(enrolment) },
    names,
    status,
  };
  const { sentence, verdict } = await verifyProof(file, { trusted: [issuer], at: issuedAt });
  if (verdict === 'altered') throw new ProofError(sentence);
  return file;
}
