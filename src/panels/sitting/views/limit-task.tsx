import { useId, useState } from 'preact/hooks';
import { nameIn } from '../../../words/spoken.ts';
import type { TaskOf } from '../work/protocol.ts';
import type { Sitting } from '../work/sitting.ts';
import { taskName } from '../work/task-name.ts';
import { say } from '../work/words.ts';

type Props = {
  readonly sitting: Sitting;
  readonly task: TaskOf<'limit'>;
  readonly heading: { current: HTMLHeadingElement | null };
};

/** A figure of the rules to give, or readings to sort by it. */
export function LimitTask({ sitting, task, heading }: Props) {
  const { blade, job } = task.bench;
  return (
    <section class="sitting-sheet">
      <h2 ref={heading} tabIndex={-1}>
        {taskName(task)}
      </h2>
      <p class="lead">
        {say('limit.asked', {
          title: task.title,
          set: nameIn('rule-sets', `title.${task.set}`, task.setTitle),
        })}
      </p>
      <p>
        {say('limit.bench', {
          diameter: { mm: blade.diameter },
          plate: { mm: blade.plate },
          kerf: { mm: blade.kerf },
          thickness: { mm: job.stock.thickness },
        })}
      </p>
      {task.ask === 'figure' ? (
        <Figure sitting={sitting} task={task} />
      ) : (
        <Readings sitting={sitting} task={task} />
      )}
    </section>
  );
}

type PartProps = Pick<Props, 'sitting' | 'task'>;

function figureIn({ sitting, task }: PartProps): number | null {
  const kept = sitting.work.value[task.id];
  return kept?.kind === 'limit' ? kept.value : null;
}

/** What was typed as a number, a decimal comma too; null for nothing, undefined for what is none. */
function readFigure(text: string): number | null | undefined {
  const plain = text.trim().replace(',', '.');
  if (plain === '') return null;
  const value = Number(plain);
  return Number.isFinite(value) && Math.abs(value) <= 1e6 ? value : undefined;
}

function Figure({ sitting, task }: PartProps) {
  const id = useId();
  const value = figureIn({ sitting, task });
  const [text, setText] = useState(value === null ? '' : String(value));
  const read = readFigure(text);
  return (
    <>
      <p>{say(`limit.${task.end}`)}</p>
      <div class="field">
        <label for={id}>{say('limit.figure', { unit: task.unit })}</label>
        <input
          id={id}
          inputMode="decimal"
          autocomplete="off"
          value={text}
          aria-invalid={read === undefined}
          aria-describedby={`${id}-say`}
          onInput={(event) => {
            const typed = event.currentTarget.value;
            setText(typed);
            const next = readFigure(typed);
            if (next !== undefined) {
              sitting.change(task.id, { kind: 'limit', value: next, within: [] });
            }
          }}
        />
        <p id={`${id}-say`} class={read === undefined ? 'problem' : 'hint'} role="status">
          {read === undefined
            ? say('limit.not')
            : read === null
              ? ''
              : say('limit.kept', { value: read, unit: task.unit })}
        </p>
      </div>
    </>
  );
}

function Readings({ sitting, task }: PartProps) {
  const kept = sitting.work.value[task.id];
  const within = kept?.kind === 'limit' ? kept.within : [];
  return (
    <fieldset>
      <legend>{say('limit.within')}</legend>
      {task.readings.map(({ id, value }) => (
        <label key={id} class="choice">
          <input
            type="checkbox"
            checked={within.includes(id)}
            onChange={(event) =>
              sitting.change(task.id, {
                kind: 'limit',
                value: null,
                within: event.currentTarget.checked
                  ? [...within, id]
                  : within.filter((one) => one !== id),
              })
            }
          />
          {value} {task.unit}
        </label>
      ))}
    </fieldset>
  );
}
