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
import type { StoredEvent } from '../store/index.ts';
import { type Speaker, sayIn } from '../words/say.ts';
import { benchOf, findTask, rulesOf, versionsOf } from './rules.ts';
import { type SaidGrade, sayGrade } from './say-grade.ts';

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

/** Attempts of one person, or of everybody in the organisation, newest first; told in English unless a speaker is told. */
export async function attemptsOf(
  site: Site,
  org: string,
  person?: string,
  say: Speaker = sayIn('en'),
): Promise<AttemptRecord[]> {
  const stored = await site.store.events({
    org,
    kinds: ['attempt.started', 'attempt.submitted'],
    ...(person === undefined ? {} : { about: person }),
  });
  const submitted = new Map<string, StoredEvent<'attempt.submitted'>>();
  const started: StoredEvent<'attempt.started'>[] = [];
  for (const one of stored) {
    if (one.event?.kind === 'attempt.submitted') {
      submitted.set(one.event.body.attempt, one as StoredEvent<'attempt.submitted'>);
    } else if (one.event?.kind === 'attempt.started') {
      started.push(one as StoredEvent<'attempt.started'>);
    }
  }
  return started
    .flatMap((one) => {
      const { event } = one;
      return event === null
        ? []
        : [readAttempt(site, one, event, submitted.get(event.body.attempt), say)];
    })
    .reverse();
}

/** One attempt of the organisation, or null when it has no such attempt. */
export async function findAttempt(
  site: Site,
  org: string,
  id: string,
  say?: Speaker,
): Promise<AttemptRecord | null> {
  return (await attemptsOf(site, org, undefined, say)).find((attempt) => attempt.id === id) ?? null;
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
