import { z } from 'zod';
import { can, type Site, type Viewer } from '../../accounts/index.ts';
import { describeProblem } from '../../bench/index.ts';
import type { DraftOf } from '../../records/index.ts';
import { eventsAt } from './append-once.ts';
import { draftFor } from './draft-for.ts';
import { enterTogether } from './enter-together.ts';
import { readFields } from './form-fields.ts';
import { type Done, refused, refusedFor } from './refused.ts';
import { whyNotWrite } from './workshop.ts';

const AnswersSchema = z
  .array(
    z.object({
      /** of the event, made where the answer is given */
      id: z.uuidv7({ error: 'must be a UUID of version 7' }),
      session: z.uuidv7({ error: 'must be a session' }),
      answer: z.enum(['yes', 'no'], { error: 'must be yes or no' }),
      note: z.string().trim().max(300, { error: 'must be text of at most 300 characters' }),
    }),
  )
  .min(1, { error: 'must answer at least one' })
  .max(100, { error: 'must answer at most 100 at once' });

/** The answers of a posted list; sessions left for later are left out. */
export async function readAnswers(request: Request) {
  const { one: field, all } = await readFields(request);
  return all('session')
    .map((session) => ({
      session,
      id: field(`id-${session}`),
      answer: field(`answer-${session}`),
      note: field(`note-${session}`),
    }))
    .filter(({ answer }) => answer !== '' && answer !== 'later');
}

type Confirmed = DraftOf<'practice.confirmed'>;

/**
 * The named supervisor confirms or refuses sessions, several at once: all of them are entered, or none.
 * A refusal says why.
 */
export async function confirmPractice(
  viewer: Viewer | null,
  input: unknown,
  site: Site,
): Promise<Done<{ readonly entered: number }>> {
  if (viewer === null) return refusedFor(401, '', whyNotWrite(null));
  const read = AnswersSchema.safeParse(input);
  if (!read.success) {
    const { path, message } = describeProblem(read.error, 'The form');
    if (path === '') return refusedFor(400, '', 'practice.no.answers');
    return path.endsWith('note')
      ? refusedFor(400, path, 'practice.no.note')
      : refused(400, path, message);
  }
  const drafts: Confirmed[] = [];
  for (const { id, session, answer, note } of read.data) {
    const noted = (await site.store.event(session))?.event;
    if (noted?.org !== viewer.org || noted.kind !== 'practice.noted' || noted.about === null) {
      return refusedFor(404, 'session', 'practice.no.session');
    }
    const { about } = noted;
    const isTheirs = noted.body.supervisor === viewer.person;
    if (!isTheirs || !can(viewer, 'practice.confirm', { org: viewer.org, person: about })) {
      return refusedFor(403, 'session', 'practice.no.confirm-right');
    }
    if (answer === 'no' && note === '')
      return refusedFor(400, `note-${session}`, 'practice.no.why');
    const before = await site.store.events({
      org: viewer.org,
      kinds: ['practice.confirmed'],
      about,
    });
    const answered = before.some(({ event }) => event?.body.session === session && event.id !== id);
    if (answered) return refusedFor(409, 'session', 'practice.no.answered');
    const body = { session, answer, note: note === '' ? null : note };
    drafts.push(draftFor(viewer, 'practice.confirmed', { id, about, body }));
  }
  const [first, ...rest] = drafts;
  if (first === undefined) return refusedFor(400, '', 'practice.no.answers');
  const entered = await enterTogether(
    first,
    site,
    async () => ({ ok: true, value: rest }),
    async (write) => {
      for (const { about, body, org } of drafts) {
        const filter = { org, about: about ?? '', kinds: ['practice.confirmed'] as const };
        const answered = await eventsAt(write, filter);
        if (answered.some((one) => one.body.session === body.session)) {
          return refusedFor(409, 'session', 'practice.no.answered');
        }
      }
      return null;
    },
  );
  return entered.ok ? { ok: true, value: { entered: drafts.length } } : entered;
}
