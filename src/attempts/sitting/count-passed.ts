import type { Site } from '../../accounts/index.ts';
import { gradeSitting, type SittingRecord, sittingsOf } from './read-sittings.ts';

/** One person's tests, each counted by its newest that was handed in. */
export type PersonTests = {
  readonly handedIn: number;
  readonly passed: number;
  /** handed in and not graded again here yet */
  readonly waiting: number;
};

/** What a handed-in test came to never changes: it is kept while the site runs. */
const known = new Map<string, boolean>();
const MOST_KNOWN = 20_000;
/** Making a form again takes tens of ms: a board grades this many at a time and goes on at the next look. */
const GRADED_AT_ONCE = 25;

/** The newest handed-in test of each person on each blueprint. */
function newestOf(records: readonly SittingRecord[]): SittingRecord[] {
  const seen = new Set<string>();
  return records.filter(({ person, blueprint, handedInAt, remark }) => {
    const key = `${person} ${blueprint.id}`;
    if (handedInAt === null || remark !== null || seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** How many tests each of some people handed in and passed, from one reading of the log. */
export async function testsByPerson(
  site: Site,
  org: string,
  whose: readonly string[],
): Promise<ReadonlyMap<string, PersonTests>> {
  const people = new Map<string, PersonTests>();
  let left = GRADED_AT_ONCE;
  for (const record of newestOf(await sittingsOf(site, org, whose))) {
    const key = `${org} ${record.id}`;
    if (!known.has(key) && left > 0) {
      left -= 1;
      // many in a row must not keep everybody else waiting
      await new Promise((next) => setImmediate(next));
      const { graded } = await gradeSitting(site, org, record);
      if (known.size >= MOST_KNOWN) known.clear();
      known.set(key, graded?.grade.passed === true);
    }
    const before = people.get(record.person) ?? { handedIn: 0, passed: 0, waiting: 0 };
    const passed = known.get(key);
    people.set(record.person, {
      handedIn: before.handedIn + 1,
      passed: before.passed + Number(passed === true),
      waiting: before.waiting + Number(passed === undefined),
    });
  }
  return people;
}
