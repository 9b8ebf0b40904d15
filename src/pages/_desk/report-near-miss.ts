import { z } from 'zod';
import { can, type Site, type Viewer } from '../../accounts/index.ts';
import { describeProblem } from '../../bench/index.ts';
import { benchStateOf, WORK_KINDS } from '../../competence/index.ts';
import { newId } from '../../records/index.ts';
import { draftFor } from './draft-for.ts';
import { enterTogether } from './enter-together.ts';
import { readFields } from './form-fields.ts';
import { momentOf } from './form-moment.ts';
import { type DeskWord, type Done, refused, refusedFor } from './refused.ts';
import { whyNotWrite, workshopOf } from './workshop.ts';

const MOST_PEOPLE = 10;
/** Longest reason an event of taking out holds, characters. */
const LONGEST_REASON = 300;
const text = (most: number) => {
  const must = `must be text of 1 to ${most} characters`;
  return z.string({ error: must }).trim().min(1, { error: must }).max(most, { error: must });
};

const NearMissSchema = z.object({
  id: z.uuidv7({ error: 'must be a UUID of version 7' }),
  bench: z.string(),
  day: z.string(),
  time: z.string(),
  offset: z.string(),
  work: z.enum([...WORK_KINDS, ''], { error: 'must be a kind of work' }),
  people: z.array(z.string()).max(MOST_PEOPLE, { error: `must name at most ${MOST_PEOPLE}` }),
  hurt: z.enum(['nobody', 'somebody'], { error: 'must be answered' }),
  what: text(500),
  takeOut: z.enum(['yes', 'no']),
});

const SAYS: Readonly<Record<string, DeskWord>> = {
  work: 'machine.no.work',
  people: 'machine.no.people',
  hurt: 'machine.no.hurt',
  what: 'machine.no.what',
};

/** The fields of a posted report as typed. */
export async function readNearMissForm(request: Request) {
  const { one: field, all } = await readFields(request);
  return {
    id: field('id'),
    day: field('day'),
    time: field('time'),
    offset: field('offset'),
    work: field('work'),
    people: all('people'),
    hurt: field('hurt'),
    what: field('what'),
    takeOut: field('take-out') === 'yes' ? 'yes' : 'no',
  };
}

/** Enters a near miss, and takes the bench out of service in the same transaction when asked. */
export async function reportNearMiss(
  viewer: Viewer | null,
  input: unknown,
  site: Site,
): Promise<Done<{ readonly bench: string }>> {
  if (viewer === null) return refusedFor(401, '', whyNotWrite(null));
  if (!can(viewer, 'near-miss.report', { org: viewer.org })) {
    return refusedFor(403, '', whyNotWrite(viewer));
  }
  const read = NearMissSchema.safeParse(input);
  if (!read.success) {
    const { path, message } = describeProblem(read.error, 'The form');
    const key = SAYS[path.split(/[.[]/)[0] ?? ''];
    return key === undefined ? refused(400, path, message) : refusedFor(400, path, key);
  }
  const { id, bench, work, hurt, what, takeOut } = read.data;
  const people = [...new Set(read.data.people)];
  const workshop = await workshopOf(viewer.org, site);
  const machine = workshop.benches.find((one) => one.id === bench);
  if (machine === undefined) return refusedFor(404, 'bench', 'desk.no-bench');
  const now = new Date().toISOString();
  const happenedAt = momentOf(read.data);
  if (happenedAt === null) return refusedFor(400, 'day', 'machine.no.moment');
  if (happenedAt > now) return refusedFor(422, 'day', 'machine.no.later');
  if (people.some((one) => !workshop.people.some(({ person }) => person === one))) {
    return refusedFor(422, 'people', 'machine.no.people');
  }
  const takes =
    takeOut === 'yes' && benchStateOf(workshop.events, bench, now).state !== 'out-of-service';
  // what happened is why; a reason holds less than a report, and no half of a character
  const out = { bench, reason: what.slice(0, LONGEST_REASON).toWellFormed() };
  const entered = await enterTogether(
    draftFor(viewer, 'near-miss.reported', {
      id,
      about: bench,
      body: { bench, happenedAt, work: work === '' ? null : work, people, hurt, what },
    }),
    site,
    async () => ({
      ok: true,
      value: takes
        ? [draftFor(viewer, 'bench.taken-out', { id: newId(), about: bench, body: out })]
        : [],
    }),
  );
  return entered.ok ? { ok: true, value: { bench } } : entered;
}
