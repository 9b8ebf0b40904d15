import { randomBytes } from 'node:crypto';
import { can, grant, type Outcome, refuse, type Site, type Viewer } from '../accounts/index.ts';
import { figureAsked, hangRack, type Task, type TaskRack } from '../assessment/index.ts';
import type { Bench, FigureUnit } from '../bench/index.ts';
import { canonicalBytes, newId, sha256, toHex } from '../records/index.ts';
import { type Choices, choicesOf } from './choices.ts';
import { readRequest, StartSchema } from './requests.ts';
import { benchOf, findTask, rackOf, rulesOf, versionsOf } from './rules.ts';
import { sealTicket, type Ticket } from './ticket.ts';

/** What the page is given: a bench, the task, and lists of words that are the same for every bench. */
export type Given = {
  readonly token: string;
  readonly attempt: string | null;
  readonly bench: Bench;
  readonly task: Omit<Task, 'bench' | 'spoil' | 'rack' | 'predict'> & {
    /** titles of the limit sets in force, in their order */
    readonly heldTo: readonly string[];
    /** numbers to write down beforehand, each with the unit of its answer; no answer */
    readonly predict?: readonly AskedBeforehand[];
  };
  /** what hangs beside the bench, where something is to be chosen */
  readonly rack?: TaskRack;
  readonly choices: Choices;
};

export type AskedBeforehand = {
  readonly id: string;
  readonly ask: string;
  readonly unit: FigureUnit;
};

/**
 * Gives a bench for a task. For somebody signed in who may make attempts it is entered in the log;
 * for anybody else nothing is kept, and the page carries all there is.
 */
export async function startAttempt(
  site: Site,
  viewer: Viewer | null,
  body: unknown,
): Promise<Outcome<Given>> {
  const read = readRequest(StartSchema, body);
  if (!read.ok) return read;
  const task = findTask(site.contentDir, read.value.task);
  if (task === null) return refuse(404, 'task', `There is no task named ${read.value.task}.`);

  const seed = randomBytes(16).toString('hex');
  const bench = benchOf(site.contentDir, task, seed);
  const attempt = await enterStart(site, viewer, task, seed, bench);
  const token = sealTicket(site, { task: task.id, seed, issued: Date.now(), attempt });
  const { bench: _from, spoil: _spoil, rack: _rack, predict, ...shown } = task;
  const rack = rackOf(site.contentDir, task);
  return grant({
    token,
    attempt: attempt?.id ?? null,
    bench,
    task: {
      ...shown,
      heldTo: rulesOf(site.contentDir, task).sets.map(({ title }) => title),
      ...(predict && {
        predict: predict.map((asked) => ({
          id: asked.id,
          ask: asked.ask,
          unit: figureAsked(bench, asked).unit,
        })),
      }),
    },
    choices: choicesOf(site),
    ...(rack && { rack: hangRack(bench, rack) }),
  });
}

async function enterStart(
  site: Site,
  viewer: Viewer | null,
  task: Task,
  seed: string,
  bench: Bench,
): Promise<Ticket['attempt']> {
  if (viewer === null || !can(viewer, 'attempt.make', viewer)) return null;
  const id = newId();
  await site.store.append({
    // the same as the attempt's, so that an attempt is found by its id
    id,
    kind: 'attempt.started',
    version: 1,
    org: viewer.org,
    at: new Date().toISOString(),
    by: viewer.person,
    about: viewer.person,
    body: {
      attempt: id,
      task: task.id,
      seed,
      benchHash: toHex(sha256(canonicalBytes(bench))),
      versions: versionsOf(site.contentDir, task),
    },
  });
  return { id, person: viewer.person, org: viewer.org, submission: newId() };
}
