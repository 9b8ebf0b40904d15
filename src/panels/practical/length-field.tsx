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
  /** `may-be-negative`: with a key for the minus sign, which many keyboards for figures have not */
  readonly sign?: 'may-be-negative' | 'positive';
};

/** The text with its minus sign put before it, or taken away. */
const turnSign = (text: string): string => {
  const figure = text.trim();
  return /^[-\u2212\u2013]/.test(figure) ? figure.slice(1).trim() : `-${figure}`;
};

const UNITS: readonly LengthUnit[] = ['mm', 'inch'];

/** A length as typed, with its unit beside it: 7.5, 7,5, 5/16 or 1 3/8. */
export function LengthField(props: Props) {
  const { id, label, typed, change, describedBy, invalid = false, sign = 'positive' } = props;
  return (
    <span class="length-field">
      {sign === 'may-be-negative' && (
        <button
          class="entry turn-sign"
          type="button"
          aria-label={say('turn-sign', { label })}
          onClick={() => change({ ...typed, text: turnSign(typed.text) })}
        >
          ±
        </button>
      )}
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
