import type { TypedField } from '../../competence/sheet/index.ts';
import type { LengthUnit } from '../../geometry/index.ts';
import { say } from './say.ts';

type Props = {
  readonly id: string;
  readonly label: string;
  readonly typed: TypedField;
  readonly change: (typed: TypedField) => void;
  /** ids of what describes the field */
  readonly describedBy?: string | undefined;
  readonly invalid?: boolean;
};

const UNITS: readonly LengthUnit[] = ['mm', 'inch'];

/** A length as typed, with its unit beside it: 7.5, 7,5, 5/16 or 1 3/8. */
export function LengthField({ id, label, typed, change, describedBy, invalid = false }: Props) {
  return (
    <span class="length-field">
      <input
        id={id}
        class="entry entry--figure"
        type="text"
        inputMode={typed.unit === 'mm' ? 'decimal' : 'text'}
        autocomplete="off"
        aria-label={label}
        aria-invalid={invalid ? 'true' : undefined}
        aria-describedby={describedBy}
        value={typed.text}
        onInput={(event) => change({ ...typed, text: event.currentTarget.value })}
      />
      <select
        class="entry"
        aria-label={say('unit-of', { label })}
        value={typed.unit}
        onChange={(event) =>
          change({ ...typed, unit: event.currentTarget.value === 'inch' ? 'inch' : 'mm' })
        }
      >
        {UNITS.map((value) => (
          <option value={value} key={value}>
            {say(value)}
          </option>
        ))}
      </select>
    </span>
  );
}
