import { can } from '../can.ts';
import { peopleOf } from '../people.ts';
import { grant, type Outcome, refuseAs } from '../problems.ts';
import type { Site } from '../site.ts';
import type { Viewer } from '../viewer.ts';
import { type Row, rowsOfPerson } from './rows-of.ts';

/** Everything held about one person, as a file of their own. */
export type OwnData = {
  readonly schema: 'signed-to-saw/own-data/1';
  /** ISO instant */
  readonly takenAt: string;
  readonly person: string;
  readonly organisation: { readonly id: string; readonly name: string };
  /** rows of tables, without what would open something such as a password */
  readonly tables: Readonly<Record<string, readonly Row[]>>;
  readonly groups: readonly string[];
  /** records of the log about this person, as they stand there */
  readonly aboutYou: readonly unknown[];
  /** records that name this person without being about them, such as a near miss at a machine */
  readonly namingYou: readonly unknown[];
  /** what this person entered about others or machines: that it was, without what it says of others */
  readonly byYou: readonly Row[];
  /** addresses where the proofs this person holds can be taken as files */
  readonly proofs: readonly string[];
  /** names behind the opaque ids above, as needed to understand them */
  readonly names: Readonly<Record<string, string>>;
};

const parse = (json: string): unknown => {
  try {
    return JSON.parse(json);
  } catch {
    return { unreadable: true };
  }
};

async function recordsOf({ org, person }: Viewer, { store }: Site) {
  const rows = await store.db
    .selectFrom('event')
    .select(['id', 'kind', 'by', 'about', 'json'])
    .where('org', '=', org)
    .where((or) =>
      or.or([
        or('about', '=', person),
        or('by', '=', person),
        // ids are letters, digits, - and _: of those only _ means something else here
        or('json', 'like', `%"${person.replaceAll('_', '\\_')}"%`),
      ]),
    )
    .orderBy('seq')
    .execute();
  const named = rows.filter(({ about, json }) => about !== person && json.includes(`"${person}"`));
  return {
    about: rows.filter(({ about }) => about === person),
    // about a machine or the organisation: about another person it would tell of them
    other: named,
  };
}

/** What is held about the viewer, in one value to be written as JSON. */
export async function ownData(
  viewer: Viewer | null,
  site: Site,
  now: Date = new Date(),
): Promise<Outcome<OwnData>> {
  if (viewer === null || !can(viewer, 'my-data.read', viewer)) {
    return refuseAs(403, '', { key: 'privacy.own' });
  }
  const { org, person } = viewer;
  const { db } = site.store;
  const people = await peopleOf(org, site);
  const ids = new Set(people.map((one) => one.person));
  const { about, other } = await recordsOf(viewer, site);
  const isOfOthers = (of: string | null) => of !== null && of !== person && ids.has(of);
  const namingYou = other.filter(({ about: of }) => !isOfOthers(of));
  const groups = await db
    .selectFrom('person_group_member')
    .innerJoin('person_group', 'person_group.id', 'person_group_member.group')
    .select('person_group.name')
    .where('person_group_member.person', '=', person)
    .execute();
  const organisation = await db
    .selectFrom('organisation')
    .select(['id', 'name'])
    .where('id', '=', org)
    .executeTakeFirstOrThrow();
  const whole = [...about, ...namingYou].map(({ json }) => json).join('\n');
  return grant({
    schema: 'signed-to-saw/own-data/1',
    takenAt: now.toISOString(),
    person,
    organisation,
    tables: await rowsOfPerson(db, person),
    groups: groups.map(({ name }) => name),
    aboutYou: about.map(({ json }) => parse(json)),
    namingYou: namingYou.map(({ json }) => parse(json)),
    byYou: other
      .filter((one) => one.by === person && isOfOthers(one.about))
      .map(({ id, kind, about: of }) => ({ id, kind, about: of })),
    proofs: about.flatMap(({ id, kind }) => {
      if (kind === 'practical.signed') return [`/proof/${id}`];
      return kind === 'authorisation.given' ? [`/proof/leave/${id}`] : [];
    }),
    names: Object.fromEntries(
      people
        .filter((one) => whole.includes(`"${one.person}"`))
        .map((one) => [one.person, one.name]),
    ),
  });
}
