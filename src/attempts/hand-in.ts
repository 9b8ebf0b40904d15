import { grant, type Outcome, refuse, type Site, type Viewer } from '../accounts/index.ts';
import { gradeAttempt, type Move, type SaidBeforehand, type Task } from '../assessment/index.ts';
import type { Claim } from '../grading/index.ts';
import { isIdConflict } from '../store/index.ts';
import { findAttempt } from './read-attempts.ts';
import { HandInSchema, readRequest, VerdictSchema } from './requests.ts';
import { benchOf, findTask, rulesOf, versionsOf } from './rules.ts';
import { type SaidGrade, type SaidSetting, sayGrade, saySettings } from './say-grade.ts';
import { readTicket, type Ticket } from './ticket.ts';

type Open = { readonly ticket: Ticket; readonly task: Task };

const STALE =
  'This bench was not given out here, or too long ago; take a fresh one. Nothing you did is marked against you.';

/** The task a token was given for, once it is clear that this viewer may go on with it. */
function openWork(site: Site, viewer: Viewer | null, token: string): Outcome<Open> {
  const ticket = readTicket(site, token, new Date());
  const task = ticket === null ? null : findTask(site.contentDir, ticket.task);
  if (ticket === null || task === null) return refuse(410, 'token', STALE);
  if (ticket.attempt !== null && ticket.attempt.person !== viewer?.person) {
    return refuse(
      401,
      'token',
      'This attempt belongs to somebody who is not signed in here; sign in as that person and send it again. Your work is still on this page.',
    );
  }
  return grant({ ticket, task });
}

/** How the settings stand now, in practice only: in a test nothing is told before the end. */
export function tellVerdict(
  site: Site,
  viewer: Viewer | null,
  body: unknown,
): Outcome<{ readonly settings: readonly SaidSetting[] }> {
  const read = readRequest(VerdictSchema, body);
  if (!read.ok) return read;
  const open = openWork(site, viewer, read.value.token);
  if (!open.ok) return open;
  const { task, ticket } = open.value;
  if (task.mode === 'test') {
    return refuse(403, 'token', 'In a test nothing is told before you hand in.');
  }
  const rules = rulesOf(site.contentDir, task);
  const start = benchOf(site.contentDir, task, ticket.seed);
  const grade = gradeAttempt({ task, start, actions: read.value.actions, claims: [] }, rules);
  return grant({ settings: saySettings(grade.settings, rules.sets, grade.end) });
}

export type HandedIn = SaidGrade & { readonly attempt: string | null; readonly stored: boolean };

/**
 * Takes an attempt in and grades it, from the seed and the actions alone. Handing in twice enters it
 * once: what was handed in first stands, and is what the second answer tells of.
 */
export async function handIn(
  site: Site,
  viewer: Viewer | null,
  body: unknown,
): Promise<Outcome<HandedIn>> {
  const read = readRequest(HandInSchema, body);
  if (!read.ok) return read;
  const open = openWork(site, viewer, read.value.token);
  if (!open.ok) return open;
  const { ticket, task } = open.value;
  const { actions, claims, said = [] } = read.value;

  if (ticket.attempt !== null) {
    await enterOnce(site, ticket.attempt, {
      actions,
      claims,
      said,
      versions: versionsOf(site.contentDir, task),
    });
    const kept = await findAttempt(site, ticket.attempt.org, ticket.attempt.id);
    if (kept?.grade) return grant({ ...kept.grade, attempt: kept.id, stored: true });
  }
  const rules = rulesOf(site.contentDir, task);
  const start = benchOf(site.contentDir, task, ticket.seed);
  const grade = sayGrade(gradeAttempt({ task, start, actions, claims, said }, rules), rules);
  return grant({ ...grade, attempt: null, stored: false });
}

async function enterOnce(
  site: Site,
  attempt: NonNullable<Ticket['attempt']>,
  work: {
    readonly actions: readonly Move[];
    readonly claims: readonly Claim[];
    readonly said: readonly SaidBeforehand[];
    readonly versions: Record<string, string>;
  },
): Promise<void> {
  try {
    await site.store.append({
      id: attempt.submission,
      kind: 'attempt.submitted',
      version: 2,
      org: attempt.org,
      at: new Date().toISOString(),
      by: attempt.person,
      about: attempt.person,
      body: {
        attempt: attempt.id,
        actions: work.actions.map((action) => ({ ...action })),
        claims: work.claims.map((claim) => ({ ...claim })),
        said: work.said.map((one) => ({ ...one })),
        versions: work.versions,
      },
    });
  } catch (error) {
    // it was handed in before, at another moment or with other words: the first one stands
    if (!isIdConflict(error)) throw error;
  }
}
