import { useEffect, useRef } from 'preact/hooks';
import type { Sitting } from '../work/sitting.ts';
import { taskName } from '../work/task-name.ts';
import { say } from '../work/words.ts';

type Props = { readonly sitting: Sitting; readonly onBack: () => void };

/** The last look: which parts were begun, and the one step that cannot be taken back. */
export function HandIn({ sitting, onBack }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  const isBusy = sitting.isBusy.value;
  return (
    <section class="sitting-sheet">
      <h2 ref={heading} tabIndex={-1}>
        {say('hand.title')}
      </h2>
      <ul>
        {sitting.given.value?.form.tasks.map((task) => (
          <li key={task.id}>
            {say(Object.hasOwn(sitting.work.value, task.id) ? 'hand.begun' : 'hand.blank', {
              name: taskName(task),
            })}
          </li>
        ))}
      </ul>
      <p>{say('hand.say')}</p>
      {!sitting.isOnline.value && <p class="hint">{say('hand.nothing-lost')}</p>}
      <p class="actions">
        <button
          type="button"
          class="button button--main"
          aria-disabled={isBusy}
          onClick={() => void sitting.handIn()}
        >
          {say(isBusy ? 'hand.busy' : 'hand.now')}
        </button>
        <button type="button" class="button" onClick={onBack}>
          {say('hand.not-yet')}
        </button>
      </p>
    </section>
  );
}
