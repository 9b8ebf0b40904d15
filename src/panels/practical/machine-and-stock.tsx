import type { Draft, DraftContext } from '../../competence/sheet/index.ts';
import { LengthField } from './length-field.tsx';
import { say } from './say.ts';

type Props = {
  readonly draft: Draft;
  readonly context: DraftContext;
  readonly earliest: string;
  readonly change: (part: Partial<Draft>) => void;
};

const LENGTHS = ['kerf', 'plate', 'diameter'] as const;

/** When, where, on what: the day, the place, the stock, and the blade that was on the machine. */
export function MachineAndStock({ draft, context, earliest, change }: Props) {
  const { blade } = draft;
  return (
    <div class="columns">
      <div>
        <div class="field">
          <label for="observedAt">{say('day')}</label>
          <input
            id="observedAt"
            type="date"
            min={earliest}
            max={context.today}
            value={draft.observedAt}
            onInput={(event) => change({ observedAt: event.currentTarget.value })}
          />
        </div>
        <div class="field">
          <label for="place">{say('place')}</label>
          <input
            id="place"
            type="text"
            maxLength={120}
            value={draft.place}
            onInput={(event) => change({ place: event.currentTarget.value })}
          />
        </div>
        <div class="field">
          <label for="material">{say('stock')}</label>
          <p class="hint" id="material.hint">
            {say('stock.hint')}
          </p>
          <input
            id="material"
            type="text"
            maxLength={120}
            aria-describedby="material.hint"
            value={draft.material}
            onInput={(event) => change({ material: event.currentTarget.value })}
          />
        </div>
      </div>
      <div>
        {LENGTHS.map((key) => (
          <div class="field" key={key}>
            <label for={`blade.${key}`}>{say(key)}</label>
            <p class="hint" id={`blade.${key}.hint`}>
              {say(`${key}.hint`)}
            </p>
            <LengthField
              id={`blade.${key}`}
              label={say(key)}
              typed={blade[key]}
              change={(typed) => change({ blade: { ...blade, [key]: typed } })}
              describedBy={`blade.${key}.hint`}
            />
          </div>
        ))}
        <div class="field">
          <label for="blade.teeth">{say('teeth')}</label>
          <input
            id="blade.teeth"
            type="text"
            inputMode="numeric"
            value={blade.teeth}
            onInput={(event) => change({ blade: { ...blade, teeth: event.currentTarget.value } })}
          />
        </div>
      </div>
    </div>
  );
}
