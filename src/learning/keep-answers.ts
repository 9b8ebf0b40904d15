import { can, grant, type Outcome, refuse, type Site, type Viewer } from '../accounts/index.ts';
import { type Answer, mergeAnswers } from '../assessment/review/index.ts';
import { describeProblem } from '../bench/index.ts';
import { KeepSchema } from './requests.ts';

/*
 * What somebody answered in the lessons. These answers are private and prove nothing: nobody is signed off,
 * passed or failed by them, so they lie in a table their owner may empty, and not in the log. An employer only
 * reads here: their answers stay on their device.
 */

/** The questions there are: lesson to ids. */
export type QuestionBank = ReadonlyMap<string, ReadonlySet<string>>;

/** What a device is told about the person signed in on it. */
export type KeptLearning = {
  /** opaque id: which of the answers on the device are theirs */
  readonly person: string;
  /** oldest first */
  readonly answers: readonly Answer[];
  /** bench tasks begun while signed in */
  readonly tasks: readonly string[];
};

/** Most answers kept for one person: a course gone over every week for years. */
export const MOST_KEPT = 20_000;

const SIGN_IN: Outcome<never> = refuse(
  401,
  '',
  'Sign in first: answers are kept for the person signed in.',
);

/** Answers of one person, from every device, oldest first. */
export async function answersOf({ store }: Site, person: string): Promise<readonly Answer[]> {
  const rows = await store.db
    .selectFrom('learning_answer')
    .select(['id', 'lesson', 'question', 'right', 'at'])
    .where('person', '=', person)
    .execute();
  const answers = rows.map((row): Answer => ({ ...row, right: row.right === 1 }));
  return mergeAnswers(answers, []);
}

/** Answers of some people of an organisation, oldest first, from one reading; at most some hundred people. */
export async function answersByPerson(
  { store }: Site,
  org: string,
  whose: readonly string[],
): Promise<ReadonlyMap<string, readonly Answer[]>> {
  const rows = await store.db
    .selectFrom('learning_answer')
    .innerJoin('membership', 'membership.person', 'learning_answer.person')
    .select(['membership.person', 'id', 'lesson', 'question', 'right', 'at'])
    .where('membership.org', '=', org)
    .where('membership.person', 'in', whose)
    .execute();
  const people = Map.groupBy(rows, ({ person }) => person);
  return new Map(
    [...people].map(([person, own]) => [
      person,
      mergeAnswers(
        own.map(({ person: _, ...row }): Answer => ({ ...row, right: row.right === 1 })),
        [],
      ),
    ]),
  );
}

/** Bench tasks somebody has begun while signed in, by the log. */
export async function tasksBegun({ store }: Site, org: string, person: string): Promise<string[]> {
  const events = await store.events({ org, kinds: ['attempt.started'], about: person });
  return [...new Set(events.flatMap(({ event }) => (event === null ? [] : [event.body.task])))];
}

/** What is kept for the person signed in; null for nobody. */
export async function readLearning(
  site: Site,
  viewer: Viewer | null,
): Promise<KeptLearning | null> {
  if (viewer === null || !can(viewer, 'learning.keep', viewer)) return null;
  const { org, person } = viewer;
  return {
    person,
    answers: await answersOf(site, person),
    tasks: await tasksBegun(site, org, person),
  };
}

/**
 * Keeps answers of the person signed in: `{person, answers}` in, everything kept out. An answer that is kept
 * already stays as it is. A clock that is ahead is put back to now; answers to questions that are no longer
 * asked are left out, since a lesson may change while a device is away.
 */
export async function keepAnswers(
  site: Site,
  viewer: Viewer | null,
  body: unknown,
  bank: QuestionBank,
  now: Date = new Date(),
): Promise<Outcome<KeptLearning>> {
  if (viewer === null || !can(viewer, 'learning.keep', viewer)) return SIGN_IN;
  const read = KeepSchema.safeParse(body);
  if (!read.success) {
    const { path, message } = describeProblem(read.error, 'The request');
    return refuse(400, path, message);
  }
  const { person, answers } = read.data;
  if (person !== viewer.person) {
    return refuse(
      409,
      'person',
      'These answers belong to somebody else than the person signed in.',
    );
  }
  const received = now.toISOString();
  const rows = answers
    .filter(({ lesson, question }) => bank.get(lesson)?.has(question))
    .map(({ right, at, ...rest }) => {
      const given = new Date(Math.min(Date.parse(at), now.getTime())).toISOString();
      return { ...rest, person, right: right ? 1 : 0, at: given, received };
    });
  const isFull = await site.store.write(async ({ db }) => {
    const { kept } = await db
      .selectFrom('learning_answer')
      .select(({ fn }) => fn.countAll<number>().as('kept'))
      .where('person', '=', person)
      .executeTakeFirstOrThrow();
    if (kept + rows.length > MOST_KEPT) return true;
    if (rows.length > 0) {
      await db
        .insertInto('learning_answer')
        .values(rows)
        .onConflict((same) => same.columns(['person', 'id']).doNothing())
        .execute();
    }
    return false;
  });
  if (isFull) {
    const message = `At most ${MOST_KEPT} answers are kept for one person; erase those kept to go on.`;
    return refuse(409, 'answers', message);
  }
  return grant((await readLearning(site, viewer)) as KeptLearning);
}

/** Erases every answer kept for the person signed in. Nothing else of theirs is touched. */
export async function eraseAnswers(
  site: Site,
  viewer: Viewer | null,
): Promise<Outcome<KeptLearning>> {
  if (viewer === null || !can(viewer, 'learning.keep', viewer)) return SIGN_IN;
  const { person } = viewer;
  await site.store.write(({ db }) =>
    db.deleteFrom('learning_answer').where('person', '=', person).execute(),
  );
  return grant((await readLearning(site, viewer)) as KeptLearning);
}
