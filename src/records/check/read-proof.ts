import {
  AUTHORISATION_PROOF_FORMAT,
  type AuthorisationParts,
  readAuthorisationParts,
} from './authorisation-file.ts';
import { groupAt, ShapeError, valueAt } from './json-shape.ts';
import { PROOF_FORMAT, type ProofParts, readPracticalParts } from './proof-file.ts';

/**
 * The parts of a proof file of unknown shape, of a sign-off or of leave to work.
 * @throws ShapeError naming the field and what it must be
 */
export function readProofParts(value: unknown): ProofParts | AuthorisationParts {
  const file = groupAt(value);
  const format = valueAt(file, 'format');
  if (format === PROOF_FORMAT) return readPracticalParts(file);
  if (format === AUTHORISATION_PROOF_FORMAT) return readAuthorisationParts(file);
  throw new ShapeError(`format must be "${PROOF_FORMAT}" or "${AUTHORISATION_PROOF_FORMAT}"`);
}
