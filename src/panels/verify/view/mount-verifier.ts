import { canCheckSignatures, verifyProof } from '../../../records/check/index.ts';
import { readQuestion } from '../question/index.ts';
import type { VerifyWords } from '../words.ts';
import { drawForm } from './draw-form.ts';
import { drawVerdict } from './draw-verdict.ts';
import { makeNode } from './make-node.ts';

/**
 * Puts the form and its answers into an element. Nothing that is typed leaves the page: there is no request
 * anywhere in it.
 *
 * @param suggested did:key put into the file when it was made, or null
 */
export async function mountVerifier(
  root: HTMLElement,
  words: VerifyWords,
  suggested: string | null = null,
): Promise<void> {
  if (!(await canCheckSignatures())) {
    root.replaceChildren(makeNode('p', { class: 'problem' }, words.say('no-crypto')));
    return;
  }
  const form = drawForm(words, suggested);
  const answer = makeNode('section', { 'aria-live': 'polite', class: 'verify-answer' });
  form.node.addEventListener('submit', async (event) => {
    event.preventDefault();
    form.complain(null);
    const question = readQuestion(form.read(), new Date());
    if (!question.ok) {
      answer.replaceChildren();
      const { field, line, problem } = question;
      form.complain(field, words.say(`problem.${problem}`, { line }));
      return;
    }
    const verdict = await verifyProof(question.file, question);
    const heading = makeNode('h2', { tabindex: '-1' }, words.say('answer'));
    answer.replaceChildren(
      heading,
      drawVerdict(verdict, words, { noTrust: question.trusted.length === 0 }),
    );
    heading.focus();
  });
  root.replaceChildren(form.node, answer);
}
