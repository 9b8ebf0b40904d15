import { type LogEvent, ONE_PRACTICAL } from '../../src/competence/index.ts';

/** Events of an invented workshop, with only the fields that a status reads. */
const NAMES: Readonly<Record<string, string>> = {
  t1: 'Ruth Amsel',
  t2: 'Dev Pradhan',
  e1: 'Anna Weir',
  p1: 'Mira Holt',
  p2: 'Tom Okafor',
};
export const nameOf = (person: string): string => NAMES[person] ?? person;

/** Two units: one for every work, one for ripping alone. */
export const UNITS = [
  { id: 'plan', number: 1, title: 'Plan', work: ['rip', 'crosscut'], evidence: ONE_PRACTICAL },
  { id: 'rip', number: 5, title: 'Rip', work: ['rip'], evidence: ONE_PRACTICAL },
];

type When = { at?: string; received?: string; altered?: boolean; by?: string };

let count = 0;
const newId = () => `e${String(++count).padStart(4, '0')}`;

/** Any event. Where nothing is said the site received it as it happened. */
export function event(
  kind: string,
  about: string | null,
  body: object,
  when: When & { id?: string } = {},
): LogEvent {
  const at = when.at ?? '2026-03-03T10:00:00.000Z';
  return {
    id: when.id ?? newId(),
    kind,
    at,
    received: when.received ?? at,
    by: when.by ?? 't1',
    about,
    body,
    ...(when.altered === undefined ? {} : { altered: when.altered }),
  };
}

export type Signed = When & {
  id?: string;
  unit?: string;
  version?: string;
  work?: string;
  bench?: string;
  person?: string;
  trainer?: string;
  observedAt?: string;
  validFrom?: string;
  validUntil?: string;
  decision?: 'signed-off' | 'not-yet';
  practical?: string;
  stops?: string[];
};

/** A signed practical, observed on the day of `at` and good for 36 months unless it says otherwise. */
export function signed(over: Signed = {}): LogEvent {
  const at = over.at ?? '2026-03-03T10:00:00.000Z';
  const id = over.id ?? newId();
  const day = over.observedAt ?? at.slice(0, 10);
  const trainer = over.trainer ?? 't1';
  const isNot = over.decision === 'not-yet';
  const person = over.person ?? 'p1';
  const statement = {
    who: { person },
    trainer: { person: trainer },
    unit: { id: over.unit ?? 'rip', version: over.version ?? '1' },
    bench: { id: over.bench ?? 'b1' },
    work: over.work ?? 'rip',
    observedAt: day,
    validFrom: isNot ? null : (over.validFrom ?? day),
    validUntil: isNot ? null : (over.validUntil ?? `${Number(day.slice(0, 4)) + 3}${day.slice(4)}`),
    decision: over.decision ?? 'signed-off',
    ...(over.practical === undefined ? {} : { practical: over.practical }),
    criteria: (over.stops ?? []).map((id) => ({ id: `stop/${id}` })),
  };
  return event(
    'practical.signed',
    person,
    { signoff: id, statement },
    { by: trainer, ...over, id, at },
  );
}

/** Both units of ripping signed for a person on one day. */
export const signedForRipping = (over: Signed = {}): LogEvent[] =>
  ['plan', 'rip'].map((unit) => signed({ ...over, unit }));

export const withdrawn = (signoff: string, at: string, when: When = {}): LogEvent =>
  event('practical.withdrawn', 'p1', { signoff, reason: 'Near miss.' }, { by: 't2', at, ...when });

export const cosigned = (
  signoff: string,
  answer: 'agrees' | 'disagrees',
  when: When = {},
): LogEvent => {
  const by = when.by ?? 't2';
  const statement = { signoff, answer, trainer: { person: by } };
  return event('practical.cosigned', 'p1', { statement }, { ...when, by });
};

export const rules = (body: Record<string, unknown> = {}, at = '2026-01-01T00:00:00.000Z') =>
  event(
    'organisation.rules-set',
    'org',
    { months: 36, breakMonths: 12, noticeDays: 60, second: 'nothing', ...body },
    { at, by: 'e1' },
  );

/** A session noted and, unless it says otherwise, confirmed a day later. */
export function practised(
  over: {
    start?: string;
    hours?: number;
    bench?: string;
    work?: string;
    answer?: 'yes' | 'no' | null;
    person?: string;
  } = {},
): LogEvent[] {
  const start = over.start ?? '2026-03-05T08:00:00.000Z';
  const end = new Date(Date.parse(start) + (over.hours ?? 1) * 3_600_000).toISOString();
  const id = newId();
  const person = over.person ?? 'p1';
  const noted = event(
    'practice.noted',
    person,
    {
      session: id,
      bench: over.bench ?? 'b1',
      work: over.work ?? 'rip',
      supervisor: 't1',
      startedAt: start,
      endedAt: end,
      done: 'Ripped battens.',
    },
    { id, by: person, at: end },
  );
  if (over.answer === null) return [noted];
  const at = new Date(Date.parse(end) + 86_400_000).toISOString();
  const body = { session: id, answer: over.answer ?? 'yes', note: null };
  return [noted, event('practice.confirmed', person, body, { by: 't1', at })];
}

/** Leave in writing to rip at b1 from 10 March 2026, given by the employer. */
export function given(over: Record<string, unknown> & { when?: When } = {}): LogEvent {
  const { when, ...rest } = over;
  const id = 'auth';
  const statement = {
    id,
    who: { person: 'p1' },
    by: { person: 'e1', role: 'employer' },
    bench: { id: 'b1', asset: 'AL-01' },
    work: ['rip'],
    from: '2026-03-10',
    until: '2029-03-09',
    supervised: 'as-usual',
    largest: { thickness: null, length: null },
    conditions: [],
    age: { rule: 'local-law', answer: 'old-enough' },
    basis: ['s'],
    ...rest,
  };
  return event(
    'authorisation.given',
    statement.who.person,
    { statement },
    { at: '2026-03-09T09:00:00.000Z', by: statement.by.person, ...when, id: statement.id },
  );
}

export const refreshed = (at: string, signoff: string | null = null, when: When = {}): LogEvent =>
  event(
    'authorisation.refreshed',
    'p1',
    {
      authorisation: 'auth',
      how: signoff === null ? 'talked-through' : 'practical',
      signoff,
      note: 'Gone through at the bench.',
    },
    { at, ...when },
  );

export const suspended = (at: string, when: When = {}): LogEvent =>
  event(
    'authorisation.suspended',
    'p1',
    { authorisation: 'auth', cause: 'other', reason: 'Guard left up twice.' },
    { at, by: 't2', ...when },
  );

export const nearMiss = (
  at: string,
  people: readonly string[],
  when: When & { happenedAt?: string } = {},
) =>
  event(
    'near-miss.reported',
    'b1',
    {
      bench: 'b1',
      happenedAt: when.happenedAt ?? at,
      work: 'rip',
      people,
      hurt: 'nobody',
      what: 'Kickback.',
    },
    { at, by: 'p2', ...when },
  );

export const registered = (
  at: string,
  over: {
    change?: string;
    guard?: string | null;
    largestBlade?: number;
    runDown?: number;
    bench?: string;
  } = {},
): LogEvent => {
  const bench = over.bench ?? 'b1';
  return event(
    'bench.registered',
    bench,
    {
      bench,
      change: over.change ?? 'entry',
      file: {
        ...(over.guard === null ? {} : { guard: { kind: over.guard ?? 'fixed' } }),
        arbor: { largestBlade: over.largestBlade ?? 450, runDown: over.runDown ?? 9 },
      },
    },
    { at },
  );
};

export const checked = (
  at: string,
  over: { by?: string; verdict?: 'fit' | 'not-fit'; bench?: string; note?: string } & When = {},
): LogEvent => {
  const bench = over.bench ?? 'b1';
  const verdict = over.verdict ?? 'fit';
  const result = verdict === 'fit' ? 'sound' : 'not-sound';
  const checks = [{ id: 'guard', result, note: over.note ?? null }];
  const { altered } = over;
  return event(
    'bench.checked',
    bench,
    { bench, list: 'daily', listVersion: 1, checks, verdict },
    { at, by: over.by ?? 'p1', ...(altered === undefined ? {} : { altered }) },
  );
};

export const role = (person: string, held: string, at: string, kind = 'person.joined'): LogEvent =>
  event(kind, person, { role: held }, { at });
