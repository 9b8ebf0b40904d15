import { useEffect, useRef, useState } from 'preact/hooks';
import type { Sitting } from '../work/sitting.ts';
import { taskName } from '../work/task-name.ts';
import { say } from '../work/words.ts';

type Props = {
  readonly sitting: Sitting;
  readonly at: string | null;
  readonly onTurn: (task: string) => void;
  readonly onHandIn: () => void;
};

/** Above the part that is open: the parts, the time, what is kept where, and the ways out. */
export function Head({ sitting, at, onTurn, onHandIn }: Props) {
  const tasks = sitting.given.value?.form.tasks ?? [];
  const work = sitting.work.value;
  const bar = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const box = bar.current;
    const root = box?.parentElement;
    if (!box || !root) return;
    const seen = new ResizeObserver(() =>
      root.style.setProperty('--sitting-head', `${box.offsetHeight}px`),
    );
    seen.observe(box);
    return () => seen.disconnect();
  }, []);
  return (
    <div class="sitting-head" ref={bar}>
      <nav aria-label={say('head.tasks')}>
        <ol>
          {tasks.map((task) => (
            <li key={task.id}>
              <button
                type="button"
                aria-current={task.id === at ? 'step' : undefined}
                onClick={() => onTurn(task.id)}
              >
                {taskName(task)}
                {Object.hasOwn(work, task.id) && (
                  <>
                    <span aria-hidden="true"> ✓</span>
                    <span class="unseen">, {say('head.answered')}</span>
                  </>
                )}
              </button>
            </li>
          ))}
        </ol>
      </nav>
      <div class="sitting-ways">
        <Left sitting={sitting} />
        <Kept sitting={sitting} />
        <button type="button" class="button button--quiet" onClick={() => sitting.pause()}>
          {say('head.pause')}
        </button>
        <button type="button" class="button button--main" onClick={onHandIn}>
          {say('head.hand-in')}
        </button>
      </div>
      <Notes sitting={sitting} />
    </div>
  );
}

function Kept({ sitting }: { readonly sitting: Sitting }) {
  const state = !sitting.isOnline.value ? 'offline' : sitting.isSaved.value ? 'saved' : 'saving';
  return (
    <p class="sitting-kept" data-state={state}>
      <span role={state === 'offline' ? 'status' : undefined}>{say(`head.${state}`)}</span>
    </p>
  );
}

/** s before the end at which it is said, and more time can be asked for (WCAG 2.2.1 asks for 20). */
const WARN = 120;

/** The time that is left, once a second; it is spoken only when it is nearly over. */
function Left({ sitting }: { readonly sitting: Sitting }) {
  const [left, setLeft] = useState(sitting.leftNow());
  const isOver = useRef(false);
  useEffect(() => {
    const look = (): void => {
      const now = sitting.leftNow();
      setLeft(now);
      if (now !== 0) isOver.current = false;
      else if (!isOver.current) {
        isOver.current = true;
        void sitting.handIn();
      }
    };
    look();
    const clock = setInterval(look, 1000);
    return () => clearInterval(clock);
  }, [sitting.told.value]);
  if (left === null) return null;
  const seconds = Math.ceil(left / 1000);
  return (
    <>
      <p class="sitting-left">
        {seconds > WARN
          ? say('head.left', { minutes: Math.ceil(seconds / 60) })
          : say('head.left-last', { seconds })}
      </p>
      {seconds <= WARN && (
        <div class="sitting-warn notice" data-kind="warning">
          <div role="alert">
            <p>
              <strong>{say('warn.title')}</strong> {say('warn.say')}
            </p>
          </div>
          <button type="button" class="button button--main" onClick={() => void sitting.askMore()}>
            {say('warn.more')}
          </button>
        </div>
      )}
    </>
  );
}

function Notes({ sitting }: { readonly sitting: Sitting }) {
  const { notice, trouble, isKept } = sitting;
  return (
    <>
      {notice.value !== null && (
        <div class="sitting-note">
          <p role="status">{notice.value}</p>
          <button
            type="button"
            class="button button--quiet"
            aria-label={say('notice.close')}
            onClick={() => {
              notice.value = null;
            }}
          >
            ✕
          </button>
        </div>
      )}
      {trouble.value !== null && (
        <p class="problem" role="alert">
          {trouble.value}
        </p>
      )}
      {!isKept.value && <p class="hint">{say('head.not-kept')}</p>}
    </>
  );
}
