import { useEffect, useRef } from 'preact/hooks';
import type { Unit } from '../../../competence/index.ts';
import {
  changeUnit,
  draftOfUnit,
  type PracticalDraft,
  stoppedIn,
} from '../../../competence/sheet/index.ts';
import { Mark } from '../mark.tsx';
import { contentLang, say } from '../say.ts';

type Props = {
  readonly units: readonly Unit[];
  readonly draft: PracticalDraft;
  readonly change: (make: (draft: PracticalDraft) => PracticalDraft) => void;
  readonly isOpen: boolean;
};

/** Errors so dangerous that seeing one ends the practical there and then, of every unit of it. */
export function StopPanel({ units, draft, change, isOpen }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  const stopped = stoppedIn(draft);
  useEffect(() => {
    if (isOpen) heading.current?.focus();
  }, [isOpen]);
  if (!isOpen && stopped === null) return null;
  const turn = (unit: string, id: string, isSeen: boolean) =>
    change((now) => {
      const stops = draftOfUnit(now, unit).stops.filter((one) => one !== id);
      return changeUnit(now, unit, { stops: isSeen ? [...stops, id] : stops });
    });
  return (
    <section
      class="notice stop-panel"
      data-kind={stopped === null ? undefined : 'prohibition'}
      aria-labelledby="stop-title"
    >
      <Mark kind="prohibition" />
      <div>
        <h2 id="stop-title" tabIndex={-1} ref={heading}>
          {say(stopped === null ? 'stop' : 'stopped')}
        </h2>
        <p>{say(stopped === null ? 'stop.say' : 'stopped.say')}</p>
        {units
          .filter(({ stops }) => stops.length > 0)
          .map((unit) => (
            <fieldset key={unit.id}>
              <legend lang={contentLang()}>
                {unit.number}. {unit.title}
              </legend>
              {unit.stops.map(({ id, text }) => (
                <label class="choice" key={id}>
                  <input
                    type="checkbox"
                    checked={draftOfUnit(draft, unit.id).stops.includes(id)}
                    onChange={(event) => turn(unit.id, id, event.currentTarget.checked)}
                  />
                  <span lang={contentLang()}>{text}</span>
                </label>
              ))}
            </fieldset>
          ))}
        {stopped !== null && (
          <div class="field">
            <label for="stopNote">{say('stop.what')}</label>
            <textarea
              id="stopNote"
              rows={3}
              maxLength={500}
              autocapitalize="sentences"
              value={draftOfUnit(draft, stopped).stopNote}
              onInput={(event) => {
                const stopNote = event.currentTarget.value;
                change((now) => changeUnit(now, stopped, { stopNote }));
              }}
            />
          </div>
        )}
      </div>
    </section>
  );
}
