import english from '../../../content/messages/en/progress.json' with { type: 'json' };
import type { Remembered } from '../../assessment/review/index.ts';
import { sayFrom } from '../../words/spoken.ts';
import { startAnswering } from '../lesson/answering.ts';
import { writeAnswer } from '../lesson/book/index.ts';
import { titleOf } from '../lesson/course-list.ts';
import { fetchQuestion } from './fetch-question.ts';

const say = sayFrom('progress', english);

/** Questions in one row. */
export const MOST_IN_A_ROW = 10;

export type Asked = { readonly ask: Remembered; readonly section: HTMLElement };

const hrefOf = (lesson: string): string =>
  document.querySelector<HTMLElement>(`[data-stop="${lesson}"]`)?.dataset['href'] ?? '';

/** The questions that could be fetched, in their order. */
export async function fetchRound(due: readonly Remembered[]): Promise<Asked[]> {
  const fetched = await Promise.all(
    due.slice(0, MOST_IN_A_ROW).map(async (ask) => {
      const section = await fetchQuestion(hrefOf(ask.lesson), ask.question);
      return section === null ? [] : [{ ask, section }];
    }),
  );
  return fetched.flat();
}

/** What a round needs of its page. */
export type Stage = {
  readonly box: HTMLElement;
  /** "Question 1 of 7, from the lesson" with the link to it */
  readonly place: HTMLElement;
  readonly onward: HTMLButtonElement;
  /** shows lengths of new markup in the unit in force */
  readonly showLengths: (within: ParentNode) => void;
};

function tellPlace({ place }: Stage, lesson: string, at: number, count: number): void {
  const link = document.createElement('a');
  link.href = hrefOf(lesson);
  link.textContent = titleOf(lesson);
  place.replaceChildren(`${say('again.place', { at, count })} `, link);
  place.focus();
}

/** Puts one question on the page until it has been answered and left. Whether the first answer was right. */
function askOne(stage: Stage, { ask, section }: Asked, isLast: boolean): Promise<boolean> {
  const { box, onward } = stage;
  let isRight: boolean | null = null;
  box.replaceChildren(section);
  stage.showLengths(box);
  onward.hidden = true;
  onward.textContent = (isLast ? onward.dataset['last'] : onward.dataset['more']) ?? '';
  startAnswering(box, (question, verdict) => {
    writeAnswer(ask.lesson, question, verdict === 'right');
    // the first answer is what was remembered; the next ones were read
    isRight ??= verdict === 'right';
    onward.hidden = false;
  });
  return new Promise((done) => {
    onward.addEventListener('click', () => done(isRight ?? false), { once: true });
  });
}

/** Asks one after the other. How many were right at the first try. */
export async function askRound(stage: Stage, round: readonly Asked[]): Promise<number> {
  let right = 0;
  for (const [i, asked] of round.entries()) {
    tellPlace(stage, asked.ask.lesson, i + 1, round.length);
    if (await askOne(stage, asked, i === round.length - 1)) right += 1;
  }
  stage.box.replaceChildren();
  stage.onward.hidden = true;
  stage.place.replaceChildren();
  return right;
}
