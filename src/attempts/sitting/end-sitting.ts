import { grant, type Outcome, type Site, type Viewer } from '../../accounts/index.ts';
import type { Work } from '../../assessment/index.ts';
import type { StoreWrite } from '../../store/index.ts';
import type { OpenRow } from './open-row.ts';
import { sittingRules, sittingVersions } from './sitting-rules.ts';

/** Where a sitting that is over can be read, and when its result is shown. Nothing of the result itself. */
export type EndedSitting = {
  readonly state: 'ended';
  readonly ended: 'handed-in' | 'time-over' | 'test-changed';
  readonly feedback: 'now' | 'later';
  readonly review: string;
};

const told = (
  attempt: string,
  ended: EndedSitting['ended'],
  feedback: EndedSitting['feedback'],
): EndedSitting => ({ state: 'ended', ended, feedback, review: `/sittings/${attempt}` });

const seconds = (ms: number) => Math.round(ms / 1000);

/** Enters what was done and closes the attempt, in the transaction it was read in. */
export async function endSitting(
  site: Site,
  { db, append }: StoreWrite,
  row: OpenRow,
  work: Work,
  ended: EndedSitting['ended'],
  now: Date,
): Promise<Outcome<EndedSitting>> {
  const rules = sittingRules(site, row.blueprint);
  await append({
    id: row.handInEvent,
    kind: 'sitting.handed-in',
    version: 1,
    org: row.org,
    at: now.toISOString(),
    by: row.person,
    about: row.person,
    body: {
      attempt: row.attempt,
      work: JSON.parse(JSON.stringify(work)),
      ended,
      usedSeconds: seconds(row.used),
      awaySeconds: seconds(row.away),
      extensions: row.extensions,
      versions: rules === null ? { blueprint: 'no longer there' } : sittingVersions(rules),
    },
  });
  await db.deleteFrom('open_sitting').where('attempt', '=', row.attempt).execute();
  return grant(told(row.attempt, ended, row.feedback));
}

/** What a second sending of an attempt that is over is answered with, or null when it is not over. */
export async function endedBefore(
  site: Site,
  viewer: Viewer,
  attempt: string,
): Promise<Outcome<EndedSitting> | null> {
  const stored = await site.store.events({
    org: viewer.org,
    kinds: ['sitting.handed-in', 'sitting.started'],
    about: viewer.person,
  });
  const events = stored.flatMap(({ event }) => event ?? []);
  const end = events.find(
    (one) => one.kind === 'sitting.handed-in' && one.body.attempt === attempt,
  );
  const start = events.find(
    (one) => one.kind === 'sitting.started' && one.body.attempt === attempt,
  );
  if (end?.kind !== 'sitting.handed-in' || start?.kind !== 'sitting.started') return null;
  return grant(told(attempt, end.body.ended, start.body.feedback));
}
