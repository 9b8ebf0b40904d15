import { forWork, onDay, sayToldInEnglish, tell } from '../told/told.ts';
import type { Due, DueKind } from './due.ts';

type Parts = Pick<Due, 'kind' | 'day' | 'who'> & {
  readonly person?: string | null;
  readonly bench?: string | null;
  /** kinds of work it is about */
  readonly works?: readonly string[];
  /** what makes it this one and no other, such as the id of an event */
  readonly of: readonly string[];
};

const one = (works: readonly string[]): string | null =>
  works.length === 1 ? (works[0] as string) : null;

/** One thing due, with its sentence and an id that stays the same while it is due. */
export function makeDue({ bench, day, kind, of, person, who, works = [] }: Parts): Due {
  const told = tell(`due.${kind satisfies DueKind}`, {
    day: onDay(day),
    work: forWork(...works),
    works: forWork(...works),
  });
  return {
    id: [kind, ...of].join(':'),
    kind,
    person: person ?? null,
    bench: bench ?? null,
    work: one(works),
    day,
    told,
    text: sayToldInEnglish(told),
    who,
  };
}
