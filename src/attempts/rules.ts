import {
  type AttemptRules,
  GENERATOR_VERSION,
  makeFreshBench,
  type Task,
} from '../assessment/index.ts';
import { type Bench, ENGINE_VERSION } from '../bench/index.ts';
import type { Rack } from '../grading/index.ts';
import type { LimitSet } from '../limits/index.ts';
import { canonicalBytes, sha256, toHex } from '../records/index.ts';
import {
  ContentProblem,
  loadBenches,
  loadFaultCatalogue,
  loadLimitSets,
  loadRacks,
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
  rack: rackOf(contentDir, task),
});

/** The rack of a task, the workshop's own where it names none; null where nothing is chosen. @throws ContentProblem */
export function rackOf(contentDir: string, task: Task): Rack | null {
  if (task.choose !== true) return null;
  const racks = loadRacks(contentDir);
  const rack = task.rack === undefined ? [...racks.values()][0] : racks.get(task.rack);
  if (rack !== undefined) return rack;
  throw new ContentProblem(
    `The task ${task.id} names the rack ${task.rack ?? '(the first)'}, which is not there.`,
  );
}

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
  const rack = rackOf(contentDir, task);
  return {
    engine: ENGINE_VERSION,
    generator: GENERATOR_VERSION,
    limits: sets.join(' '),
    ...(rack && { rack: `${rack.id}@${toHex(sha256(canonicalBytes(rack))).slice(0, 12)}` }),
  };
}
