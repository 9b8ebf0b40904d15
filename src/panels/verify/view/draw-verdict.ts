import type { Check, Verdict } from '../../../records/check/index.ts';
import type { VerifyWords } from '../words.ts';
import { drawRecord } from './draw-record.ts';
import { makeNode } from './make-node.ts';

/** Signs that need no colour; the word always stands beside. */
const SIGNS = { ok: '✓', failed: '✕', unknown: '?' } as const;
const SIGN_OF: Readonly<Record<Verdict['verdict'], keyof typeof SIGNS>> = {
  genuine: 'ok',
  altered: 'failed',
  'not from a trusted signer': 'failed',
  withdrawn: 'failed',
  ended: 'failed',
  'unknown as of a date': 'unknown',
};

const drawSign = (state: keyof typeof SIGNS): HTMLElement =>
  makeNode(
    'span',
    { class: 'verify-sign', 'data-state': state, 'aria-hidden': 'true' },
    SIGNS[state],
  );

function drawCheck({ sentence, state }: Check, { say, sayCheck }: VerifyWords): HTMLElement {
  return makeNode(
    'tr',
    {},
    makeNode('td', { class: 'verify-state' }, drawSign(state), ` ${say(`state.${state}`)}`),
    makeNode('td', {}, sayCheck(sentence)),
  );
}

/** A verdict with everything it rests on. `noTrust`: nobody was named to trust. */
export function drawVerdict(
  verdict: Verdict,
  words: VerifyWords,
  { noTrust }: { readonly noTrust: boolean },
): HTMLElement {
  const { say, sayCheck } = words;
  const { cannotKnow, checks, record, sentence } = verdict;
  const print = makeNode('button', { class: 'button', type: 'button' }, say('print'));
  print.addEventListener('click', () => window.print());
  return makeNode(
    'div',
    { 'data-verdict': verdict.verdict },
    makeNode(
      'p',
      { class: 'verify-word' },
      drawSign(SIGN_OF[verdict.verdict]),
      makeNode('strong', {}, say(`verdict.${verdict.verdict}`)),
    ),
    makeNode('p', {}, sayCheck(sentence)),
    noTrust && verdict.verdict === 'not from a trusted signer'
      ? makeNode('p', {}, say('no-trust'))
      : null,
    record === null ? null : makeNode('h3', {}, say('record')),
    record === null ? null : drawRecord(record, words),
    makeNode('h3', {}, say('checks')),
    makeNode(
      'div',
      { class: 'table-box' },
      makeNode(
        'table',
        {},
        makeNode(
          'thead',
          {},
          makeNode(
            'tr',
            {},
            makeNode('th', { scope: 'col' }, say('col.found')),
            makeNode('th', { scope: 'col' }, say('col.check')),
          ),
        ),
        makeNode('tbody', {}, ...checks.map((check) => drawCheck(check, words))),
      ),
    ),
    makeNode('h3', {}, say('cannot-know')),
    makeNode('ul', {}, ...cannotKnow.map((one) => makeNode('li', {}, sayCheck(one)))),
    makeNode('p', { class: 'actions verify-screen' }, print),
  );
}
