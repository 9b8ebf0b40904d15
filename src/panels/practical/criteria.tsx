import type { Unit } from '../../competence/index.ts';
import type { Draft, DraftPhoto, Seen } from '../../competence/sheet/index.ts';
import { contentLang, say } from './say.ts';
import { Photos } from './sheet/photos.tsx';

const ANSWERS: readonly Seen[] = ['yes', 'no', 'not-seen'];

type Props = {
  readonly unit: Unit;
  readonly draft: Draft;
  readonly change: (part: Partial<Draft>) => void;
  readonly photos: readonly DraftPhoto[];
  readonly putPhotos: (photos: readonly DraftPhoto[]) => void;
};

/** What to watch for, one line each, with three large answers and room for a note and photos. */
export function Criteria({ unit, draft, change, photos, putPhotos }: Props) {
  const answer = (id: string, part: { result?: Seen; note?: string }) => {
    const before = draft.criteria[id] ?? { result: null, note: '' };
    change({ criteria: { ...draft.criteria, [id]: { ...before, ...part } } });
  };
  return (
    <ol class="watch">
      {unit.criteria.map(({ id, text }, index) => {
        const given = draft.criteria[id] ?? { result: null, note: '' };
        const hasPhoto = photos.some((one) => one.unit === unit.id && one.criterion === id);
        return (
          <li key={id}>
            <fieldset id={`criterion.${id}`} tabIndex={-1} class="watch-line">
              <legend>
                <span class="balloon" aria-hidden="true">
                  {index + 1}
                </span>
                <span lang={contentLang()}>{text}</span>
              </legend>
              <div class="watch-answers">
                {ANSWERS.map((value) => (
                  <label class="watch-answer" key={value}>
                    <input
                      type="radio"
                      name={`criterion.${id}`}
                      value={value}
                      checked={given.result === value}
                      onChange={() => answer(id, { result: value })}
                    />
                    <span>{say(value)}</span>
                  </label>
                ))}
              </div>
              <details class="watch-note" open={given.note !== '' || hasPhoto}>
                <summary>{say(given.note === '' && !hasPhoto ? 'note.add' : 'note')}</summary>
                <label class="quiet-label" for={`note.${id}`}>
                  {say('note.on')}
                </label>
                <textarea
                  id={`note.${id}`}
                  class="entry"
                  rows={2}
                  maxLength={500}
                  autocomplete="off"
                  autocapitalize="sentences"
                  spellcheck
                  value={given.note}
                  onInput={(event) => answer(id, { note: event.currentTarget.value })}
                />
                <Photos unit={unit.id} criterion={id} of={text} photos={photos} put={putPhotos} />
              </details>
            </fieldset>
          </li>
        );
      })}
    </ol>
  );
}
