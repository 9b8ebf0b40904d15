import { useId, useState } from 'preact/hooks';
import { INSTRUMENTS, type InstrumentId } from '../../../bench/index.ts';
import { rangeMessage, readLength } from '../../../competence/sheet/index.ts';
import { drawScale } from '../../../drawing/scales/index.ts';
import type { Desk } from '../work/desk.ts';
import { nameInside, nameTool } from '../work/names.ts';
import { instrumentsAt } from '../work/parts.ts';
import { hidesReadings, type Reading, sayShown } from '../work/say-effect.ts';
import { sayScale, tellScale } from '../work/tell-scale.ts';
import { shownUnit } from '../work/words.ts';

type Props = { readonly desk: Desk; readonly reading: Reading };

/** The scale of the tool that was laid, close up: drawn, in words, and in a test to be read. */
export function ScaleCard({ desk, reading }: Props) {
  const [isLarge, setLarge] = useState(false);
  const unit = shownUnit.value;
  const isLeaves = reading.with === 'feeler' || reading.with === 'straightedge';
  const svg = drawScale({
    instrument: reading.with,
    reading: reading.value,
    unit,
    title: sayScale(`alt.${reading.with}`),
  });
  return (
    <div class="bench-scale-card">
      {(isLeaves || reading.value !== null) && (
        <>
          <section
            class="bench-scale-view"
            data-tool={reading.with}
            data-large={isLarge ? '' : undefined}
            // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls is scrolled by keys too
            tabIndex={0}
            aria-label={sayScale('title')}
            // computed here from numbers and this panel's own words
            dangerouslySetInnerHTML={{ __html: svg }}
          />
          {!isLeaves && (
            <button
              type="button"
              class="button button--quiet"
              aria-pressed={isLarge}
              onClick={() => setLarge(!isLarge)}
            >
              {sayScale(isLarge ? 'smaller' : 'larger')}
            </button>
          )}
        </>
      )}
      <details open={desk.stage.value === null}>
        <summary>{sayScale('in-words')}</summary>
        <p>{tellScale(reading, unit)}</p>
      </details>
      {hidesReadings.value && (
        <ReadIt key={`${reading.at} ${reading.with}`} desk={desk} reading={reading} />
      )}
      <p class="hint">
        {sayScale('known-to', { uncertainty: sayShown(reading.uncertainty, reading.with) })}{' '}
        {sayFiner(reading)}
      </p>
    </div>
  );
}

/** What to take where this tool is not fine enough. */
function sayFiner({ at, with: own }: Reading): string {
  const known = (id: InstrumentId) => INSTRUMENTS[id].uncertainty;
  const [finest] = instrumentsAt(at)
    .filter((id) => known(id) < known(own))
    .sort((a, b) => known(a) - known(b));
  return finest === undefined
    ? sayScale('best')
    : sayScale('better', {
        tool: nameInside(nameTool(finest)),
        uncertainty: sayShown(known(finest), finest),
      });
}

function sayAgrees({ read, value, with: tool }: Reading): string {
  if (read?.right !== true) return sayScale('read.differs');
  return value === null
    ? sayScale('read.agrees-nothing')
    : sayScale('read.agrees', { shown: sayShown(value, tool) });
}

/** mm a reading can be, as the server takes it. */
const RANGE = [-1000, 1000] as const;

function ReadIt({ desk, reading }: Props) {
  const id = useId();
  const unit = shownUnit.value;
  const [typed, setTyped] = useState('');
  const [problem, setProblem] = useState<string | null>(null);

  /** In practice, whether it agrees with the scale; in a test, only that it is written down. */
  function tell(taken: Reading | null, done: string): void {
    desk.speak(desk.isPractice() && taken?.read ? `${done} ${sayAgrees(taken)}` : done);
  }

  function take(event: Event): void {
    event.preventDefault();
    const read = readLength(typed, unit);
    const outOf = read.ok && Math.abs(read.length.mm) > RANGE[1];
    if (!read.ok || outOf) {
      setProblem(`${sayScale('read.name')} ${read.ok ? rangeMessage(RANGE, unit) : read.message}.`);
      return;
    }
    const mm = Number(read.length.mm.toFixed(4));
    setProblem(null);
    setTyped('');
    tell(desk.writeReading(mm), sayScale('read.done', { read: sayShown(mm, reading.with) }));
  }

  return (
    <form class="bench-read" onSubmit={take} noValidate>
      <label for={id}>{sayScale('read.label')}</label>
      <input
        id={id}
        class="entry entry--figure"
        type="text"
        inputMode={unit === 'mm' ? 'decimal' : 'text'}
        autocomplete="off"
        value={typed}
        aria-invalid={problem !== null}
        aria-describedby={`${id}-hint`}
        onInput={(event) => setTyped(event.currentTarget.value)}
      />
      <button type="submit" class="button">
        {sayScale('read.take')}
      </button>
      <button
        type="button"
        class="button button--quiet"
        onClick={() => {
          tell(desk.writeReading(null), sayScale('read.done-nothing'));
        }}
      >
        {sayScale('read.cannot')}
      </button>
      {problem === null ? (
        <p class="hint" id={`${id}-hint`}>
          {sayScale(`read.hint-${unit}`)}
        </p>
      ) : (
        <p class="problem" id={`${id}-hint`} role="alert">
          {problem}
        </p>
      )}
    </form>
  );
}
