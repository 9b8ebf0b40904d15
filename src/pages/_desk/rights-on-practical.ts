import { can, type Viewer } from '../../accounts/index.ts';
import type { StoryLine } from '../../components/practical/story-line.ts';
import { ANSWERS, type Answer } from './answer-practical.ts';
import type { SignedEvent } from './proof-of.ts';
import { openAppeals } from './story-of.ts';

/** What one viewer may do with one signed practical as it stands: what the page offers them, and no more. */
export type PracticalRights = {
  readonly mayWithdraw: boolean;
  readonly mayCosign: boolean;
  /** a new practical of the same person by this trainer */
  readonly mayWatchAgain: boolean;
  /** answers that the person watched has not given */
  readonly answers: readonly Answer[];
  /** appeals this viewer may settle */
  readonly appeals: readonly StoryLine[];
  /** an appeal is open, and this viewer signed what it is about */
  readonly isAppealTheirs: boolean;
};

export function rightsOn(
  signed: SignedEvent,
  story: readonly StoryLine[],
  viewer: Viewer,
): PracticalRights {
  const { person } = signed.body.statement.who;
  const subject = { org: viewer.org, person };
  const isSigner = signed.by === viewer.person;
  const isWithdrawn = story.some(({ kind }) => kind === 'withdrawn');
  const hasCosigned = story.some(({ kind, by }) => kind === 'cosigned' && by === viewer.person);
  const appeals = openAppeals(story);
  const said = story.flatMap((line) => (line.kind === 'answered' ? [line.answer] : []));
  return {
    mayWithdraw: !isWithdrawn && can(viewer, 'practical.withdraw', subject),
    mayCosign:
      !isSigner && !isWithdrawn && !hasCosigned && can(viewer, 'practical.cosign', subject),
    mayWatchAgain: can(viewer, 'practical.write', subject),
    answers: can(viewer, 'practical.answer', subject)
      ? ANSWERS.filter((answer) => !said.includes(answer))
      : [],
    appeals: !isSigner && can(viewer, 'appeal.settle', subject) ? appeals : [],
    isAppealTheirs: isSigner && appeals.length > 0,
  };
}
