import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  type LogEvent,
  makeStatements,
  readEvent,
  toJsonLine,
  XAPI_KINDS,
  type XapiStatement,
  XapiStatementSchema,
} from '../../src/records/index.ts';

const SITE = 'https://saw.alderlane.example';
const FOLDER = join(import.meta.dirname, '../fixtures/events');

/** One event of every kind and version there is, by the fixtures. */
const events = readdirSync(FOLDER).map((file): LogEvent => {
  const read = readEvent(JSON.parse(readFileSync(join(FOLDER, file), 'utf8')).event);
  if (!read.ok) throw new Error(`${file}: ${read.error.message}`);
  return read.event;
});
const statementsFrom = (given: readonly LogEvent[], site = SITE): XapiStatement[] => {
  const make = makeStatements(site);
  return given.map(make).filter((one) => one !== null);
};
/** Fixtures of several kinds share an id, so each statement stands beside its event. */
const makeOne = makeStatements(SITE);
const pairs = events.flatMap((event) => {
  const statement = makeOne(event);
  return statement === null ? [] : [{ event, statement }];
});
const made = pairs.map(({ statement }) => statement);
const madeFrom = (kind: LogEvent['kind']) => {
  const found = pairs.find(({ event }) => event.kind === kind);
  if (found === undefined) throw new Error(`no statement from ${kind}`);
  return found.statement;
};

/** Every value in a tree, with the way to it. */
function* walk(value: unknown, path = ''): Generator<[string, unknown]> {
  yield [path, value];
  if (typeof value !== 'object' || value === null) return;
  for (const [key, inner] of Object.entries(value)) yield* walk(inner, `${path}/${key}`);
}

/*
 * Rules of IEEE 9274.1.1-2023 (xAPI 2.0), clause 4.2 on statements, from memory: the standard was not at hand.
 */
describe('statements for a learning record store', () => {
  it('come from every kind that tells of something done, and from no other', () => {
    const kinds = new Set(pairs.map(({ event }) => event.kind));
    expect([...kinds].sort()).toEqual(
      XAPI_KINDS.filter((kind) => !kind.endsWith('.started')).sort(),
    );
  });

  it('fit the schema of what is written, which refuses what the standard refuses', () => {
    for (const one of made) expect(XapiStatementSchema.safeParse(one).success).toBe(true);
    const [first] = made as [XapiStatement];
    const wrong: readonly object[] = [
      { ...first, stored: first.timestamp },
      { ...first, authority: first.actor },
      { ...first, id: 'not-a-uuid' },
      { ...first, version: '1.0.3' },
      { ...first, timestamp: '2026-03-03' },
      { ...first, verb: { ...first.verb, id: 'passed' } },
      { ...first, verb: { id: first.verb.id } },
      { ...first, actor: { objectType: 'Agent', mbox: 'mailto:mira@alderlane.example' } },
      { ...first, actor: { objectType: 'Agent', account: { name: 'mira' } } },
      { ...first, result: null },
      { ...first, object: { ...first.object, id: '/units/plan' } },
    ];
    for (const one of wrong) expect(XapiStatementSchema.safeParse(one).success).toBe(false);
  });

  it('hold no null, nothing empty, one UUID each, whole addresses and times in UTC', () => {
    for (const one of made) {
      for (const [path, value] of walk(one)) {
        expect(value, path).not.toBeNull();
        expect(value, path).not.toBeUndefined();
        if (typeof value === 'object')
          expect(Object.keys(value as object).length).toBeGreaterThan(0);
      }
      expect(one.id).toMatch(/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/);
      expect(one.timestamp).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/);
      expect(one.version).toBe('2.0.0');
      expect('stored' in one).toBe(false);
      for (const address of [one.verb.id, one.object.id, one.object.definition.type]) {
        expect(URL.canParse(address), address).toBe(true);
      }
    }
    for (const { event, statement } of pairs) expect(statement.id).toBe(event.id);
  });

  it('name people by the account of this site, and the trainer as the instructor', () => {
    const signed = events.find(({ kind }) => kind === 'practical.signed');
    if (signed?.kind !== 'practical.signed') throw new Error('no practical among the fixtures');
    const { trainer, who } = signed.body.statement;
    const statement = madeFrom('practical.signed');
    const account = (name: string) => ({
      objectType: 'Agent',
      account: { homePage: `${SITE}/`, name },
    });
    expect(statement.actor).toEqual(account(who.person));
    expect(statement.context?.instructor).toEqual(account(trainer.person));
    expect(statement.verb.id).toBe('http://adlnet.gov/expapi/verbs/passed');
    expect(statement.result).toEqual({ success: true, completion: true });
  });

  it('say of a practical that ended with "not yet" that it was not passed', () => {
    const signed = structuredClone(events.find(({ kind }) => kind === 'practical.signed'));
    if (signed?.kind !== 'practical.signed') throw new Error('no practical among the fixtures');
    signed.body.statement.decision = 'not-yet';
    const [statement] = statementsFrom([signed]);
    expect(statement?.verb.id).toBe('http://adlnet.gov/expapi/verbs/failed');
    expect(statement?.result?.success).toBe(false);
  });

  it('point from what became of an authorisation to the statement that it was given', () => {
    const ended = madeFrom('authorisation.ended');
    const event = events.find(({ kind }) => kind === 'authorisation.ended');
    if (event?.kind !== 'authorisation.ended') throw new Error('no ended authorisation');
    expect(ended.context?.statement).toEqual({
      objectType: 'StatementRef',
      id: event.body.authorisation,
    });
    expect(ended.verb.id).toBe(`${SITE}/xapi/verbs/authorisation-ended`);
  });

  it('name the task of an attempt from its start, and how long a test took', () => {
    const start = events.find(({ kind }) => kind === 'attempt.started');
    const end = events.find(({ kind }) => kind === 'attempt.submitted');
    if (start?.kind !== 'attempt.started' || end?.kind !== 'attempt.submitted') throw new Error();
    const joined = { ...end, body: { ...end.body, attempt: start.body.attempt } };
    expect(statementsFrom([start, joined])[0]?.object.id).toBe(`${SITE}/bench/${start.body.task}`);
    const sitting = events.find(({ kind }) => kind === 'sitting.handed-in');
    if (sitting?.kind !== 'sitting.handed-in') throw new Error('no sitting');
    expect(madeFrom('sitting.handed-in').result?.duration).toBe(`PT${sitting.body.usedSeconds}S`);
  });

  it('are the same bytes each time, one on each line', () => {
    const lines = () => statementsFrom(events).map(toJsonLine).join('');
    expect(lines()).toBe(lines());
    expect(lines().split('\n')).toHaveLength(made.length + 1);
    for (const line of lines().trimEnd().split('\n')) {
      expect(XapiStatementSchema.safeParse(JSON.parse(line)).success).toBe(true);
    }
  });
});
