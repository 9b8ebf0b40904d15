import type { Task } from './task-schema.ts';

export type TaskKind = 'predict' | 'find' | 'choose' | 'set' | 'measure' | 'cut';

/** What a task asks for, in the order it is done. */
export function kindsOf(task: Task): readonly TaskKind[] {
  const asks: readonly (readonly [TaskKind, boolean])[] = [
    ['predict', task.predict !== undefined],
    ['find', task.faults],
    ['choose', task.choose === true],
    ['set', task.settings.length > 0],
    ['measure', task.readings !== undefined],
    ['cut', task.cut === true],
  ];
  return asks.flatMap(([kind, asked]) => (asked ? [kind] : []));
}
