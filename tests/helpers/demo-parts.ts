import { openSite, type Person, peopleOf, type Site } from '../../src/accounts/index.ts';
import { type RegisteredBench, registerOf } from '../../src/competence/index.ts';
import { type Authorisation, authorisationMeaningOf, newId } from '../../src/records/index.ts';
import { asSite } from '../../src/store/index.ts';
import type { Site as RunningSite } from './site.ts';

/** The invented workshop as a store has it: its people by name, and its first bench, AL-01. */
export type DemoParts = {
  readonly org: string;
  readonly bench: RegisteredBench;
  readonly person: (name: string) => Person;
};

export async function partsOfDemo(site: Site): Promise<DemoParts> {
  const { id: org } = await site.store.db
    .selectFrom('organisation')
    .select('id')
    .executeTakeFirstOrThrow();
  const people = await peopleOf(org, site);
  const stored = await site.store.events({ org, kinds: ['bench.registered'] });
  const [bench] = registerOf(stored.flatMap(({ event }) => (event === null ? [] : [event])));
  if (bench === undefined) throw new Error('the demo has no bench');
  const person = (name: string): Person => {
    const found = people.find((one) => one.name === name);
    if (found === undefined) throw new Error(`the demo has no ${name}`);
    return found;
  };
  return { org, bench, person };
}

/** Does something in the store of a running site, beside it and as the site itself. */
export async function besideSite<Result>(
  { data, url, database }: RunningSite,
  work: (site: Site) => Promise<Result>,
): Promise<Result> {
  const site = await openSite({
    dataDir: data,
    contentDir: 'content',
    address: new URL(url),
    database,
  });
  try {
    return await asSite(() => work(site));
  } finally {
    await site.store.close();
  }
}

/** What a leave says beside who, where and by whom. */
export type LeaveSaid = Pick<
  Authorisation,
  'basis' | 'conditions' | 'from' | 'largest' | 'supervised' | 'until'
>;

/** Enters leave in writing to rip on the bench of the demo. Returns its id. */
export async function enterLeave(
  { store }: Site,
  { bench, org }: Pick<DemoParts, 'bench' | 'org'>,
  {
    by,
    role,
    who,
  }: { readonly who: Person; readonly by: Person; readonly role: 'trainer' | 'employer' },
  said: LeaveSaid,
  at: string = new Date().toISOString(),
): Promise<string> {
  const id = newId();
  const statement: Omit<Authorisation, 'meaning'> = {
    schema: 'authorisation/1',
    id,
    org,
    who: { person: who.person, nameHash: who.nameHash },
    by: { person: by.person, nameHash: by.nameHash, role },
    bench: { id: bench.id, asset: bench.asset },
    work: ['rip'],
    age: { rule: 'local-law', answer: 'old-enough' },
    ...said,
  };
  await store.append({
    id,
    kind: 'authorisation.given',
    version: 1,
    org,
    at,
    by: by.person,
    about: who.person,
    body: { statement: { ...statement, meaning: authorisationMeaningOf(statement) } },
  });
  return id;
}
