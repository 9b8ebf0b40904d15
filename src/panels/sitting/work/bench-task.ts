import { type Move, makeMove, type Setting, startSetting } from '../../../assessment/index.ts';
import type { Action, Bench, Step } from '../../../bench/index.ts';
import { createAttempt } from '../../bench/work/attempt.ts';
import { createDesk } from '../../bench/work/desk.ts';
import type { Server, Started } from '../../bench/work/protocol.ts';
import { EMPTY_DRAFT } from '../../bench/work/shelf.ts';
import type { FormAnswer, SittingGiven, TaskOf } from './protocol.ts';
import type { Sitting } from './sitting.ts';
import { say } from './words.ts';

export type BenchTask = {
  readonly attempt: ReturnType<typeof createAttempt>;
  readonly desk: ReturnType<typeof createDesk>;
  /** what of the rack is on a bench of this task now */
  readonly settingOf: (bench: Bench) => Setting | null;
};

/** A task of a form is opened and handed in with the form, never by itself. */
const NOBODY: Server = {
  start: async () => ({ ok: false, kind: 'refused', message: '' }),
  verdict: async () => ({ ok: false, kind: 'refused', message: '' }),
  handIn: async () => ({ ok: false, kind: 'refused', message: '' }),
};

type Task = TaskOf<'find'> | TaskOf<'set'>;

const startedOf = (task: Task, { form, choices }: SittingGiven): Started => ({
  token: '',
  attempt: null,
  bench: task.bench,
  task: {
    id: task.id,
    title: say(`task.${task.kind}`),
    brief: say(`brief.${task.kind}`),
    mode: form.mode,
    limits: form.limits.map(({ id }) => id),
    heldTo: form.limits.map(({ title }) => title),
    faults: task.kind === 'find',
    settings: task.kind === 'set' ? [...task.settings] : [],
    sitting: true,
  },
  choices,
});

/** The rack knows what is mounted; the bench itself does not, so it is noted beside each bench. */
function rackStep(task: TaskOf<'set'>) {
  const settings = new WeakMap<Bench, Setting>();
  settings.set(task.bench, startSetting(task));
  const settingOf = (bench: Bench) => settings.get(bench) ?? null;
  const step = (bench: Bench, action: Action): Step => {
    const state = settingOf(bench) ?? { ...startSetting(task), bench };
    const next = makeMove(state, action as Move, task);
    settings.set(next.state.bench, next.state);
    return { bench: next.state.bench, effects: next.effects as Step['effects'] };
  };
  return { settingOf, step };
}

/** The bench of one task, with all that was done at it so far; what is done is told to the sitting. */
export function openBenchTask(task: Task, from: SittingGiven, sitting: Sitting): BenchTask {
  const rack = task.kind === 'set' ? rackStep(task) : null;
  const answer = sitting.work.value[task.id];
  const done =
    answer?.kind === 'find' ? answer.actions : answer?.kind === 'set' ? answer.moves : [];
  const claims = answer?.kind === 'find' ? answer.findings : [];
  let last = answer === undefined ? '' : JSON.stringify([done, claims]);
  const attempt = createAttempt(
    task.id,
    NOBODY,
    {
      read: () => ({
        version: 1,
        started: startedOf(task, from),
        actions: done as readonly Action[],
        claims,
        draft: sitting.drafts.get(task.id) ?? EMPTY_DRAFT,
        outcome: null,
      }),
      write: (kept) => {
        sitting.jot(task.id, kept.draft);
        const now = JSON.stringify([kept.actions, kept.claims]);
        if (now !== last) {
          last = now;
          const { actions, claims: findings } = kept;
          sitting.change(
            task.id,
            (task.kind === 'find'
              ? { kind: 'find', actions, findings }
              : { kind: 'set', moves: actions }) as FormAnswer,
          );
        }
        return sitting.isKept.value;
      },
    },
    rack?.step,
  );
  const desk = createDesk(attempt);
  void attempt.begin();
  void attempt.carryOn();
  return { attempt, desk, settingOf: rack?.settingOf ?? (() => null) };
}
