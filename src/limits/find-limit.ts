import type { Limit } from './limit.ts';
import type { LimitSet } from './limit-set.ts';

/** A limit by its id, whose first word is the id of its set: `gb.knife.gap`. Undefined when there is none. */
export const findLimit = (sets: ReadonlyMap<string, LimitSet>, id: string): Limit | undefined =>
  sets.get(setOfLimit(id))?.limits.find((limit) => limit.id === id);

/** The id of the set a limit's id names, whether there is such a set or not. */
export const setOfLimit = (id: string): string => id.split('.')[0] ?? '';
