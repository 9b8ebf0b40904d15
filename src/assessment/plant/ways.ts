import type { Bench } from '../../bench/index.ts';
import type { Sense } from '../blueprint/index.ts';
import type { Random } from '../random.ts';
import { type Amendment, amend } from './amend.ts';
import { type Course, movePast, moveUpTo } from './move-past.ts';
import type { LookAlike, Spoiler } from './spoiler.ts';

type Change = (bench: Bench, random: Random) => Amendment<Bench> | null;

/** A thing that is simply so: a crack, a clamp left open. `change` gives null where it cannot be. */
export const plainly = (fault: string, group: string, sense: Sense, change: Change): Spoiler => ({
  fault,
  group,
  sense,
  margins: ['plain'],
  spoil: ({ bench, random }) => {
    const changes = change(bench, random);
    return changes === null ? null : amend(bench, changes);
  },
});

/** A setting past its limit, near it or far. */
export const pastLimit = (fault: string, group: string, sense: Sense, course: Course): Spoiler => ({
  fault,
  group,
  sense,
  margins: ['near', 'far'],
  spoil: (given) => movePast(given, course),
});

/** A setting just inside a limit. */
export const insideLimit = (
  id: string,
  like: string,
  group: string,
  course: Course,
): LookAlike => ({
  id,
  group,
  like,
  apply: (given) => moveUpTo(given, course),
});

/** A thing that looks odd and is not wrong. */
export const harmless = (id: string, like: string, group: string, change: Change): LookAlike => ({
  id,
  group,
  like,
  apply: ({ bench, random }) => {
    const changes = change(bench, random);
    return changes === null ? null : amend(bench, changes);
  },
});
