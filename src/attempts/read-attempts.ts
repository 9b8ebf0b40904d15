import { z } from 'zod';
import type { Site } from '../accounts/index.ts';
import {
  type Attempt,
  type AttemptGrade,
  gradeAttempt,
  type Move,
  MoveSchema,
  SaidBeforehandListSchema,
  type Task,
} from '../assessment/index.ts';
import type { Bench } from '../bench/index.ts';
import { type Claim, ClaimsSchema } from '../grading/index.ts';
import type { EventFilter, StoredEvent } from '../store/index.ts';
import { type Speaker, sayIn } from '../words/say.ts';
import { benchOf, findTask, rulesOf, versionsOf } from './rules.ts';
import { type SaidGrade, sayGrade } from './say-grade.ts';
import { whoBegan } from './who-began.ts';

type Started = NonNullable<StoredEvent<'attempt.started'>['event']>;
type Submitted = NonNullable<StoredEvent<'attempt.submitted'>['event']>;

/** One attempt as the log has it, graded again from what was done. */
export type AttemptRecord = {
  readonly id: string;
  readonly person: string;
  readonly task: { readonly id: string; readonly title: string };
  /** ISO instants by the server's clock */
  readonly startedAt: string;
  readonly handedInAt: string | null;
  /** null until handed in, and when it can no longer be graded */
  readonly grade: SaidGrade | null;
  readonly actions: readonly Move[];
  readonly claims: readonly Claim[];
  /** what came of each action, by its index */
  readonly effects: AttemptGrade['effects'];
  /** every trial cut made */
  readonly cuts: AttemptGrade['cuts'];
  /** the bench as it was left; null where it cannot be worked out */
  readonly end: Bench | null;
  /** one sentence where the record cannot be read or graded as it was; null when all is well */
  readonly remark: string | null;
};

const ActionsSchema = z.array(MoveSchema);

type Pair = {
  readonly start: StoredEvent<'attempt.started'>;
  readonly started: Started;
  readonly end: StoredEvent<'attempt.submitted'> | undefined;
};

/** Whose attempts are read: one person's, or some people's; one attempt alone by what its records hold. */
type Whose = Pick<EventFilter, 'about' | 'abouts' | 'containing' | 'last'>;

/** What was started with what was handed in for it, newest first, from one reading of the log. */
async function pairsOf(site: Site, org: string, of: Whose): Promise<Pair[]> {
  const kinds = ['attempt.started', 'attempt.submitted'] as const;
  const stored = await site.store.events({ org, kinds, ...of });
  const submitted = new Map<string, StoredEvent<'attempt.submitted'>>();
  const pairs: Omit<Pair, 'end'>[] = [];
  for (const one of stored) {
    if (one.event?.kind === 'attempt.submitted') {
      submitted.set(one.event.body.attempt, one as StoredEvent<'attempt.submitted'>);
    } else if (one.event?.kind === 'attempt.started') {
      pairs.push({ start: one as StoredEvent<'attempt.started'>, started: one.event });
    }
  }
  return pairs
    .map((pair) => ({ ...pair, end: submitted.get(pair.started.body.attempt) }))
    .reverse();
}

/** Records of attempts that figures about bench tasks rest on: the newest, of every task together. */
const MOST_RECORDS = 4_000;

/** Attempts at one bench task among the newest of an organisation, newest first, each with the bench it was given. */
export async function newestAtTask(
  site: Site,
  org: string,
  task: string,
): Promise<(AttemptRecord & { readonly benchHash: string })[]> {
  const pairs = await pairsOf(site, org, { last: MOST_RECORDS });
  return pairs
    .filter(({ started }) => started.body.task === task)
    .map(({ start, started, end }) => ({
      ...readAttempt(site, start, started, end, sayIn('en')),
      benchHash: started.body.benchHash,
    }));
}

/** What a list needs of an attempt: who, which task, when, and what came of it. */
export type AttemptMark = Pick<
  AttemptRecord,
  'id' | 'person' | 'task' | 'startedAt' | 'handedInAt' | 'grade' | 'remark'
>;

/** Grading takes some ms, and what was handed in never changes: kept while the site runs. */
const marks = new Map<string, AttemptMark>();
const MOST_MARKS = 5_000;

function markOf(site: Site, org: string, { start, started, end }: Pair): AttemptMark {
  // an altered record has another fate than the one it was kept with
  const isWhole = start.broken === null && (end === undefined || end.broken === null);
  const key = `${org}/${started.body.attempt}/${end?.event?.id}/${isWhole}`;
  const known = marks.get(key);
  if (known !== undefined) return known;
  const { id, person, task, startedAt, handedInAt, grade, remark } = readAttempt(
    site,
    start,
    started,
    end,
    sayIn('en'),
  );
  const mark = { id, person, task, startedAt, handedInAt, grade, remark };
  if (end === undefined) return mark;
  if (marks.size >= MOST_MARKS) marks.delete(marks.keys().next().value ?? '');
  marks.set(key, mark);
  return mark;
}

/** Attempts of one person that are looked at, the newest. */
export const MOST_ATTEMPTS = 100;

/** The newest attempts of one person, newest first, handed in or not. */
export async function attemptsOf(site: Site, org: string, person: string): Promise<AttemptMark[]> {
  const pairs = await pairsOf(site, org, { about: person, last: 2 * MOST_ATTEMPTS });
  return pairs.slice(0, MOST_ATTEMPTS).map((pair) => markOf(site, org, pair));
}

/** The newest attempts of some people, at most `most` handed in by each, newest first. */
export async function newestMarks(
  site: Site,
  org: string,
  people: readonly string[],
  most: number,
): Promise<AttemptMark[]> {
  const counted = new Map<string, number>();
  return (await pairsOf(site, org, { abouts: people })).flatMap((pair) => {
    const { end, started } = pair;
    if (end === undefined) return [];
    const person = started.about ?? started.by;
    const count = (counted.get(person) ?? 0) + 1;
    counted.set(person, count);
    return count > most ? [] : [markOf(site, org, pair)];
  });
}

/** One attempt of the organisation, or null when it has no such attempt. */
export async function findAttempt(
  site: Site,
  org: string,
  id: string,
  say?: Speaker,
): Promise<AttemptRecord | null> {
  const about = await whoBegan(site, { attempt: id, kind: 'attempt.started', org });
  if (about === null) return null;
  const pairs = await pairsOf(site, org, { about, containing: `"attempt":"${id}"` });
  const pair = pairs.find(({ started }) => started.body.attempt === id);
  if (pair === undefined) return null;
  return readAttempt(site, pair.start, pair.started, pair.end, say ?? sayIn('en'));
}

function readAttempt(
  site: Site,
  start: StoredEvent<'attempt.started'>,
  started: Started,
  end: StoredEvent<'attempt.submitted'> | undefined,
  say: Speaker,
): AttemptRecord {
  const submitted = end?.event ?? null;
  const task = findTask(site.contentDir, started.body.task);
  const base = {
    id: started.body.attempt,
    person: started.about ?? started.by,
    task: { id: started.body.task, title: task?.title ?? started.body.task },
    startedAt: started.received,
    handedInAt: submitted?.received ?? null,
  };
  const broken = start.broken ?? end?.broken ?? null;
  const nothing = { grade: null, actions: [], claims: [], effects: [], cuts: [], end: null };
  if (broken !== null) {
    return {
      ...base,
      ...nothing,
      remark: say('attempt.remark.broken', { why: broken }),
    };
  }
  if (submitted === null) return { ...base, ...nothing, remark: null };
  if (task === null) {
    return {
      ...base,
      ...nothing,
      remark: say('attempt.remark.no-task'),
    };
  }
  return { ...base, ...gradeStored(site, task, started, submitted, say) };
}

function gradeStored(site: Site, task: Task, started: Started, submitted: Submitted, say: Speaker) {
  const actions = ActionsSchema.safeParse(submitted.body.actions);
  const claims = ClaimsSchema.safeParse(submitted.body.claims);
  const said = SaidBeforehandListSchema.safeParse(submitted.body.said);
  if (!actions.success || !claims.success || !said.success) {
    return {
      grade: null,
      actions: [],
      claims: [],
      effects: [],
      cuts: [],
      end: null,
      remark: say('attempt.remark.not-known'),
    };
  }
  const rules = rulesOf(site.contentDir, task);
  const attempt: Attempt = {
    task,
    start: benchOf(site.contentDir, task, String(started.body.seed)),
    actions: actions.data,
    claims: claims.data,
    said: said.data,
  };
  const grade = gradeAttempt(attempt, rules);
  return {
    grade: sayGrade(grade, rules, say),
    actions: attempt.actions,
    claims: attempt.claims,
    effects: grade.effects,
    cuts: grade.cuts,
    end: grade.end,
    remark: sayChange(versionsOf(site.contentDir, task), submitted.body.versions, say),
  };
}

/** Graded by newer rules than it was made under: said, never hidden. */
function sayChange(
  now: Record<string, string>,
  then: Readonly<Record<string, string>>,
  say: Speaker,
): string | null {
  const changed = Object.keys(now).filter((name) => now[name] !== then[name]);
  if (changed.length === 0) return null;
  const changes = changed
    .map((name) => {
      const was = then[name] ?? say('attempt.remark.change.none');
      return say('attempt.remark.change', { name, was, is: String(now[name]) });
    })
    .join('; ');
  return say('attempt.remark.newer', { changes });
}
