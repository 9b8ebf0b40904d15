import { cosignMeaningOf } from '../../records/check/index.ts';
import type { Cosign } from '../../records/index.ts';
import { statementHashOf } from '../signing/index.ts';
import type { CosignProps } from './cosign-props.ts';

/** What was chosen and typed in the form. */
export type CosignAnswer = {
  readonly id: string;
  readonly answer: Cosign['answer'];
  readonly note: string | null;
};

/** What a second trainer signs, made from the record on the screen and nothing else. */
export function writeCosign({ statement, trainer }: CosignProps, given: CosignAnswer): Cosign {
  const unsaid = {
    schema: 'cosign/1' as const,
    id: given.id,
    org: statement.org,
    signoff: statement.signoff,
    statementHash: statementHashOf(statement),
    unit: statement.unit.title,
    trainer: { person: trainer.person, nameHash: trainer.nameHash, role: 'trainer' as const },
    answer: given.answer,
    note: given.note,
  };
  return { ...unsaid, meaning: cosignMeaningOf(unsaid) };
}
