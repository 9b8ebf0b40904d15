import { pageUnit } from '../../words/spoken.ts';
import {
  type Judged,
  judgeChoice,
  judgeLength,
  judgeMatch,
  judgeNumber,
  judgeOrder,
} from './judge-answer.ts';
import { judgeMark, sayOff, showAnswer } from './mark.ts';
import { say } from './words.ts';

/** Told of every answer that could be judged. */
export type Answered = (question: string, verdict: 'right' | 'wrong') => void;
const markOf = (form: HTMLElement) => form.querySelector<HTMLElement>('[data-mark]');
const pairsOf = (form: HTMLElement) => [...form.querySelectorAll<HTMLElement>('.match li')];

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
      const mark = markOf(form);
      if (mark) showAnswer(mark);
      const key = form.parentElement?.querySelector('details');
      if (key) key.open = true;
    });
    // a changed answer has not been checked: what was said of the last one goes
    for (const change of ['input', 'orderchange', 'markchange'])
      form.addEventListener(change, () => clear(form));
  }
}

/** What stands in the form, judged. */
export function judge(form: HTMLFormElement): Judged {
  const { kind, unit } = form.dataset;
  const answer = { value: Number(form.dataset['answer']), within: Number(form.dataset['within']) };
  if (kind === 'number') {
    const typed = form.querySelector<HTMLInputElement>('input')?.value ?? '';
    return unit === 'mm' ? judgeLength(typed, pageUnit(), answer) : judgeNumber(typed, answer);
  }
  if (kind === 'order') {
    const steps = [...form.querySelectorAll<HTMLElement>('li[data-place]')];
    return judgeOrder(steps.map((step) => Number(step.dataset['place'])));
  }
  if (kind === 'match') {
    const chosen = pairsOf(form).map((pair) => pair.querySelector('select')?.value ?? '');
    return judgeMatch(chosen.map((value) => (value === '' ? null : Number(value))));
  }
  if (kind === 'mark') {
    const field = markOf(form);
    return field === null
      ? { verdict: 'unread', because: say('mark.none') }
      : judgeMark(field, answer.within);
  }
  const inputs = [...form.querySelectorAll<HTMLInputElement>('input')];
  return judgeChoice(
    inputs.map((input) => ({ chosen: input.checked, right: 'right' in input.dataset })),
  );
}

function tell(kind: string, result: Judged): string {
  if (result.verdict === 'unread') return result.because;
  const off = result.off === undefined ? '' : sayOff(result.off);
  return say.maybe(`say.${kind}.${result.verdict}`, { off }) ?? '';
}

function sayVerdict(form: HTMLFormElement, result: Judged): void {
  const line = form.querySelector<HTMLElement>('[data-verdict-line]');
  if (line === null) return;
  line.dataset['verdictLine'] = result.verdict;
  line.textContent = tell(form.dataset['kind'] ?? 'choice', result);
}

/** Choices: the reason for each one chosen. Order and match: what stands in the wrong place. */
function showReasons(form: HTMLFormElement): void {
  if (form.dataset['kind'] === 'order') {
    const steps = [...form.querySelectorAll<HTMLElement>('li[data-place]')];
    for (const [i, step] of steps.entries()) {
      step.toggleAttribute('data-misplaced', Number(step.dataset['place']) !== i);
    }
  }
  for (const pair of pairsOf(form)) {
    const isRight = pair.querySelector('select')?.value === pair.dataset['place'];
    pair.toggleAttribute('data-misplaced', !isRight);
    const why = pair.querySelector<HTMLElement>('.why');
    if (why) why.hidden = !isRight;
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
