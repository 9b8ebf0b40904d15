import {
  type AttemptRules,
  GENERATOR_VERSION,
  makeFreshBench,
  type Task,
} from '../assessment/index.ts';
import { type Bench, ENGINE_VERSION } from '../bench/index.ts';
import type { LimitSet } from '../limits/index.ts';
import {
  ContentProblem,
  loadBenches,
  loadFaultCatalogue,
  loadLimitSets,
  loadTasks,
} from '../store/content-files.ts';

/** A task by its id, or null. */
export const findTask = (contentDir: string, id: string): Task | null =>
  loadTasks(contentDir).get(id) ?? null;

/** The limit sets of a task, in its order. @throws ContentProblem when it names an unknown one */
function setsOf(contentDir: string, task: Task): LimitSet[] {
  const sets = loadLimitSets(contentDir);
  return task.limits.map((id) => {
    const set = sets.get(id);
    if (set === undefined) {
      throw new ContentProblem(
        `The task ${task.id} names the limit set ${id}, which is not there.`,
      );
    }
    return set;
  });
}

/** What an attempt at this task is graded against. */
export const rulesOf = (contentDir: string, task: Task): AttemptRules => ({
  sets: setsOf(contentDir, task),
  catalogue: loadFaultCatalogue(contentDir),
});

/** The bench a seed gives for a task. @throws ContentProblem when the task names an unknown bench */
export function benchOf(contentDir: string, task: Task, seed: string): Bench {
  const sound = loadBenches(contentDir).get(task.bench);
  if (sound === undefined) {
    throw new ContentProblem(
      `The task ${task.id} names the bench ${task.bench}, which is not there.`,
    );
  }
  return makeFreshBench(sound, task.spoil ?? null, seed);
}

/** Versions of everything a grade rests on, kept with the attempt. */
export function versionsOf(contentDir: string, task: Task): Record<string, string> {
  const sets = setsOf(contentDir, task).map(({ id, version }) => `${id}@${version}`);
  return { engine: ENGINE_VERSION, generator: GENERATOR_VERSION, limits: sets.join(' ') };
}
