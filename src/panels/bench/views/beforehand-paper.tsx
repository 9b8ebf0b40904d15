import { useId, useState } from 'preact/hooks';
import { digitsFor } from '../../../bench/index.ts';
import { readLength } from '../../../competence/sheet/index.ts';
import { englishOnly } from '../../../words/spoken.ts';
import type { Attempt } from '../work/attempt.ts';
import type { Desk } from '../work/desk.ts';
import type { TaskCard } from '../work/protocol.ts';
import { sayFigure, sayTask, sayUnit } from '../work/task-words.ts';
import '../styles/task.css';
import { shownUnit } from '../work/words.ts';

type Props = { readonly attempt: Attempt; readonly desk: Desk };
type Asked = NonNullable<TaskCard['predict']>[number];

/** The figures a task asks for before anything is tried: written down here, and then they stand. */
export function BeforehandPaper({ attempt, desk }: Props) {
  const asked = attempt.started.value?.task.predict ?? [];
  const isOpen = attempt.phase.value === 'working' && !desk.hasTried.value;
  return (
    <>
      <h2>{sayTask('beforehand.title')}</h2>
      <p class="hint">{sayTask(isOpen ? 'beforehand.hint' : 'beforehand.closed')}</p>
      <ol class="bench-beforehand">
        {asked.map((one) => (
          <li key={one.id}>
            <One attempt={attempt} desk={desk} asked={one} isOpen={isOpen} />
          </li>
        ))}
      </ol>
    </>
  );
}

const FIGURE = /^([-\u2212]?\d+(?:[.,]\d+)?)\s*[^\d.,]*$/;
const MOST = 1e6;

/** A number as typed, in the unit of the answer (lengths in mm), or null. */
function readTyped(typed: string, { unit }: Asked): number | null {
  if (unit === 'mm') {
    const read = readLength(typed, shownUnit.value);
    return read.ok && Math.abs(read.length.mm) <= MOST ? Number(read.length.mm.toFixed(4)) : null;
  }
  const figure = FIGURE.exec(typed.trim())?.[1];
  if (figure === undefined) return null;
  const value = Number(figure.replace(',', '.').replace('\u2212', '-'));
  return Math.abs(value) <= MOST ? value : null;
}

function sayAskedUnit({ unit }: Asked): string {
  if (unit === 'mm') return sayTask('beforehand.length', { unit: shownUnit.value });
  const written = sayUnit(unit);
  return written === ''
    ? sayTask('beforehand.plain')
    : sayTask('beforehand.unit', { unit: written });
}

type OneProps = Props & { readonly asked: Asked; readonly isOpen: boolean };

function One({ attempt, desk, asked, isOpen }: OneProps) {
  const id = useId();
  const [typed, setTyped] = useState('');
  const [isUnread, setUnread] = useState(false);
  const said = attempt.said.value.find((one) => one.id === asked.id);

  const written = (value: number) =>
    sayTask('beforehand.written', { value: sayFigure(value, asked.unit, digitsFor(value)) });

  function take(event: Event): void {
    event.preventDefault();
    const value = readTyped(typed, asked);
    setUnread(value === null);
    if (value === null) return;
    setTyped('');
    attempt.sayBeforehand(asked.id, value);
    desk.speak(written(value));
  }

  const now = said === undefined ? null : <p>{written(said.value)}</p>;
  if (!isOpen) {
    return (
      <>
        <p lang={englishOnly()}>{asked.ask}</p>
        {now ?? <p>{sayTask('beforehand.none')}</p>}
      </>
    );
  }
  return (
    <>
      <form onSubmit={take} noValidate>
        <label for={id}>
          <span lang={englishOnly()}>{asked.ask}</span>{' '}
          <span class="quiet">({sayAskedUnit(asked)})</span>
        </label>
        <input
          id={id}
          class="entry entry--figure"
          type="text"
          inputMode={asked.unit === 'mm' && shownUnit.value === 'inch' ? 'text' : 'decimal'}
          autocomplete="off"
          value={typed}
          aria-invalid={isUnread}
          aria-describedby={isUnread ? `${id}-problem` : undefined}
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
        <button type="submit" class="button">
          {sayTask('beforehand.write')}
        </button>
      </form>
      {isUnread && (
        <p class="problem" id={`${id}-problem`} role="alert">
          {sayTask(asked.unit === 'mm' ? 'beforehand.unread-length' : 'beforehand.unread')}
        </p>
      )}
      {now}
    </>
  );
}
