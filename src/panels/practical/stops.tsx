import type { Unit } from '../../competence/index.ts';
import type { Draft } from '../../competence/sheet/index.ts';
import { Mark } from './mark.tsx';
import { contentLang, say } from './say.ts';

type Props = {
  readonly unit: Unit;
  readonly draft: Draft;
  readonly change: (part: Partial<Draft>) => void;
};

/** Errors so dangerous that seeing one ends the practical there and then. */
export function Stops({ unit, draft, change }: Props) {
  const stopped = draft.stops.length > 0;
  const turn = (id: string, seen: boolean) => {
    const stops = draft.stops.filter((one) => one !== id);
    change({ stops: seen ? [...stops, id] : stops });
  };
  return (
    <div class="notice" data-kind={stopped ? 'prohibition' : undefined}>
      <Mark kind="prohibition" />
      <div>
        <p>
          <strong>{say(stopped ? 'stopped' : 'stop')}</strong>
        </p>
        <p>{say(stopped ? 'stopped.say' : 'stop.say')}</p>
        <fieldset>
          <legend class="visually-hidden">{say('stop.legend')}</legend>
          {unit.stops.map(({ id, text }) => (
            <label class="choice" key={id}>
              <input
                type="checkbox"
                checked={draft.stops.includes(id)}
                onChange={(event) => turn(id, event.currentTarget.checked)}
              />
              <span lang={contentLang()}>{text}</span>
            </label>
          ))}
        </fieldset>
        {stopped && (
          <div class="field">
            <label for="stopNote">{say('stop.what')}</label>
            <textarea
              id="stopNote"
              rows={3}
              maxLength={500}
              value={draft.stopNote}
              onInput={(event) => change({ stopNote: event.currentTarget.value })}
            />
          </div>
        )}
      </div>
    </div>
  );
}
