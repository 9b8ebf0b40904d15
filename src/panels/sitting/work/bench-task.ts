import type { Action } from '../../../bench/index.ts';
import { createAttempt } from '../../bench/work/attempt.ts';
import { createDesk } from '../../bench/work/desk.ts';
import type { Server, Started } from '../../bench/work/protocol.ts';
import { EMPTY_DRAFT } from '../../bench/work/shelf.ts';
import { rackStep } from '../../rack/rack-step.ts';
import type { FormAnswer, SittingGiven, TaskOf } from './protocol.ts';
import type { Sitting } from './sitting.ts';
import { say } from './words.ts';

export type BenchTask = {
  readonly attempt: ReturnType<typeof createAttempt>;
  readonly desk: ReturnType<typeof createDesk>;
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
  desk.rack.value = rack;
  void attempt.begin();
  void attempt.carryOn();
  return { attempt, desk };
}
