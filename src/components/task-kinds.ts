import { kindsOf, type Task } from '../assessment/index.ts';
import type { Speaker } from '../words/say.ts';

/** What a task asks for and how it is held, in words: `Set the bench, make a trial cut (practice)`. */
export function sayTaskKinds(task: Task, say: Speaker): string {
  const kinds = kindsOf(task).map((kind) => say(`bench-task.kind.${kind}`));
  return `${kinds.join('; ')} (${say(`bench-task.mode.${task.mode}`)})`;
}
