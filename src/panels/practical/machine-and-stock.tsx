import type { Draft, DraftContext } from '../../competence/sheet/index.ts';
import { LengthField } from './length-field.tsx';

type Props = {
  readonly draft: Draft;
  readonly context: DraftContext;
  readonly earliest: string;
  readonly change: (part: Partial<Draft>) => void;
};

const LENGTHS = [
  { key: 'kerf', label: 'Kerf, over the teeth', hint: 'Calliper over the set of the teeth.' },
  { key: 'plate', label: 'Blade plate', hint: 'Calliper on the plate, clear of the teeth.' },
  { key: 'diameter', label: 'Blade diameter', hint: 'As marked on the blade.' },
] as const;

/** When, where, on what: the day, the place, the stock, and the blade that was on the machine. */
export function MachineAndStock({ draft, context, earliest, change }: Props) {
  const { blade } = draft;
  return (
    <div class="columns">
      <div>
        <div class="field">
          <label for="observedAt">Day of the practical</label>
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
          <label for="place">Place</label>
          <input
            id="place"
            type="text"
            maxLength={120}
            value={draft.place}
            onInput={(event) => change({ place: event.currentTarget.value })}
          />
        </div>
        <div class="field">
          <label for="material">Stock</label>
          <p class="hint" id="material.hint">
            Kind, size and state, such as: redwood, 50 by 200, dry
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
        {LENGTHS.map(({ key, label, hint }) => (
          <div class="field" key={key}>
            <label for={`blade.${key}`}>{label}</label>
            <p class="hint" id={`blade.${key}.hint`}>
              {hint}
            </p>
            <LengthField
              id={`blade.${key}`}
              label={label}
              typed={blade[key]}
              change={(typed) => change({ blade: { ...blade, [key]: typed } })}
              describedBy={`blade.${key}.hint`}
            />
          </div>
        ))}
        <div class="field">
          <label for="blade.teeth">Number of teeth</label>
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
