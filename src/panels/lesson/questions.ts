import type { LengthUnit } from '../../geometry/index.ts';
import { type Judged, judgeChoice, judgeNumber, judgeOrder } from './judge-answer.ts';

const unitShown = (): LengthUnit =>
  document.documentElement.dataset['unit'] === 'inch' ? 'inch' : 'mm';

/** Told of every answer that could be judged. */
export type Answered = (question: string, verdict: 'right' | 'wrong') => void;

/** Checks an answer in the page and says why; opens the full answer once it is right. */
export function startQuestions(within: ParentNode, answered: Answered): void {
  for (const form of within.querySelectorAll<HTMLFormElement>('form[data-question]')) {
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      const result = judge(form);
      sayVerdict(form, result);
      if (result.verdict === 'unread') return;
      showReasons(form);
      answered(form.dataset['question'] ?? '', result.verdict);
      if (result.verdict !== 'right') return;
      const key = form.parentElement?.querySelector('details');
      if (key) key.open = true;
    });
    // a changed answer has not been checked: what was said of the last one goes
    form.addEventListener('input', () => clear(form));
    form.addEventListener('orderchange', () => clear(form));
  }
}

function judge(form: HTMLFormElement): Judged {
  if (form.dataset['kind'] === 'number') {
    const typed = form.querySelector<HTMLInputElement>('input')?.value ?? '';
    const answer = { mm: Number(form.dataset['answer']), within: Number(form.dataset['within']) };
    return judgeNumber(typed, unitShown(), answer);
  }
  if (form.dataset['kind'] === 'order') {
    const steps = [...form.querySelectorAll<HTMLElement>('li[data-place]')];
    return judgeOrder(steps.map((step) => Number(step.dataset['place'])));
  }
  const inputs = [...form.querySelectorAll<HTMLInputElement>('input')];
  return judgeChoice(
    inputs.map((input) => ({ chosen: input.checked, right: 'right' in input.dataset })),
  );
}

const SAY: Readonly<Record<string, { right: string; wrong: string }>> = {
  choice: { right: 'Right.', wrong: 'Not that one. Read why, and try again.' },
  several: {
    right: 'Right, all of them.',
    wrong: 'Not yet. Read why beside what you chose, and try again.',
  },
  order: {
    right: 'Right, from first to last.',
    wrong: 'Not yet. The steps marked stand in the wrong place.',
  },
  number: {
    right: 'Right.',
    wrong: 'Not yet. Work it out again from the figures in the question.',
  },
};

function sayVerdict(form: HTMLFormElement, result: Judged): void {
  const line = form.querySelector<HTMLElement>('[data-verdict-line]');
  if (line === null) return;
  line.dataset['verdictLine'] = result.verdict;
  const say = SAY[form.dataset['kind'] ?? 'choice'] as { right: string; wrong: string };
  line.textContent = result.verdict === 'unread' ? result.because : say[result.verdict];
}

/** Choices: the reason for each one chosen. Order: the steps that stand in the wrong place. */
function showReasons(form: HTMLFormElement): void {
  const steps = [...form.querySelectorAll<HTMLElement>('li[data-place]')];
  for (const [i, step] of steps.entries()) {
    step.toggleAttribute('data-misplaced', Number(step.dataset['place']) !== i);
  }
  for (const input of form.querySelectorAll<HTMLInputElement>('input[value]')) {
    const why = form.querySelector<HTMLElement>(`[data-why="${input.value}"]`);
    if (why) why.hidden = !input.checked;
  }
}

function clear(form: HTMLFormElement): void {
  const line = form.querySelector<HTMLElement>('[data-verdict-line]');
  if (line) {
    line.textContent = '';
    line.dataset['verdictLine'] = '';
  }
  for (const step of form.querySelectorAll('[data-misplaced]'))
    step.removeAttribute('data-misplaced');
  for (const why of form.querySelectorAll<HTMLElement>('[data-why]')) why.hidden = true;
}
