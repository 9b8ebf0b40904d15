import type { Site } from '../../accounts/index.ts';
import { type PracticeSession, practiceOf } from '../../competence/index.ts';
import { countPeople } from './matrix/count-people.ts';
import { readTogether } from './read-events.ts';
import type { Workshop } from './workshop.ts';

/** Sessions that are looked through for those that wait, the newest ones. */
const MOST_SESSIONS = 1_000;

/** Sessions that name this person as the supervisor and wait for an answer, the oldest first. */
export async function sessionsToConfirm(
  { org, store }: { readonly org: string; readonly store: Site['store'] },
  supervisor: string,
  at: string,
): Promise<PracticeSession[]> {
  const noted = await store.events({
    ...{ org, kinds: ['practice.noted'], last: MOST_SESSIONS },
    containing: `"supervisor":"${supervisor}"`,
  });
  const answers = await store.events({ org, kinds: ['practice.confirmed'], by: supervisor });
  const { events } = readTogether(noted, answers);
  const people = new Set(
    noted.flatMap(({ broken, event }) => (broken === null ? (event?.about ?? []) : [])),
  );
  return [...people]
    .flatMap((person) => practiceOf(events, person, at).sessions)
    .filter((one) => one.supervisor === supervisor && one.state === 'awaits')
    .sort((a, b) => a.startedAt.localeCompare(b.startedAt));
}

/**
 * Who may be named as a supervisor at all: trainers, and those authorised for some work on some bench today, as
 * far as a large shop is counted.
 */
export async function supervisorsFor(
  { org, people, units }: Pick<Workshop, 'org' | 'people' | 'units'>,
  person: string,
  site: Site,
): Promise<{ readonly person: string; readonly name: string; readonly role: string }[]> {
  const instant = new Date().toISOString();
  const { found } = await countPeople({ org, instant, isNow: true, known: 'now', units }, site);
  const mayAnywhere = (who: string) =>
    found.get(who)?.some(({ state }) => state === 'may') ?? false;
  const trainers = people.filter(({ role }) => role === 'trainer');
  const others = people.filter((one) => one.role !== 'trainer' && mayAnywhere(one.person));
  return [...trainers, ...others].filter((one) => one.person !== person);
}
