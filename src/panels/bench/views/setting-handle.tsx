import { useId, useState } from 'preact/hooks';
import { type Bench, SETTINGS, type SettingId, settingNow } from '../../../bench/index.ts';
import { rangeMessage, readLength } from '../../../competence/sheet/index.ts';
import { formatInchFraction, type LengthUnit } from '../../../geometry/index.ts';
import type { Desk } from '../work/desk.ts';
import { stepsOf } from '../work/steps.ts';
import { say, sayLength, shownUnit } from '../work/words.ts';
import { Sign } from './camera-pad.tsx';

type Props = { readonly bench: Bench; readonly desk: Desk; readonly setting: SettingId };

const SIGNS = {
  'coarse-less': 'M12 5l-7 7 7 7M19 5l-7 7 7 7',
  'fine-less': 'M15 5l-7 7 7 7',
  'fine-more': 'M9 5l7 7-7 7',
  'coarse-more': 'M5 5l7 7-7 7M12 5l7 7-7 7',
} as const;

/** A setting in the hand: fine and coarse steps each way, and its scale to type on. */
export function SettingHandle({ bench, desk, setting }: Props) {
  const value = settingNow(bench, setting);
  if (value === null) return null;
  const { fine, coarse } = stepsOf(setting, shownUnit.value);
  const moves = [
    { id: 'coarse-less', by: -coarse, way: say(`way.${setting}.less`) },
    { id: 'fine-less', by: -fine, way: say(`way.${setting}.less`) },
    { id: 'fine-more', by: fine, way: say(`way.${setting}.more`) },
    { id: 'coarse-more', by: coarse, way: say(`way.${setting}.more`) },
  ] as const;
  const step = (by: number) => (
    <>
      {moves
        .filter((move) => Math.sign(move.by) === by)
        .map((move) => (
          <button
            key={move.id}
            type="button"
            class="bench-step"
            aria-label={`${sayLength({ mm: Math.abs(move.by), digits: 2 })} ${move.way}`}
            onClick={() => desk.act({ do: 'set', setting, to: tidy(value + move.by) })}
          >
            <Sign path={SIGNS[move.id]} />
            <span>{sayBare(Math.abs(move.by), shownUnit.value)}</span>
          </button>
        ))}
    </>
  );
  return (
    <fieldset class="bench-handle">
      <legend>{say(`setting.${setting}`)}</legend>
      <div class="bench-handle-ways" aria-hidden="true">
        <span>{say(`way.${setting}.less`)}</span>
        <span>{shownUnit.value === 'mm' ? 'mm' : 'in'}</span>
        <span>{say(`way.${setting}.more`)}</span>
      </div>
      <div class="bench-handle-row">
        {step(-1)}
        <Scale desk={desk} setting={setting} value={value} />
        {step(1)}
      </div>
    </fieldset>
  );
}

/** A length as its scale is marked, the unit told once beside it. */
const sayBare = (mm: number, unit: LengthUnit): string =>
  unit === 'inch' ? formatInchFraction(mm) : String(Number(mm.toFixed(2)));

/** A thousandth of a millimetre is finer than any scale here; binary dust is swept off. */
const tidy = (mm: number): number => Number(mm.toFixed(3));

type ScaleProps = { readonly desk: Desk; readonly setting: SettingId; readonly value: number };

/** The scale beside the setting. What is typed stays until it is taken or the setting moves. */
function Scale({ desk, setting, value }: ScaleProps) {
  const id = useId();
  const unit = shownUnit.value;
  const shown = sayBare(value, unit);
  const [typed, setTyped] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const name = say(`scale.${setting}`);

  function take(): void {
    if (typed === null) return;
    const read = readScale(typed, setting, unit);
    setProblem(read.ok ? null : `${name} ${read.message}.`);
    if (!read.ok) return;
    setTyped(null);
    if (tidy(read.mm) !== tidy(value)) desk.act({ do: 'set', setting, to: tidy(read.mm) });
  }

  return (
    <div class="bench-scale">
      <label class="unseen" for={id}>
        {name}
      </label>
      <input
        id={id}
        class="entry entry--figure"
        type="text"
        inputMode={unit === 'mm' ? 'decimal' : 'text'}
        autocomplete="off"
        value={typed ?? shown}
        aria-invalid={problem !== null}
        aria-describedby={problem === null ? undefined : `${id}-problem`}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onFocus={(event) => event.currentTarget.select()}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === 'Enter') take();
          if (event.key === 'Escape') {
            setTyped(null);
            setProblem(null);
          }
        }}
      />
      {problem !== null && (
        <p class="problem" id={`${id}-problem`} role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}

type ReadScale =
  | { readonly ok: true; readonly mm: number }
  | { readonly ok: false; readonly message: string };

/** What was typed on a scale, mm, within the travel of its setting. */
function readScale(typed: string, setting: SettingId, unit: LengthUnit): ReadScale {
  const { least, most } = SETTINGS[setting];
  const read = readLength(typed, unit);
  if (!read.ok) return read;
  const { mm } = read.length;
  return mm < least || mm > most
    ? { ok: false, message: rangeMessage([least, most], unit) }
    : { ok: true, mm };
}
