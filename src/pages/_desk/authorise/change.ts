import { z } from 'zod';
import { type Action, can, type Site, type Viewer } from '../../../accounts/index.ts';
import type { EventDraft, EventKindName, EventOf } from '../../../records/index.ts';
import { isEventRefused, isIdConflict } from '../../../store/index.ts';
import { type Done, refused } from '../refused.ts';
import { type AuthorisationWord, refusedHere } from './words.ts';

/** An authorisation as it was given. */
export type GivenEvent = EventOf<'authorisation.given'>;

/** What may be done to an authorisation that stands. */
export const CHANGES = ['second', 'suspend', 'refresh', 'end'] as const;
export type Change = (typeof CHANGES)[number];

const CAUSES = ['near-miss', 'machine-change', 'guard-change', 'long-break', 'other'] as const;
export const SUSPEND_CAUSES = CAUSES;

const reason = (key: string) =>
  z.string({ error: key }).trim().min(1, { error: key }).max(300, { error: key });
const id = z.uuidv7({ error: 'bad.id' });

/** Each message is a key of the sheet `authorisation`. */
const FORMS = {
  second: z.object({
    id,
    answer: z.enum(['agrees', 'disagrees'], { error: 'bad.answer' }),
    note: z.string().trim().max(300, { error: 'bad.reason' }),
  }),
  suspend: z.object({
    id,
    cause: z.enum(CAUSES, { error: 'bad.cause' }),
    reason: reason('bad.reason'),
  }),
  refresh: z.object({
    id,
    how: z.enum(['practical', 'talked-through'], { error: 'bad.how' }),
    signoff: z.string().default(''),
    note: reason('bad.note'),
  }),
  end: z.object({ id, reason: reason('bad.reason') }),
} as const;

export const ACTIONS = {
  second: 'authorisation.second',
  suspend: 'authorisation.suspend',
  refresh: 'authorisation.refresh',
  end: 'authorisation.end',
} as const satisfies Record<Change, Action>;

/** The authorisation of this organisation under an id, or null. One that was altered is not found. */
export async function findGiven(org: string, id: string, site: Site): Promise<GivenEvent | null> {
  const stored = await site.store.event(id);
  if (stored === null || stored.broken !== null) return null;
  const { event } = stored;
  return event.kind === 'authorisation.given' && event.org === org ? event : null;
}

/** The event a form asks for. The log checks its body again when it is entered. */
type Asked = { readonly kind: EventKindName; readonly id: string; readonly body: object };

function askedFor(change: Change, given: GivenEvent, input: unknown): Done<Asked> {
  const read = FORMS[change].safeParse(input);
  if (!read.success) {
    const [issue] = read.error.issues;
    const key = `authorisation.${issue?.message ?? ''}` as AuthorisationWord;
    return refusedHere(400, String(issue?.path[0] ?? ''), key);
  }
  const { id: event, ...fields } = read.data;
  const data = { ...fields, authorisation: given.id };
  const ask = (kind: EventKindName, body: object): Done<Asked> => ({
    ok: true,
    value: { kind, id: event, body },
  });
  if ('answer' in data) {
    const note = data.note === '' ? null : data.note;
    return data.answer === 'disagrees' && note === null
      ? refusedHere(400, 'note', 'authorisation.bad.reason')
      : ask('authorisation.seconded', { ...data, note });
  }
  if ('how' in data) {
    const signoff = data.how === 'practical' ? data.signoff : null;
    return ask('authorisation.refreshed', { ...data, signoff });
  }
  return ask(change === 'end' ? 'authorisation.ended' : 'authorisation.suspended', data);
}

/** The sign-off a refresh rests on: of this person, at this bench, for this work, and still standing. */
async function checkSignoff(given: GivenEvent, signoff: string, site: Site): Promise<Done<null>> {
  const stored = await site.store.event(signoff);
  const event = stored?.broken === null ? stored.event : null;
  const { statement } = given.body;
  if (event?.kind !== 'practical.signed') {
    return refusedHere(422, 'signoff', 'authorisation.bad.signoff');
  }
  const practical = event.body.statement;
  const fits =
    practical.org === given.org &&
    practical.who.person === statement.who.person &&
    practical.bench.id === statement.bench.id &&
    statement.work.includes(practical.work) &&
    practical.decision === 'signed-off';
  const withdrawals = await site.store.events({
    org: given.org,
    kinds: ['practical.withdrawn'],
    about: statement.who.person,
  });
  const isBack = withdrawals.some((one) => one.event?.body.signoff === signoff);
  return fits && !isBack
    ? { ok: true, value: null }
    : refusedHere(422, 'signoff', 'authorisation.bad.signoff');
}

/** Who may not, and why, beyond what `can` says. */
function whyNot(change: Change, viewer: Viewer, given: GivenEvent): AuthorisationWord | null {
  const person = given.body.statement.who.person;
  if (!can(viewer, ACTIONS[change], { org: viewer.org, person })) {
    if (viewer.role === 'trainee') return 'authorisation.not.trainee';
    return viewer.person === person ? 'authorisation.not.self' : 'authorisation.not.trainer';
  }
  return change === 'second' && viewer.person === given.by ? 'authorisation.not.giver' : null;
}

/**
 * Seconds, suspends, refreshes or ends an authorisation: a new event, signed in as usual. The same form sent
 * twice is entered once; what has ended can be changed no more.
 */
export async function changeAuthorisation(
  viewer: Viewer | null,
  asked: { readonly authorisation: string; readonly change: Change; readonly form: unknown },
  site: Site,
  now: Date = new Date(),
): Promise<Done<{ readonly id: string }>> {
  if (viewer === null) return refusedHere(401, '', 'authorisation.signed-out');
  const given = await findGiven(viewer.org, asked.authorisation, site);
  if (given === null) return refusedHere(404, '', 'authorisation.none');
  const no = whyNot(asked.change, viewer, given);
  if (no !== null) return refusedHere(403, '', no);
  const wanted = askedFor(asked.change, given, asked.form);
  if (!wanted.ok) return wanted;
  const { kind, id: event, body } = wanted.value;
  const before = await site.store.event(event);
  if (before?.event?.kind === kind && before.event.by === viewer.person) {
    return { ok: true, value: { id: given.id } };
  }
  const ended = await site.store.events({
    org: viewer.org,
    kinds: ['authorisation.ended'],
    about: given.body.statement.who.person,
  });
  if (ended.some((one) => one.event?.body.authorisation === given.id)) {
    return refusedHere(409, '', 'authorisation.ended-already');
  }
  if ('signoff' in body && body.signoff !== null) {
    const fits = await checkSignoff(given, String(body.signoff), site);
    if (!fits.ok) return fits;
  }
  try {
    await site.store.append({
      id: event,
      kind,
      version: 1,
      org: viewer.org,
      at: now.toISOString(),
      by: viewer.person,
      about: given.body.statement.who.person,
      body,
    } as EventDraft);
  } catch (error) {
    if (isIdConflict(error)) return refused(422, 'id', error.message);
    if (isEventRefused(error)) return refused(422, error.problem.path, error.problem.message);
    throw error;
  }
  return { ok: true, value: { id: given.id } };
}
