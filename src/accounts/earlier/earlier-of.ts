import { nameHash } from '../../records/index.ts';
import type { Site } from '../site.ts';

/** Earlier training a paper states of somebody, and nobody here has seen. */
export type Earlier = {
  /** id of the event */
  readonly id: string;
  readonly person: string;
  readonly machine: string;
  readonly day: string;
  readonly until: string | null;
  readonly enteredBy: string;
  /** ISO instant */
  readonly enteredAt: string;
  /** null when the words no longer fit the hash in the log, or are gone */
  readonly words: {
    readonly training: string;
    readonly givenBy: string;
    readonly paper: string;
  } | null;
};

export type EarlierWords = NonNullable<Earlier['words']>;

/** What of the words goes into the log: a salted hash, so that a change shows and the words can go. */
export const hashEarlier = ({ training, givenBy, paper }: EarlierWords, salt: string): string =>
  nameHash(JSON.stringify([training, givenBy, paper]), salt);

/** What is stated of one person, or of everybody, and not taken back; the latest training first. */
export async function earlierOf(org: string, site: Site, person?: string): Promise<Earlier[]> {
  const about = person === undefined ? {} : { about: person };
  const events = await site.store.events({
    org,
    kinds: ['earlier.stated', 'earlier.withdrawn'],
    ...about,
  });
  let query = site.store.db.selectFrom('earlier_training').selectAll().where('org', '=', org);
  if (person !== undefined) query = query.where('person', '=', person);
  const words = new Map((await query.execute()).map((row) => [row.event, row]));
  const gone = new Set(
    events.flatMap(({ event }) => (event?.kind === 'earlier.withdrawn' ? [event.body.stated] : [])),
  );
  return events
    .flatMap(({ event, broken }): Earlier[] => {
      if (event?.kind !== 'earlier.stated' || broken !== null || gone.has(event.id)) return [];
      const row = words.get(event.id);
      const isSame = row !== undefined && hashEarlier(row, row.salt) === event.body.wordsHash;
      const { machine, day, until } = event.body;
      return [
        {
          id: event.id,
          person: event.about ?? '',
          machine,
          day,
          until,
          enteredBy: event.by,
          enteredAt: event.received,
          words: isSame ? { training: row.training, givenBy: row.givenBy, paper: row.paper } : null,
        },
      ];
    })
    .sort((a, b) => b.day.localeCompare(a.day));
}
