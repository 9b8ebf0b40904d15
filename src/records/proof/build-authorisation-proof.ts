import {
  AUTHORISATION_PROOF_FORMAT,
  type AuthorisationProofFile,
  addProof,
  type BasisShown,
  didOf,
  type JsonObject,
  type ResultsShown,
  type ShownLevel,
  type ShownName,
  type Signer,
  toBase64,
  verifyProof,
} from '../check/index.ts';
import type { Statement } from '../statement/statement-schema.ts';
import { authorisationCredentialOf } from './authorisation-credential.ts';
import { openEntry, ProofError, type ProvedEntry, placeOf } from './build-proof.ts';
import type { Alignment } from './credential.ts';

export type AuthorisationProofInput = {
  /** authorisation.given */
  readonly authorisation: ProvedEntry;
  /** authorisation.seconded that agrees, or null */
  readonly second: ProvedEntry | null;
  /** practical.signed of every sign-off it rests on, with device-key.enrolled of its key; in any order */
  readonly basis: readonly { readonly signoff: ProvedEntry; readonly enrolment: ProvedEntry }[];
  /** signed note all paths lead to */
  readonly checkpoint: string;
  /** name of the employer, as the credential shows it */
  readonly organisation: string;
  /** how much of the practicals the file shows */
  readonly shown: ShownLevel;
  /** names to show; leave one out to keep it back */
  readonly names: AuthorisationProofFile['names'];
  readonly alignments: readonly Alignment[];
  /** newest status lists */
  readonly status: AuthorisationProofFile['status'];
  /** now, as toISOString writes it */
  readonly issuedAt: string;
  /** a fresh salt of 32 hexadecimal digits at each call */
  readonly salt: () => string;
};

type Opened = {
  readonly statement: Statement;
  readonly event: JsonObject;
  readonly signoff: ProvedEntry;
  readonly enrolment: ProvedEntry;
  readonly results: ResultsShown;
};

const cutResults = ({ conditions, criteria, signoff }: Statement, salt: string): ResultsShown => ({
  salt,
  signoff,
  criteria: criteria.map(({ id, result, text }) => ({ id, text, result })),
  conditions,
});

function openBasis({ basis, salt }: AuthorisationProofInput, ids: readonly string[]): Opened[] {
  const opened = basis.map(({ enrolment, signoff }): Opened => {
    const { event, logged } = openEntry(signoff.entry, 'practical.signed');
    const { statement } = event.body;
    return { statement, event: logged, signoff, enrolment, results: cutResults(statement, salt()) };
  });
  return ids.map((id) => {
    const found = opened.find(({ statement }) => statement.signoff === id);
    if (found === undefined)
      throw new ProofError('A practical that the authorisation rests on cannot be found.');
    return found;
  });
}

const loggedOf = (proved: ProvedEntry) => ({
  event: JSON.parse(proved.entry.text) as JsonObject,
  ...placeOf(proved),
});

/** The practicals as far as they are to be shown, and the enrolments of the keys that signed those. */
function showBasis(opened: readonly Opened[], shown: ShownLevel) {
  if (shown !== 'all') {
    const basis = opened.map(({ results, signoff }): BasisShown => {
      const common = { leaf: toBase64(signoff.entry.leafHash), ...placeOf(signoff) };
      return shown === 'results' ? { shown, results, ...common } : { shown, ...common };
    });
    return { basis, enrolments: [] };
  }
  const places = [...new Set(opened.map(({ enrolment }) => enrolment.entry.index))];
  const enrolments = places.map((index) =>
    loggedOf((opened.find(({ enrolment }) => enrolment.entry.index === index) as Opened).enrolment),
  );
  const basis = opened.map(
    ({ enrolment, event, signoff }): BasisShown => ({
      shown,
      event,
      enrolment: places.indexOf(enrolment.entry.index),
      ...placeOf(signoff),
    }),
  );
  return { basis, enrolments };
}

/** Only names asked for; an empty list is left out. */
function pickNames({ giver, trainee, trainers = [] }: AuthorisationProofInput['names']) {
  const shown = (who: string, name: ShownName | undefined) =>
    name === undefined ? {} : { [who]: name };
  return {
    ...shown('trainee', trainee),
    ...shown('giver', giver),
    ...(trainers.length === 0 ? {} : { trainers }),
  };
}

/**
 * The proof file of leave to work, signed with the site's key. It is checked before it is handed out: a
 * proof that its own check would call altered is never made.
 *
 * @throws ProofError when the parts do not belong together
 */
export async function buildAuthorisationProof(
  input: AuthorisationProofInput,
  key: Signer,
): Promise<AuthorisationProofFile> {
  const { alignments, authorisation, checkpoint, issuedAt, organisation, second, shown } = input;
  const { event, logged } = openEntry(authorisation.entry, 'authorisation.given');
  const opened = openBasis(input, event.body.statement.basis);
  const issuer = didOf(key.keyId);
  const unsigned = authorisationCredentialOf({
    event,
    logged,
    index: authorisation.entry.index,
    basis: opened.map(({ results, signoff, statement }) => ({
      statement,
      leaf: signoff.entry.leafHash,
      results,
    })),
    keyId: key.keyId,
    organisation,
    alignments,
  });
  const file: AuthorisationProofFile = {
    format: AUTHORISATION_PROOF_FORMAT,
    credential: await addProof(unsigned, key, { created: issuedAt, issuer }),
    event: logged,
    log: { checkpoint, event: placeOf(authorisation) },
    second: second === null ? null : loggedOf(second),
    ...showBasis(opened, shown),
    names: pickNames(input.names),
    status: input.status,
  };
  const { sentence, verdict } = await verifyProof(file, { trusted: [issuer], at: issuedAt });
  if (verdict === 'altered') throw new ProofError(sentence);
  return file;
}
