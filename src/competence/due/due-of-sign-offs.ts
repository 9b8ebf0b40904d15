import { addDays, type Day, dayOf } from '../dates.ts';
import { standingPracticals } from '../status/deciding.ts';
import { statusOf } from '../status/work-status.ts';
import type { Due, DueAsked } from './due.ts';
import { makeDue } from './make-due.ts';

/** Sign-offs whose first end is near or passed as long ago, and those that wait for a second trainer. */
export function dueOfSignOffs(asked: DueAsked): Due[] {
  const { benches, notice, people, today } = asked;
  const oldest: Day = addDays(today, -(Date.parse(notice) - Date.parse(today)) / 86_400_000);
  return people
    .filter(({ role }) => role !== 'employer')
    .flatMap(({ person }) =>
      benches.flatMap((bench) =>
        bench.work.flatMap((work): Due[] => {
          const parts = { person, bench: bench.id, works: [work], of: [person, bench.id, work] };
          const { because } = statusOf({ ...asked, person, bench: bench.id, work });
          const ends = because
            .flatMap(({ until }) => (until === null ? [] : [until]))
            .filter((until) => until <= notice && until >= oldest)
            .sort();
          const [first] = ends;
          const ending: Due[] =
            first === undefined
              ? []
              : [
                  makeDue({
                    ...parts,
                    kind: first < today ? 'sign-off-ended' : 'sign-off-ends',
                    day: first,
                    who: ['trainee', 'trainer', 'employer'],
                  }),
                ];
          return [...ending, ...waitingOf(asked, { person, bench: bench.id, work })];
        }),
      ),
    );
}

/** Sign-offs of one place that a second trainer has still to look at, each unit by itself. */
function waitingOf(
  { log, now, units }: DueAsked,
  place: { readonly person: string; readonly bench: string; readonly work: string },
): Due[] {
  return units
    .filter((unit) => unit.work.includes(place.work))
    .flatMap((unit) => standingPracticals(log, { ...place, unit: unit.id }, now).waiting)
    .map(({ event }) =>
      makeDue({
        person: place.person,
        bench: place.bench,
        works: [place.work],
        of: [event.id],
        kind: 'awaits-cosign',
        day: dayOf(event.received),
        who: ['trainer'],
      }),
    );
}
