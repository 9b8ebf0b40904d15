import type { Typed } from '../question/index.ts';
import type { VerifyKey, VerifyWords } from '../words.ts';
import { makeNode } from './make-node.ts';

export type Form = {
  readonly node: HTMLFormElement;
  readonly read: () => Typed;
  /** puts a sentence beside a field and the cursor into it; null takes all of them away */
  readonly complain: (field: keyof Typed | null, sentence?: string) => void;
  readonly write: (field: keyof Typed, text: string) => void;
};

type Entry = HTMLInputElement | HTMLTextAreaElement;

function drawField(
  id: keyof Typed,
  entry: Entry,
  { say }: VerifyWords,
  more: readonly Node[] = [],
): { readonly node: HTMLElement; readonly problem: HTMLElement } {
  const key = (part: 'label' | 'hint'): VerifyKey => `${id}.${part}`;
  entry.id = `verify-${id}`;
  entry.setAttribute('aria-describedby', `verify-${id}-hint verify-${id}-problem`);
  const problem = makeNode('p', { class: 'problem', id: `verify-${id}-problem`, hidden: '' });
  const node = makeNode(
    'div',
    { class: 'field' },
    makeNode('label', { for: entry.id }, say(key('label'))),
    makeNode('p', { class: 'hint', id: `verify-${id}-hint` }, say(key('hint'))),
    ...more,
    entry,
    problem,
  );
  return { node, problem };
}

/** The signer the file was given when it was made: counted only once the reader says it was compared. */
function drawSuggestion(did: string, { say }: VerifyWords) {
  const tick = makeNode('input', { type: 'checkbox', id: 'verify-compared' });
  const node = makeNode(
    'div',
    { class: 'verify-suggested' },
    makeNode('p', {}, say('suggested')),
    makeNode('p', {}, makeNode('code', {}, did)),
    makeNode('label', { class: 'tick', for: 'verify-compared' }, tick, ` ${say('compared')}`),
  );
  return { node, isCompared: () => tick.checked };
}

/** The form: whom to trust, what to check, and for which day. */
export function drawForm(words: VerifyWords, suggested: string | null): Form {
  const { say } = words;
  const attributes = { spellcheck: 'false', autocomplete: 'off', autocapitalize: 'off' };
  const entries: Record<keyof Typed, Entry> = {
    signers: makeNode('textarea', { rows: '3', ...attributes }),
    proof: makeNode('textarea', { rows: '6', ...attributes }),
    day: makeNode('input', { type: 'date' }),
  };
  const file = makeNode('input', {
    type: 'file',
    id: 'verify-file',
    accept: '.json,application/json',
    'aria-label': say('file'),
  });
  const suggestion = suggested === null ? null : drawSuggestion(suggested, words);
  const fields = {
    signers: drawField('signers', entries.signers, words, suggestion ? [suggestion.node] : []),
    proof: drawField('proof', entries.proof, words, [makeNode('p', {}, file)]),
    day: drawField('day', entries.day, words),
  };
  const node = makeNode(
    'form',
    { class: 'verify-form verify-screen', novalidate: '' },
    ...Object.values(fields).map((field) => field.node),
    makeNode(
      'p',
      { class: 'actions' },
      makeNode('button', { class: 'button button--main', type: 'submit' }, say('check')),
    ),
  );
  const write = (field: keyof Typed, text: string): void => {
    entries[field].value = text;
  };
  const complain = (field: keyof Typed | null, sentence = ''): void => {
    for (const [name, { problem }] of Object.entries(fields)) {
      const isIt = name === field;
      problem.hidden = !isIt;
      problem.textContent = isIt ? sentence : '';
      entries[name as keyof Typed].toggleAttribute('aria-invalid', false);
      if (isIt) entries[name as keyof Typed].setAttribute('aria-invalid', 'true');
    }
    if (field !== null) entries[field].focus();
  };
  const take = async (given: File | undefined): Promise<void> => {
    if (given === undefined) return;
    write('proof', await given.text());
    complain(null);
  };
  file.addEventListener('change', () => void take(file.files?.[0]));
  node.addEventListener('dragover', (event) => event.preventDefault());
  node.addEventListener('drop', (event) => {
    event.preventDefault();
    void take(event.dataTransfer?.files[0]);
  });
  const read = (): Typed => {
    const own = suggested !== null && suggestion?.isCompared() ? `\n${suggested}` : '';
    return {
      signers: `${entries.signers.value}${own}`,
      proof: entries.proof.value,
      day: entries.day.value,
    };
  };
  return { node, read, complain, write };
}
