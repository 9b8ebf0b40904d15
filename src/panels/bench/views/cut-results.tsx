import type { Outcome } from '../work/protocol.ts';
import { sayTask } from '../work/task-words.ts';
import { Mark } from './mark.tsx';

/** What the trial cut was asked to be, line by line, and what came of the last one. */
export function CutResults({ cut }: { readonly cut: NonNullable<Outcome['cut']> }) {
  return (
    <section>
      <h3>{sayTask('result.cut')}</h3>
      <ul class="bench-results">
        {cut.lines.map(({ what, held }) => (
          <li key={what}>
            <p class="bench-result-head">
              <strong>{sayTask(`result.cut.${what}`)}</strong>
            </p>
            <p class="verdict" data-verdict={held ? 'within' : 'outside'}>
              <Mark kind={held ? 'safe' : 'prohibition'} />
              {sayTask(held ? 'result.yes' : 'result.no')}
            </p>
          </li>
        ))}
      </ul>
      <p>{sayTask(`result.outcome.${cut.outcome ?? 'none'}`)}</p>
    </section>
  );
}
