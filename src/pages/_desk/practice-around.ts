import {
  type LogEvent,
  mayWork,
  type PracticeSession,
  practiceOf,
} from '../../competence/index.ts';
import type { EventOf } from '../../records/index.ts';
import type { Workshop } from './workshop.ts';

const isNoted = (event: LogEvent): event is EventOf<'practice.noted'> =>
  event.kind === 'practice.noted' && event.altered !== true;

/** Sessions that name this person as the supervisor and wait for an answer, the oldest first. */
export function sessionsToConfirm(
  { events }: Pick<Workshop, 'events'>,
  supervisor: string,
  at: string,
): PracticeSession[] {
  const people = new Set(
    events
      .filter(isNoted)
      .filter(({ body }) => body.supervisor === supervisor)
      .flatMap(({ about }) => (about === null ? [] : [about])),
  );
  return [...people]
    .flatMap((person) => practiceOf(events, person, at).sessions)
    .filter((one) => one.supervisor === supervisor && one.state === 'awaits')
    .sort((a, b) => a.startedAt.localeCompare(b.startedAt));
}

/** Who may be named as a supervisor at all: trainers, and those authorised for some work on some bench today. */
export function supervisorsFor(
  { people, benches, events, units, nameOf }: Workshop,
  person: string,
  at: string,
): { readonly person: string; readonly name: string; readonly role: string }[] {
  const mayAnywhere = (who: string) =>
    benches.some(({ id, work }) =>
      work.some(
        (one) =>
          mayWork({ events, person: who, bench: id, work: one, at, units, nameOf }).state === 'may',
      ),
    );
  const trainers = people.filter(({ role }) => role === 'trainer');
  const others = people.filter((one) => one.role !== 'trainer' && mayAnywhere(one.person));
  return [...trainers, ...others].filter((one) => one.person !== person);
}
