import { z } from 'zod';
import { can, type Site, type Viewer } from '../../accounts/index.ts';
import { describeProblem } from '../../bench/index.ts';
import { appendOnce, eventsAt } from './append-once.ts';
import { findSigned } from './find-signed.ts';
import { type Done, refused, refusedFor } from './refused.ts';

export const ANSWERS = ['agrees', 'disagrees', 'appeals'] as const;
export type Answer = (typeof ANSWERS)[number];

const wordsRule = 'must be at most 500 characters';
const RequestSchema = z.object(
  {
    /** made where the form is, so that pressing twice answers once */
    id: z.uuidv7({ error: 'must be a UUID of version 7' }),
    answer: z.enum(ANSWERS, { error: 'must be agrees, disagrees or appeals' }),
    words: z
      .string({ error: 'must be text' })
      .trim()
      .max(500, { error: wordsRule })
      .default('')
      .transform((words) => words || null),
  },
  { error: 'must hold the fields of the form' },
);

/**
 * The person watched says, under their own sign-in, what they think of the result: each answer once. An
 * appeal asks for somebody else to look at it again.
 */
export async function answerPractical(
  viewer: Viewer | null,
  signoff: string,
  input: unknown,
  site: Site,
): Promise<Done<{ readonly id: string; readonly at: string }>> {
  if (viewer === null) return refusedFor(401, '', 'desk.signed-out');
  const found = await findSigned(viewer, signoff, site);
  if (!found.ok) return found;
  const { about } = found.value;
  if (!can(viewer, 'practical.answer', { org: viewer.org, person: about })) {
    return refusedFor(403, '', 'desk.answer.other');
  }
  const read = RequestSchema.safeParse(input);
  if (!read.success) {
    const { path, message } = describeProblem(read.error, 'The form');
    if (path === 'answer') return refusedFor(400, path, 'desk.answer.form');
    if (path === 'words') return refusedFor(400, path, 'desk.answer.words');
    return refused(400, path, message);
  }
  const { id, answer, words } = read.data;
  if (answer !== 'agrees' && words === null) {
    return refusedFor(400, 'words', 'desk.answer.words');
  }
  const { org, person } = viewer;
  const before = await site.store.event(id);
  return appendOnce(
    {
      id,
      kind: 'practical.answered',
      version: 1,
      org,
      at: before?.event?.at ?? new Date().toISOString(),
      by: person,
      about,
      body: { signoff, answer, words },
    },
    async (write) => {
      const said = await eventsAt(write, { org, about, kinds: ['practical.answered'] });
      const isSaid = said.some(({ body }) => body.signoff === signoff && body.answer === answer);
      return isSaid ? refusedFor(409, 'answer', 'desk.answer.twice') : null;
    },
    site,
  );
}
