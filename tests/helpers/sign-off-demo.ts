import { openSite, peopleOf } from '../../src/accounts/index.ts';
import { addDays, dayOf, registerOf } from '../../src/competence/index.ts';
import { asSite } from '../../src/store/index.ts';
import { signOffInFull } from '../book/signed-off.ts';
import type { Site } from './site.ts';

/** Signs somebody of the demo off in full for ripping on AL-01, beside the running site. */
export async function signOffDemo({ data, url, database }: Site, name: string): Promise<string[]> {
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
      const bench = registerOf(stored.flatMap(({ event }) => (event === null ? [] : [event])))[0];
      const [who, trainer] = [name, 'Ruth Amsel'].map((one) =>
        people.find((person) => person.name === one),
      );
      if (bench === undefined || who === undefined || trainer === undefined) {
        throw new Error('the demo has no such person or bench');
      }
      const day = addDays(dayOf(new Date().toISOString()), -1);
      return await signOffInFull(site, { trainer, who, org, bench, work: 'rip', day });
    });
  } finally {
    await site.store.close();
  }
}
