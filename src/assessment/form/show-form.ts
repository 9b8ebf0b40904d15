import type { ExamRules } from './exam-rules.ts';
import type { FindTask, Form, FormTask, LimitTask, PlanTask, ReactTask, SetTask } from './form.ts';

type Hidden = 'estimate' | 'planted' | 'lookAlikes' | 'limit' | 'choices';
type Shown<Task> = Omit<Task, Hidden>;

export type ShownFind = Shown<FindTask>;
export type ShownSet = Shown<SetTask>;
export type ShownPlan = Shown<PlanTask>;
export type ShownLimit = Shown<LimitTask>;
export type ShownReact = Omit<Shown<ReactTask>, 'situation'> & {
  readonly choices: readonly { readonly id: string; readonly text: string }[];
};
export type ShownTask = ShownFind | ShownSet | ShownPlan | ShownReact | ShownLimit;

/** What may be sent to whoever sits the test: no seed, no key, no estimate, no verdict. */
export type FormForCandidate = {
  readonly blueprint: { readonly id: string; readonly version: number };
  readonly title: string;
  readonly brief: string;
  readonly mode: 'practice' | 'test';
  /** null where there is no limit of time */
  readonly minutes: number | null;
  /** limit sets in force, the deciding one first; what they say is published on the site */
  readonly limits: readonly { readonly id: string; readonly title: string }[];
  readonly tasks: readonly ShownTask[];
};

/** Field by field, so that a field added to a task stays at home until it is named here. */
function showTask(task: FormTask): ShownTask {
  const { id, weight } = task;
  switch (task.kind) {
    case 'find':
      return { id, kind: task.kind, weight, bench: task.bench };
    case 'set': {
      const { kind, bench, mounted, blades, knives, inserts, settings } = task;
      return { id, kind, weight, bench, mounted, blades, knives, inserts, settings };
    }
    case 'plan': {
      const { kind, bench, stances, sticks, ends } = task;
      return { id, kind, weight, bench, stances, sticks, ends };
    }
    case 'react': {
      const { kind, title, tells } = task;
      const choices = task.choices.map((one) => ({ id: one.id, text: one.text }));
      return { id, kind, weight, title, tells, choices };
    }
    case 'limit': {
      const { kind, bench, ask, set, setTitle, title, end, unit, readings } = task;
      return { id, kind, weight, bench, ask, set, setTitle, title, end, unit, readings };
    }
  }
}

/** The part of a form that leaves the server. */
export function showForm(form: Form, { blueprint, sets }: ExamRules): FormForCandidate {
  return {
    blueprint: form.blueprint,
    title: blueprint.title,
    brief: blueprint.brief,
    mode: blueprint.mode,
    minutes: blueprint.minutes ?? null,
    limits: sets.map(({ id, title }) => ({ id, title })),
    tasks: form.tasks.map(showTask),
  };
}
