import { useEffect, useRef, useState } from 'preact/hooks';
import type { Attempt } from '../work/attempt.ts';
import type { Desk } from '../work/desk.ts';
import { focusSoon } from '../work/focus-soon.ts';
import { say, sayCount } from '../work/words.ts';
import { fetchResults } from './later.tsx';

type Props = { readonly attempt: Attempt; readonly desk: Desk };

/** What ends the work: asking how close it is, and handing in. Troubles with the server stand here. */
export function Foot({ attempt, desk }: Props) {
  const [isAsking, setAsking] = useState(false);
  const confirm = useRef<HTMLParagraphElement>(null);
  const first = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (isAsking) confirm.current?.focus();
  }, [isAsking]);
  const task = attempt.started.value?.task;
  const busy = attempt.busy.value;
  const canAsk = task?.mode === 'practice' && task.settings.length > 0;

  async function askHowClose(): Promise<void> {
    await Promise.all([attempt.askHowClose(), fetchResults()]);
    if (attempt.trouble.value !== null) return;
    desk.turnTo('job');
    focusSoon('bench-verdict');
  }

  async function handIn(): Promise<void> {
    // a cut under way is seen out: what it comes to belongs to the attempt
    desk.feeding.value?.finish();
    await Promise.all([attempt.handIn(), fetchResults()]);
    if (attempt.phase.value !== 'handed-in') return;
    focusSoon('bench-result');
  }

  if (isAsking) {
    return (
      <div class="bench-foot bench-foot--asking">
        <p ref={confirm} tabIndex={-1}>
          {task?.faults === true
            ? say('foot.sure-faults', { claims: sayCount('faults', attempt.claims.value.length) })
            : say('foot.sure')}
        </p>
        <Trouble attempt={attempt} />
        <div class="bench-foot-row">
          <button
            type="button"
            class="button button--main"
            aria-disabled={busy !== null}
            onClick={() => void handIn()}
          >
            {say(busy === 'hand-in' ? 'foot.handing-in' : 'foot.hand-in-now')}
          </button>
          <button
            type="button"
            class="button"
            onClick={() => {
              setAsking(false);
              requestAnimationFrame(() => first.current?.focus());
            }}
          >
            {say('foot.not-yet')}
          </button>
        </div>
      </div>
    );
  }
  return (
    <div class="bench-foot">
      <Trouble attempt={attempt} />
      <div class="bench-foot-row">
        {canAsk && (
          <button
            type="button"
            class="button"
            aria-disabled={busy !== null}
            onClick={() => void askHowClose()}
          >
            {say(busy === 'verdict' ? 'foot.asking' : 'foot.how-close')}
          </button>
        )}
        <button
          ref={first}
          type="button"
          class="button button--main"
          onClick={() => setAsking(true)}
        >
          {say('foot.hand-in')}
        </button>
      </div>
    </div>
  );
}

function Trouble({ attempt }: { readonly attempt: Attempt }) {
  const trouble = attempt.trouble.value;
  return (
    <>
      {trouble !== null && (
        <p class="problem" role="alert">
          {trouble.message}
          {trouble.kind === 'offline' && ` ${say('foot.nothing-lost')}`}
        </p>
      )}
      {!attempt.isKept.value && <p class="hint">{say('foot.not-kept')}</p>}
    </>
  );
}
