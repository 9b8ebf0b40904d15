import type { Verdict } from '../../limits/index.ts';

/** A severity mark out of the site's sprite; the word always stands beside it. */
export const Mark = ({ kind }: { kind: string }) => (
  <svg class="mark" aria-hidden="true" focusable="false">
    <use href={`/marks.svg#${kind}`} />
  </svg>
);

const SHOWN: Readonly<Record<Verdict, { kind: string; word: string }>> = {
  within: { kind: 'safe', word: 'Within the limit' },
  outside: { kind: 'warning', word: 'Outside the limit' },
  'too-close': { kind: 'warning', word: 'Too close to call' },
  'not-applicable': { kind: 'none', word: 'Does not apply here' },
  advice: { kind: 'advice', word: 'Advice only' },
};

/** The verdict on one setting: word, shape and colour; a critical miss stops the work. */
export function VerdictWord({ verdict, critical }: { verdict: Verdict; critical: boolean }) {
  const stops = verdict === 'outside' && critical;
  const { kind, word } = stops
    ? { kind: 'prohibition', word: 'Outside: stop the work' }
    : SHOWN[verdict];
  return (
    <span class="verdict" data-verdict={verdict}>
      <Mark kind={kind} />
      {word}
    </span>
  );
}
