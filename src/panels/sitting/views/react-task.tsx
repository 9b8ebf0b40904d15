import { useState } from 'preact/hooks';
import { englishOnly } from '../../../words/spoken.ts';
import type { TaskOf } from '../work/protocol.ts';
import type { Sitting } from '../work/sitting.ts';
import { say } from '../work/words.ts';

type Props = {
  readonly sitting: Sitting;
  readonly task: TaskOf<'react'>;
  readonly heading: { current: HTMLHeadingElement | null };
};

/** Trouble, told as it comes; what one would do is put in order by buttons, for any hand and any key. */
export function ReactTask({ sitting, task, heading }: Props) {
  const [said, speak] = useState('');
  const kept = sitting.work.value[task.id];
  const steps = kept?.kind === 'react' ? kept.steps : [];
  const textOf = (id: string) => task.choices.find((one) => one.id === id)?.text ?? id;

  function put(next: readonly string[], words: string, focus: string): void {
    sitting.change(task.id, { kind: 'react', steps: [...next] });
    speak(words);
    requestAnimationFrame(() => document.getElementById(focus)?.focus());
  }
  function move(id: string, by: -1 | 1): void {
    const from = steps.indexOf(id);
    const next = steps.filter((one) => one !== id);
    next.splice(from + by, 0, id);
    const number = from + by + 1;
    // at either end only the way back is left
    const to = (by < 0 && number === 1) || (by > 0 && number === steps.length) ? -by : by;
    put(
      next,
      say('react.moved', { number, step: textOf(id) }),
      `react-${to < 0 ? 'up' : 'down'}-${id}`,
    );
  }
  const rest = task.choices.filter(({ id }) => !steps.includes(id));

  return (
    <section class="sitting-sheet sitting-sheet--wide">
      <h2 ref={heading} tabIndex={-1} lang={englishOnly()}>
        {task.title}
      </h2>
      <p class="lead" lang={englishOnly()}>
        {task.tells}
      </p>
      <p>{say('react.say')}</p>
      <p class="unseen" role="status">
        {said}
      </p>
      <div class="sitting-order">
        <section>
          <h3 id="react-mine" tabIndex={-1}>
            {say('react.mine')}
          </h3>
          {steps.length === 0 ? (
            <p class="hint">{say('react.none')}</p>
          ) : (
            <ol>
              {steps.map((id, i) => (
                <li key={id}>
                  <span lang={englishOnly()}>{textOf(id)}</span>
                  <span class="sitting-moves">
                    {i > 0 && (
                      <Small
                        id={`react-up-${id}`}
                        name={say('react.up', { step: textOf(id) })}
                        sign="↑"
                        onClick={() => move(id, -1)}
                      />
                    )}
                    {i < steps.length - 1 && (
                      <Small
                        id={`react-down-${id}`}
                        name={say('react.down', { step: textOf(id) })}
                        sign="↓"
                        onClick={() => move(id, 1)}
                      />
                    )}
                    <Small
                      id={`react-out-${id}`}
                      name={say('react.out', { step: textOf(id) })}
                      sign="✕"
                      onClick={() =>
                        put(
                          steps.filter((one) => one !== id),
                          say('react.removed', { step: textOf(id) }),
                          'react-mine',
                        )
                      }
                    />
                  </span>
                </li>
              ))}
            </ol>
          )}
        </section>
        <section>
          <h3 id="react-rest" tabIndex={-1}>
            {say('react.rest')}
          </h3>
          <ul>
            {rest.map(({ id, text }) => (
              <li key={id}>
                <button
                  type="button"
                  class="sitting-step"
                  aria-label={say('react.add', { step: text })}
                  onClick={() =>
                    put(
                      [...steps, id],
                      say('react.added', { number: steps.length + 1, step: text }),
                      'react-rest',
                    )
                  }
                >
                  <span lang={englishOnly()}>{text}</span>
                </button>
              </li>
            ))}
          </ul>
        </section>
      </div>
    </section>
  );
}

type SmallProps = {
  readonly id: string;
  readonly name: string;
  readonly sign: string;
  readonly onClick: () => void;
};

const Small = ({ id, name, sign, onClick }: SmallProps) => (
  <button type="button" id={id} class="button button--quiet" aria-label={name} onClick={onClick}>
    <span aria-hidden="true">{sign}</span>
  </button>
);
