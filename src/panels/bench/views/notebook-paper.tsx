import type { Attempt, Done } from '../work/attempt.ts';
import { writeNotebook } from '../work/notebook.ts';
import { say } from '../work/words.ts';
import { WithCut } from './later.tsx';

/** What came of a trial cut. */
function CutLine({ done }: { readonly done: Done }) {
  return <WithCut>{({ CutInShort }) => <CutInShort done={done} />}</WithCut>;
}

/** Everything done and read so far, newest first. */
export function NotebookPaper({ attempt }: { readonly attempt: Attempt }) {
  const lines = writeNotebook(attempt.done.value);
  return (
    <>
      <h2>{say('notebook.title')}</h2>
      {lines.length === 0 ? (
        <p class="hint">{say('notebook.empty')}</p>
      ) : (
        <ol class="bench-notes" reversed>
          {lines.toReversed().map((line) => (
            <li key={line.from}>
              {line.text}
              {line.came.map((came) => (
                <strong key={came.text} class={came.kind === 'reading' ? 'length' : undefined}>
                  {came.text}
                </strong>
              ))}
              {line.cut !== null && <CutLine done={line.cut} />}
            </li>
          ))}
        </ol>
      )}
    </>
  );
}
