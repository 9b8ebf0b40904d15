import type { Bench } from '../bench/index.ts';
import type { Rack } from '../grading/index.ts';
import type { SetTask } from './form/form.ts';
import { OWN } from './form/index.ts';
import { INSERTS } from './form/inserts.ts';

/** What hangs beside a bench to choose from, and what is on it at the start. */
export type TaskRack = Pick<SetTask, 'mounted' | 'blades' | 'knives' | 'inserts'> & {
  readonly ownSlot: number;
};

/** The rack beside a bench: what the bench came with hangs in none. */
export function hangRack({ blade, insert }: Bench, rack: Rack): TaskRack {
  const [left, right] = insert.gaps;
  return {
    mounted: { blade: OWN, knife: OWN, insert: OWN },
    blades: rack.blades,
    knives: rack.knives,
    inserts: INSERTS,
    ownSlot: blade.kerf + left + right,
  };
}
