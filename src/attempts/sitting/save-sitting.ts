import type { z } from 'zod';
import { grant, type Outcome, refuse, type Site, type Viewer } from '../../accounts/index.ts';
import type { Work } from '../../assessment/index.ts';
import type { StoreWrite } from '../../store/index.ts';
import { readRequest } from '../requests.ts';
import { type EndedSitting, endedBefore, endSitting } from './end-sitting.ts';
import { goesOnFrom } from './keep-work.ts';
import { heldRow, type OpenRow, signInFirst, workIn } from './open-row.ts';
import { HandInSchema, MoreSchema, SaveSchema } from './requests.ts';
import { GRACE, isOver, MORE, type ToldTime, tellTime } from './time.ts';

export type SavedSitting =
  | { readonly state: 'saved'; readonly revision: number; readonly time: ToldTime }
  | EndedSitting;

const CHANGED =
  'What is kept here has moved on since this tab last spoke, so this was not taken; the test is opened again as it stands.';
const UNDONE =
  'What was done at the bench stays done: this leaves out something that was kept before, so it was not taken.';

/** The work of this request, if it may stand: nothing older, nothing undone. */
function mayStand(row: OpenRow, revision: number, work: Work): Outcome<Work> {
  const before = workIn(row);
  if (revision !== row.revision) {
    // the answer to the very same saving was lost on its way
    if (JSON.stringify(before) === JSON.stringify(work)) return grant(before);
    return refuse(409, 'revision', CHANGED);
  }
  return goesOnFrom(before, work) ? grant(work) : refuse(409, 'work', UNDONE);
}

/**
 * The attempt this tab holds with the work that may stand in it, or what the request is answered with.
 * What comes after the end does not count; what was kept before it does.
 */
async function standingWork(
  site: Site,
  tx: StoreWrite,
  viewer: Viewer,
  asked: Pick<z.output<typeof HandInSchema>, 'attempt' | 'hold' | 'revision' | 'work'>,
  now: Date,
): Promise<
  { readonly row: OpenRow; readonly work: Work } | { readonly answer: Outcome<EndedSitting> }
> {
  const held = await heldRow(tx.db, viewer, asked, now);
  if (!held.ok) return { answer: held };
  const row = held.value;
  if (isOver(row)) {
    return { answer: await endSitting(site, tx, row, workIn(row), 'time-over', now) };
  }
  const work = mayStand(row, asked.revision, asked.work);
  return work.ok ? { row, work: work.value } : { answer: work };
}

const clockOf = ({ used, away }: OpenRow, contactAt: Date | null) => ({
  used,
  away,
  contactAt: contactAt?.toISOString() ?? null,
});

async function write(db: StoreWrite['db'], attempt: string, set: Partial<OpenRow>): Promise<void> {
  await db.updateTable('open_sitting').set(set).where('attempt', '=', attempt).execute();
}

/** An attempt that is over answers every later sending with how it ended. */
async function orEnded<Told>(
  site: Site,
  viewer: Viewer,
  attempt: string,
  outcome: Outcome<Told>,
): Promise<Outcome<Told | EndedSitting>> {
  if (outcome.ok || outcome.refusal.status !== 410) return outcome;
  return (await endedBefore(site, viewer, attempt)) ?? outcome;
}

/** Keeps what was done so far: `{attempt, hold, revision, work, pause}` in; the time that is left out. */
export async function saveSitting(
  site: Site,
  viewer: Viewer | null,
  body: unknown,
  now: Date = new Date(),
): Promise<Outcome<SavedSitting>> {
  if (viewer === null) return signInFirst();
  const read = readRequest(SaveSchema, body);
  if (!read.ok) return read;
  const { attempt, pause } = read.value;
  const saved = await site.store.write(async (tx): Promise<Outcome<SavedSitting>> => {
    const standing = await standingWork(site, tx, viewer, read.value, now);
    if ('answer' in standing) return standing.answer;
    const { row } = standing;
    const text = JSON.stringify(standing.work);
    const next = text === row.work ? row.revision : row.revision + 1;
    await write(tx.db, attempt, {
      ...clockOf(row, pause ? null : now),
      work: text,
      revision: next,
    });
    return grant({ state: 'saved', revision: next, time: tellTime(row) });
  });
  return orEnded(site, viewer, attempt, saved);
}

/** Ten minutes more, as often as they are asked for: `{attempt, hold}` in. */
export async function askMoreTime(
  site: Site,
  viewer: Viewer | null,
  body: unknown,
  now: Date = new Date(),
): Promise<Outcome<SavedSitting>> {
  if (viewer === null) return signInFirst();
  const read = readRequest(MoreSchema, body);
  if (!read.ok) return read;
  const given = await site.store.write(async ({ db }): Promise<Outcome<SavedSitting>> => {
    const held = await heldRow(db, viewer, read.value, now);
    if (!held.ok) return held;
    const row = held.value;
    const allowed = row.allowed === null ? null : Math.max(row.allowed, row.used - GRACE) + MORE;
    const extensions = row.extensions + (allowed === null ? 0 : 1);
    await write(db, row.attempt, { ...clockOf(row, now), allowed, extensions });
    return grant({ state: 'saved', revision: row.revision, time: tellTime({ ...row, allowed }) });
  });
  return orEnded(site, viewer, read.value.attempt, given);
}

/** Hands the form in: `{attempt, hold, revision, work}` in. What was handed in first stands. */
export async function handInSitting(
  site: Site,
  viewer: Viewer | null,
  body: unknown,
  now: Date = new Date(),
): Promise<Outcome<EndedSitting>> {
  if (viewer === null) return signInFirst();
  const read = readRequest(HandInSchema, body);
  if (!read.ok) return read;
  const ended = await site.store.write(async (tx): Promise<Outcome<EndedSitting>> => {
    const standing = await standingWork(site, tx, viewer, read.value, now);
    if ('answer' in standing) return standing.answer;
    return endSitting(site, tx, standing.row, standing.work, 'handed-in', now);
  });
  return orEnded(site, viewer, read.value.attempt, ended);
}
