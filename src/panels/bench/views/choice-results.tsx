import { englishOnly } from '../../../words/spoken.ts';
import type { Outcome } from '../work/protocol.ts';
import { sayTask } from '../work/task-words.ts';
import { Mark } from './mark.tsx';

type Line = NonNullable<Outcome['choice']>['lines'][number];
const MARK = { right: 'safe', 'will-do': 'advice', wrong: 'warning' } as const;

/** What was taken from the rack, one line each, with the reasons and what would have been better. */
export function ChoiceResults({ choice }: { readonly choice: NonNullable<Outcome['choice']> }) {
  return (
    <section>
      <h3>{sayTask('result.choice')}</h3>
      <ul class="bench-results">
        {choice.lines.map((line) => (
          <Choice key={line.what} line={line} />
        ))}
      </ul>
    </section>
  );
}

function Choice({ line }: { readonly line: Line }) {
  const { what, title, verdict, reasons, better } = line;
  return (
    <li>
      <p class="bench-result-head">
        <strong>{sayTask(`result.what.${what}`)}</strong>{' '}
        {title === null ? (
          <span>{sayTask('result.own')}</span>
        ) : (
          <span lang={englishOnly()}>{title}</span>
        )}
      </p>
      <p class="verdict" data-verdict={verdict === 'wrong' ? 'outside' : 'within'}>
        <Mark kind={MARK[verdict]} />
        {sayTask(`result.${verdict}`)}
      </p>
      <ul class="bench-result-limit">
        {reasons.map(({ says }) => (
          <li key={says} lang={englishOnly()}>
            {says}
          </li>
        ))}
      </ul>
      {better.length > 0 && <p>{sayTask('result.better', { titles: better.join(', ') })}</p>}
    </li>
  );
}
