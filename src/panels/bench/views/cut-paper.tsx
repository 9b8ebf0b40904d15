import { useEffect, useRef } from 'preact/hooks';
import { type Bench, type Turning, turningOf } from '../../../bench/index.ts';
import type { Attempt } from '../work/attempt.ts';
import { type CutRun, cutRunOf, type Run, slowedBy } from '../work/cut-run.ts';
import { sayCut, sayState, seconds } from '../work/cut-words.ts';
import type { Desk } from '../work/desk.ts';
import { focusSoon } from '../work/focus-soon.ts';
import { CutResult, Moments } from './cut-result.tsx';
import { Group } from './group.tsx';
import '../styles/cut.css';

type Props = { readonly attempt: Attempt; readonly desk: Desk };

/** Start, feed, stop, wait: a trial cut on the bench as it stands, told moment by moment. */
export function CutPaper({ attempt, desk }: Props) {
  const bench = attempt.bench.value;
  const cutting = cutRunOf(attempt, desk);
  if (bench === null) return null;
  const run = cutting.run.value;
  const last = cutting.last.value;
  return (
    <div class="bench-cut">
      <h2>{sayCut('title')}</h2>
      <p class="bench-cut-state" data-turning={turningOf(bench)}>
        <Wheel />
        {run === null ? sayState(bench) : sayCut('feeding')}
      </p>
      <Buttons bench={bench} desk={desk} cutting={cutting} />
      {run !== null && <Feeding run={run} cutting={cutting} />}
      {run === null && last !== null && <CutResult bench={last.bench} cut={last.cut} />}
      <p class="hint">{sayCut('caution')}</p>
    </div>
  );
}

type ButtonsProps = {
  readonly bench: Bench;
  readonly desk: Desk;
  readonly cutting: CutRun;
};

/** The same four in the same places whatever the saw does, as at the saw. Pressed in vain, each says why. */
function Buttons({ bench, desk, cutting }: ButtonsProps) {
  const next = nextOf(turningOf(bench), cutting);
  const look = (which: string) => `button bench-cut-button${which === next ? ' button--main' : ''}`;
  return (
    <Group class="bench-cut-buttons" name={sayCut('buttons')}>
      <button type="button" class={look('start')} onClick={() => desk.act({ do: 'start' })}>
        {sayCut('start')}
      </button>
      <button type="button" class={look('stop')} onClick={() => desk.act({ do: 'stop' })}>
        {sayCut('stop')}
      </button>
      <button type="button" class={look('feed')} onClick={() => cutting.begin()}>
        {sayCut('feed')}
      </button>
      <button type="button" class={look('wait')} onClick={() => desk.act({ do: 'wait' })}>
        {sayCut('wait')}
      </button>
    </Group>
  );
}

/** The one that comes next in the order of work. */
function nextOf(turning: Turning, { run, hasCut }: CutRun): 'start' | 'stop' | 'feed' | 'wait' {
  if (turning === 'slowing') return 'wait';
  if (turning === 'still') return 'start';
  return run.value !== null || hasCut.value ? 'stop' : 'feed';
}

type FeedingProps = { readonly run: Run; readonly cutting: CutRun };

/** The cut under way: how far it is, what has happened, and a hand on the picture. */
function Feeding({ run, cutting }: FeedingProps) {
  const { cut, s, isHeld } = run;
  const hands = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const box = hands.current;
    // the keyboard stood on what goes away with the cut
    return () => {
      if (box?.contains(document.activeElement)) focusSoon('bench-cut-result');
    };
  }, []);
  const fed = cut.thrown?.at ?? cut.lasts;
  const percent = Math.min(100, Math.round((100 * s) / fed));
  const isFlying = cut.thrown !== null && s >= cut.thrown.at;
  return (
    <>
      <progress
        class="bench-cut-progress"
        max={100}
        value={percent}
        aria-label={sayCut('progress')}
      />
      <p class="bench-cut-at" aria-hidden="true">
        {isFlying
          ? sayCut('slowed', { times: slowedBy(cut) })
          : isHeld
            ? sayCut('held')
            : sayCut('at', { seconds: seconds(s) })}
      </p>
      <div class="bench-buttons" ref={hands}>
        <button
          type="button"
          class="button"
          onClick={() => (isHeld ? cutting.goOn() : cutting.hold())}
        >
          {sayCut(isHeld ? 'go-on' : 'pause')}
        </button>
        <button type="button" class="button" onClick={() => cutting.finish()}>
          {sayCut('to-end')}
        </button>
      </div>
      <Moments moments={cut.moments.filter(({ at }) => at <= s)} cut={cut} />
    </>
  );
}

/** A blade in outline; its teeth are filled while it turns. */
function Wheel() {
  return (
    <svg viewBox="0 0 40 40" width="32" height="32" aria-hidden="true" focusable="false">
      <path
        d="M20 3l3 4 5-2 1 5 5 1-2 5 5 4-5 4 2 5-5 1-1 5-5-2-3 4-3-4-5 2-1-5-5-1 2-5-5-4 5-4-2-5 5-1 1-5 5 2z"
        stroke="currentColor"
        stroke-width="2"
        stroke-linejoin="round"
      />
      <circle cx="20" cy="20" r="4" stroke="currentColor" stroke-width="2" />
    </svg>
  );
}
