import { z } from 'zod';
import { can, type Site, type Viewer } from '../../accounts/index.ts';
import { describeProblem } from '../../bench/index.ts';
import { mayWork, practiceOf, WORK_KINDS, type Work } from '../../competence/index.ts';
import { timeIn } from '../../words/index.ts';
import { sayIn } from '../../words/say.ts';
import { eventsAt } from './append-once.ts';
import { draftFor } from './draft-for.ts';
import { enterTogether } from './enter-together.ts';
import { readFields } from './form-fields.ts';
import { momentOf } from './form-moment.ts';
import { type DeskWord, type Done, refused, refusedFor } from './refused.ts';
import { type Workshop, whyNotWrite, workshopOf } from './workshop.ts';

/** Longest single session, hours, as the event says. */
const LONGEST_HOURS = 12;
const HOUR = 3_600_000;

const done = 'must be text of 1 to 300 characters';
const PracticeSchema = z.object({
  id: z.uuidv7({ error: 'must be a UUID of version 7' }),
  bench: z.string(),
  work: z.enum(WORK_KINDS, { error: 'must be a kind of work' }),
  supervisor: z.string(),
  day: z.string(),
  from: z.string(),
  to: z.string(),
  offset: z.string(),
  done: z.string({ error: done }).trim().min(1, { error: done }).max(300, { error: done }),
});

const SAYS: Readonly<Record<string, DeskWord>> = {
  work: 'practice.no.work',
  done: 'practice.no.done',
};

/** The fields of a posted session as typed. */
export async function readPracticeForm(request: Request) {
  const { one: field } = await readFields(request);
  return {
    id: field('id'),
    bench: field('bench'),
    work: field('work'),
    supervisor: field('supervisor'),
    day: field('day'),
    from: field('from'),
    to: field('to'),
    offset: field('offset'),
    done: field('done'),
  };
}

/** Whether somebody may stand by: a trainer, or who is authorised for that work on that bench at that time. */
export function maySupervise(
  { people, events, units, nameOf }: Workshop,
  person: string,
  on: { readonly bench: string; readonly work: Work; readonly at: string },
): boolean {
  const role = people.find((one) => one.person === person)?.role;
  if (role === undefined) return false;
  return role === 'trainer' || mayWork({ ...on, person, events, units, nameOf }).state === 'may';
}

/** A session of practice of the viewer's own, to be confirmed by the supervisor named. */
export async function notePractice(
  viewer: Viewer | null,
  input: unknown,
  site: Site,
): Promise<Done<{ readonly session: string }>> {
  if (viewer === null) return refusedFor(401, '', whyNotWrite(null));
  const { org, person } = viewer;
  if (!can(viewer, 'practice.note', { org, person })) {
    return refusedFor(403, '', 'practice.no.right');
  }
  const read = PracticeSchema.safeParse(input);
  if (!read.success) {
    const { path, message } = describeProblem(read.error, 'The form');
    const key = SAYS[path];
    return key === undefined ? refused(400, path, message) : refusedFor(400, path, key);
  }
  const { id, bench, work, supervisor, day, from, to, offset } = read.data;
  const workshop = await workshopOf(org, site, { people: [person, supervisor] });
  const machine = workshop.benches.find((one) => one.id === bench);
  if (machine === undefined) return refusedFor(422, 'bench', 'practice.no.bench');
  const { asset } = machine;
  if (!machine.work.includes(work)) {
    return refusedFor(422, 'work', 'practice.no.work-here', { asset });
  }
  const startedAt = momentOf({ day, time: from, offset });
  const endedAt = momentOf({ day, time: to, offset });
  if (startedAt === null) return refusedFor(400, 'from', 'practice.no.moment');
  if (endedAt === null) return refusedFor(400, 'to', 'practice.no.moment');
  const hours = (Date.parse(endedAt) - Date.parse(startedAt)) / HOUR;
  if (hours <= 0 || hours > LONGEST_HOURS) {
    return refusedFor(422, 'to', 'practice.no.length', { hours: LONGEST_HOURS });
  }
  const now = new Date().toISOString();
  if (endedAt > now) return refusedFor(422, 'to', 'practice.no.later');
  if (supervisor === person) return refusedFor(422, 'supervisor', 'practice.no.self');
  if (!maySupervise(workshop, supervisor, { bench, work, at: startedAt })) {
    return refusedFor(422, 'supervisor', 'practice.no.supervisor', { asset });
  }
  const body = { session: id, bench, work, supervisor, startedAt, endedAt, done: read.data.done };
  const entered = await enterTogether(
    draftFor(viewer, 'practice.noted', { id, about: person, body }),
    site,
    async () => {
      const other = practiceOf(workshop.events, person, now).sessions.find(
        (one) => one.state !== 'refused' && one.startedAt < endedAt && startedAt < one.endedAt,
      );
      if (other === undefined) return { ok: true, value: [] };
      const { benches } = workshop;
      const put = {
        asset: benches.find((one) => one.id === other.bench)?.asset ?? '',
        day: sayIn('en').day(other.startedAt),
        from: timeIn('en', other.startedAt),
        to: timeIn('en', other.endedAt),
      };
      return refusedFor(409, 'from', 'practice.no.overlap', put);
    },
    async (write) => {
      // two sessions sent at the same moment: neither was there when the other was looked for
      const known = new Set(workshop.events.map((event) => event.id));
      const noted = await eventsAt(write, { org, about: person, kinds: ['practice.noted'] });
      const meanwhile = noted.find(
        (one) => !known.has(one.id) && one.body.startedAt < endedAt && startedAt < one.body.endedAt,
      );
      return meanwhile === undefined ? null : refusedFor(409, 'from', 'practice.no.meanwhile');
    },
  );
  return entered.ok ? { ok: true, value: { session: id } } : entered;
}
