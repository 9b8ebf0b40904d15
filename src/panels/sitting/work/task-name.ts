import type { ShownTask } from './protocol.ts';
import { say } from './words.ts';

/** What a part of the form is called; figures are numbered, trouble has its own title. */
export function taskName(task: ShownTask): string {
  if (task.kind === 'react') return task.title;
  if (task.kind !== 'limit') return say(`task.${task.kind}`);
  const number = /\d+$/.exec(task.id)?.[0];
  return number === undefined ? say('task.limit') : `${say('task.limit')} ${number}`;
}
