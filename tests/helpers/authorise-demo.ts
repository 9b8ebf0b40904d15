import { openSite, peopleOf } from '../../src/accounts/index.ts';
import { registerOf } from '../../src/competence/index.ts';
import { type Authorisation, authorisationMeaningOf, newId } from '../../src/records/index.ts';
import { asSite } from '../../src/store/index.ts';
import type { Site } from './site.ts';

/** Leave in writing for somebody of the demo to rip on AL-01, given by Anna Weir, beside the running site. */
export async function authoriseDemo(
  { data, url, database }: Site,
  leave: {
    readonly name: string;
    /** the sign-offs it rests on */
    readonly basis: readonly string[];
    readonly from: string;
    readonly until: string;
    /** when it was given, by the clock of the device */
    readonly at?: string;
    readonly supervised?: Authorisation['supervised'];
  },
): Promise<string> {
  const site = await openSite({
    dataDir: data,
    contentDir: 'content',
    address: new URL(url),
    database,
  });
  try {
    return await asSite(async () => {
      const { id: org } = await site.store.db
        .selectFrom('organisation')
        .select('id')
        .executeTakeFirstOrThrow();
      const people = await peopleOf(org, site);
      const stored = await site.store.events({ org, kinds: ['bench.registered'] });
      const [bench] = registerOf(stored.flatMap(({ event }) => (event === null ? [] : [event])));
      const [who, by] = [leave.name, 'Anna Weir'].map((one) =>
        people.find(({ name }) => name === one),
      );
      if (!bench || !who || !by) throw new Error('the demo has no such person or bench');
      const id = newId();
      const { from, until, supervised = 'as-usual' } = leave;
      const statement: Omit<Authorisation, 'meaning'> = {
        schema: 'authorisation/1',
        id,
        org,
        who: { person: who.person, nameHash: who.nameHash },
        by: { person: by.person, nameHash: by.nameHash, role: 'employer' },
        bench: { id: bench.id, asset: bench.asset },
        work: ['rip'],
        from,
        until,
        supervised,
        largest: { thickness: 60, length: null },
        conditions: [],
        age: { rule: 'local-law', answer: 'old-enough' },
        basis: [...leave.basis],
      };
      await site.store.append({
        id,
        kind: 'authorisation.given',
        version: 1,
        org,
        at: leave.at ?? new Date().toISOString(),
        by: by.person,
        about: who.person,
        body: { statement: { ...statement, meaning: authorisationMeaningOf(statement) } },
      });
      return id;
    });
  } finally {
    await site.store.close();
  }
}
