import type { z } from 'zod';
import { can, grant, type Outcome, refuse, type Site, type Viewer } from '../../accounts/index.ts';
import {
  type ExamRules,
  type FormForCandidate,
  showForm,
  type Work,
} from '../../assessment/index.ts';
import { newId } from '../../records/index.ts';
import { type Choices, choicesOf } from '../choices.ts';
import { readRequest } from '../requests.ts';
import { endSitting } from './end-sitting.ts';
import { freshSeed } from './fresh-seed.ts';
import { type OpenRow, openRowOf, workIn } from './open-row.ts';
import { OpenSchema } from './requests.ts';
import { settingsFor } from './settings.ts';
import { formOf, sittingRules, sittingVersions } from './sitting-rules.ts';
import { allowedTime, isAlive, runClock, type ToldTime, tellTime } from './time.ts';

/** What is told of a test before it is begun. */
export type SittingCard = {
  readonly blueprint: string;
  readonly title: string;
  readonly brief: string;
  readonly mode: 'practice' | 'test';
  readonly minutes: number | null;
  readonly kinds: readonly ExamRules['blueprint']['tasks'][number]['kind'][];
  readonly heldTo: readonly string[];
  readonly feedback: 'now' | 'later';
};

/** A form as it is sat: no seed, no key, no verdict. */
export type SittingGiven = {
  readonly attempt: string;
  readonly revision: number;
  readonly form: FormForCandidate;
  readonly work: Work;
  readonly time: ToldTime;
  readonly feedback: 'now' | 'later';
  readonly choices: Choices;
};

export type SittingOpened =
  | { readonly state: 'ready'; readonly card: SittingCard }
  | { readonly state: 'held'; readonly card: SittingCard }
  | {
      readonly state: 'other';
      readonly card: SittingCard;
      readonly other: { readonly blueprint: string; readonly title: string };
    }
  | { readonly state: 'open'; readonly card: SittingCard; readonly given: SittingGiven };

type Request = z.output<typeof OpenSchema>;

/**
 * Begins a form, goes on with the one that is open, or says why not. A person sits one at a time; the
 * tab that speaks last with leave to holds it.
 */
export async function openSitting(
  site: Site,
  viewer: Viewer | null,
  body: unknown,
  now: Date = new Date(),
): Promise<Outcome<SittingOpened>> {
  const read = readRequest(OpenSchema, body);
  if (!read.ok) return read;
  if (viewer === null) {
    return refuse(401, 'blueprint', 'Sign in to sit a test: what you do is kept in your record.');
  }
  if (!can(viewer, 'attempt.make', viewer)) {
    return refuse(403, 'blueprint', 'Tests are sat by people who learn here.');
  }
  const request = read.value;
  if (await closeChanged(site, viewer, now)) return refuse(410, 'attempt', CHANGED);
  const rules = sittingRules(site, request.blueprint);
  if (rules === null)
    return refuse(404, 'blueprint', `There is no test named ${request.blueprint}.`);
  const setting = (await settingsFor(site, viewer.org, viewer.person)).find(
    (one) => !one.isUsed && one.blueprint === request.blueprint,
  );
  const feedback = setting?.feedback ?? rules.blueprint.feedback ?? 'now';

  const seed = request.how === 'look' ? '' : await freshSeed(site, viewer, rules, now);
  // found, taken over or begun in one transaction: two tabs that ask at once get one attempt
  const row = await site.store.write(async ({ db, append }) => {
    const found = await openRowOf(db, viewer);
    if (found !== null) return { found, isHeld: await takeUp(db, found, request, now) };
    if (request.how === 'look') return null;
    const begun = begin(
      viewer,
      rules,
      request,
      { feedback, setting: setting?.setting ?? null, seed },
      now,
    );
    await db.insertInto('open_sitting').values(begun.row).execute();
    await append(begun.event);
    return { found: begun.row, isHeld: false };
  });

  const card = cardOf(rules, row?.found.feedback ?? feedback);
  if (row === null) return grant({ state: 'ready', card });
  const { found, isHeld } = row;
  if (found.blueprint !== request.blueprint) {
    const title = sittingRules(site, found.blueprint)?.blueprint.title ?? found.blueprint;
    return grant({ state: 'other', card, other: { blueprint: found.blueprint, title } });
  }
  if (isHeld) return grant({ state: 'held', card });
  return giveOpen(site, viewer, rules, card);
}

const CHANGED =
  'The test you had begun was changed since, so it cannot be shown as it was. What you did is kept and closed; open the page again to begin another.';

/**
 * Closes an open form that can no longer be made as it was begun, so that nobody is held up by it.
 * @returns whether there was one
 */
async function closeChanged(site: Site, viewer: Viewer, now: Date): Promise<boolean> {
  const open = await openRowOf(site.store.db, viewer);
  if (open === null) return false;
  const rules = sittingRules(site, open.blueprint);
  const started = await startOf(site, viewer, open.attempt);
  const stands =
    rules !== null && started !== null && formOf(rules, started.seed).hash === started.formHash;
  if (stands) return false;
  return site.store.write(async (write) => {
    const row = await openRowOf(write.db, viewer);
    if (row?.attempt !== open.attempt) return false;
    await endSitting(site, write, row, workIn(row), 'test-changed', now);
    return true;
  });
}

/** Takes the open form up in this tab; true when another tab is at it and keeps it. */
async function takeUp(
  db: Parameters<Parameters<Site['store']['write']>[0]>[0]['db'],
  row: OpenRow,
  { blueprint, hold, how }: Request,
  now: Date,
): Promise<boolean> {
  if (row.blueprint !== blueprint) return false;
  if (row.hold !== hold && isAlive(row, now) && how !== 'take-over') return true;
  const { used, away } = runClock(row, now);
  await db
    .updateTable('open_sitting')
    .set({ hold, used, away, contactAt: now.toISOString() })
    .where('attempt', '=', row.attempt)
    .execute();
  return false;
}

function begin(
  viewer: Viewer,
  rules: ExamRules,
  { hold, time }: Request,
  {
    feedback,
    setting,
    seed,
  }: {
    readonly feedback: 'now' | 'later';
    readonly setting: string | null;
    readonly seed: string;
  },
  now: Date,
) {
  const { blueprint } = rules;
  const attempt = newId();
  const allowed = allowedTime(blueprint.minutes, time);
  const at = now.toISOString();
  const row: OpenRow = {
    attempt,
    org: viewer.org,
    person: viewer.person,
    blueprint: blueprint.id,
    handInEvent: newId(),
    feedback,
    work: '{}',
    revision: 0,
    hold,
    contactAt: at,
    used: 0,
    away: 0,
    allowed,
    extensions: 0,
    startedAt: at,
  };
  const event = {
    // the same as the attempt's, so that a sitting is found by its id
    id: attempt,
    kind: 'sitting.started' as const,
    version: 1,
    org: viewer.org,
    at,
    by: viewer.person,
    about: viewer.person,
    body: {
      attempt,
      blueprint: blueprint.id,
      blueprintVersion: blueprint.version,
      seed,
      formHash: formOf(rules, seed).hash,
      seconds: allowed === null ? null : Math.round(allowed / 1000),
      time,
      feedback,
      setting,
      versions: sittingVersions(rules),
    },
  };
  return { row, event };
}

/** The form as the log has it begun. */
async function giveOpen(
  site: Site,
  viewer: Viewer,
  rules: ExamRules,
  card: SittingCard,
): Promise<Outcome<SittingOpened>> {
  const row = await openRowOf(site.store.db, viewer);
  const started = row === null ? null : await startOf(site, viewer, row.attempt);
  if (row === null || started === null) {
    return refuse(410, 'attempt', 'This attempt is not open any more.');
  }
  const { form } = formOf(rules, started.seed);
  const given: SittingGiven = {
    attempt: row.attempt,
    revision: row.revision,
    form: showForm(form, rules),
    work: workIn(row),
    time: tellTime(row),
    feedback: row.feedback,
    choices: choicesOf(site),
  };
  return grant({ state: 'open', card, given });
}

async function startOf(site: Site, viewer: Viewer, attempt: string) {
  const stored = await site.store.events({
    org: viewer.org,
    kinds: ['sitting.started'],
    about: viewer.person,
  });
  return stored.find(({ event }) => event?.body.attempt === attempt)?.event?.body ?? null;
}

const cardOf = ({ blueprint, sets }: ExamRules, feedback: 'now' | 'later'): SittingCard => ({
  blueprint: blueprint.id,
  title: blueprint.title,
  brief: blueprint.brief,
  mode: blueprint.mode,
  minutes: blueprint.minutes ?? null,
  kinds: blueprint.tasks.map(({ kind }) => kind),
  heldTo: sets.map(({ title }) => title),
  feedback,
});
