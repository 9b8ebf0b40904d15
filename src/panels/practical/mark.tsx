import type { Verdict } from '../../limits/index.ts';
import { sayStatement } from './say.ts';

/** A severity mark out of the site's sprite; the word always stands beside it. */
export const Mark = ({ kind }: { kind: string }) => (
  <svg class="mark" aria-hidden="true" focusable="false">
    <use href={`/marks.svg#${kind}`} />
  </svg>
);

const KINDS: Readonly<Record<Verdict, string>> = {
  within: 'safe',
  outside: 'warning',
  'too-close': 'warning',
  'not-applicable': 'none',
  advice: 'advice',
};

/** The verdict on one setting: word, shape and colour; a critical miss stops the work. */
export function VerdictWord({ verdict, critical }: { verdict: Verdict; critical: boolean }) {
  const stops = verdict === 'outside' && critical;
  return (
    <span class="verdict" data-verdict={verdict}>
      <Mark kind={stops ? 'prohibition' : KINDS[verdict]} />
      {sayStatement(stops ? 'verdict.stop' : `verdict.${verdict}`)}
    </span>
  );
}
