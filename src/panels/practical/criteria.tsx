import type { Unit } from '../../competence/index.ts';
import type { Draft, Seen } from '../../competence/sheet/index.ts';

const ANSWERS: readonly { readonly value: Seen; readonly word: string }[] = [
  { value: 'yes', word: 'Yes' },
  { value: 'no', word: 'No' },
  { value: 'not-seen', word: 'Not seen' },
];

type Props = {
  readonly unit: Unit;
  readonly draft: Draft;
  readonly change: (part: Partial<Draft>) => void;
};

/** What to watch for, one line each, with three large answers and room for a note. */
export function Criteria({ unit, draft, change }: Props) {
  const answer = (id: string, part: { result?: Seen; note?: string }) => {
    const before = draft.criteria[id] ?? { result: null, note: '' };
    change({ criteria: { ...draft.criteria, [id]: { ...before, ...part } } });
  };
  return (
    <ol class="watch">
      {unit.criteria.map(({ id, text }, index) => {
        const given = draft.criteria[id] ?? { result: null, note: '' };
        return (
          <li key={id}>
            <fieldset id={`criterion.${id}`} tabIndex={-1} class="watch-line">
              <legend>
                <span class="balloon" aria-hidden="true">
                  {index + 1}
                </span>
                <span>{text}</span>
              </legend>
              <div class="watch-answers">
                {ANSWERS.map(({ value, word }) => (
                  <label class="watch-answer" key={value}>
                    <input
                      type="radio"
                      name={`criterion.${id}`}
                      value={value}
                      checked={given.result === value}
                      onChange={() => answer(id, { result: value })}
                    />
                    <span>{word}</span>
                  </label>
                ))}
              </div>
              <details class="watch-note" open={given.note !== ''}>
                <summary>{given.note === '' ? 'Add a note' : 'Note'}</summary>
                <label class="quiet-label" for={`note.${id}`}>
                  Note on what was seen: about the work, not the person's health
                </label>
                <textarea
                  id={`note.${id}`}
                  class="entry"
                  rows={2}
                  maxLength={500}
                  value={given.note}
                  onInput={(event) => answer(id, { note: event.currentTarget.value })}
                />
              </details>
            </fieldset>
          </li>
        );
      })}
    </ol>
  );
}
