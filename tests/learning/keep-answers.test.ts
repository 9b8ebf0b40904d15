import { sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Site, Viewer } from '../../src/accounts/index.ts';
import { startAttempt } from '../../src/attempts/index.ts';
import {
  answersOf,
  eraseAnswers,
  keepAnswers,
  MOST_AT_ONCE,
  MOST_KEPT,
  readLearning,
  tasksBegun,
} from '../../src/learning/index.ts';
import { granted, makeWorkshop, refused } from '../accounts/temp-site.ts';

let site: Site;
let remove: () => Promise<void>;
let trainer: Viewer;
let mira: Viewer;
let tom: Viewer;
let boss: Viewer;
beforeAll(async () => {
  ({ site, remove, trainer, mira, tom, boss } = await makeWorkshop());
}, 30_000);
afterAll(() => remove());

const NOW = new Date('2026-11-28T12:00:00.000Z');
const BANK = new Map([
  ['knife', new Set(['gap', 'tip'])],
  ['blade', new Set(['kerf'])],
]);
const answer = (id: string, more: object = {}) => ({
  id: `answer-${id}`,
  lesson: 'knife',
  question: 'gap',
  right: true,
  at: '2026-11-27T12:00:00.000Z',
  ...more,
});
const keep = (viewer: Viewer | null, answers: unknown, more: object = {}) =>
  keepAnswers(site, viewer, { person: viewer?.person ?? 'nobody', answers, ...more }, BANK, NOW);

describe('answers given in lessons', () => {
  it('are kept for the person who gave them, and come back oldest first', async () => {
    const late = answer('2', { at: '2026-11-27T13:00:00.000Z', right: false });
    const kept = granted(await keep(mira, [late, answer('1')]));
    expect(kept.person).toBe(mira.person);
    expect(kept.answers).toEqual([answer('1'), late]);
    expect(await answersOf(site, tom.person)).toEqual([]);
  });

  it('sent again, with whatever they say now, stay as they were', async () => {
    const before = await answersOf(site, mira.person);
    granted(await keep(mira, [answer('1', { right: false }), answer('2')]));
    expect(await answersOf(site, mira.person)).toEqual(before);
    granted(await keep(mira, [answer('5'), answer('5', { right: false })]));
    expect((await answersOf(site, mira.person)).filter(({ id }) => id === 'answer-5')).toEqual([
      answer('5'),
    ]);
  });

  it('of two devices become one list, whichever comes first', async () => {
    const a = [answer('a', { at: '2026-11-26T09:00:00.000Z' })];
    const b = [answer('b', { at: '2026-11-26T08:00:00.000Z', question: 'tip' })];
    granted(await keep(tom, a));
    expect(granted(await keep(tom, b)).answers).toEqual([...b, ...a]);
    granted(await keep(trainer, b));
    expect(granted(await keep(trainer, a)).answers).toEqual([...b, ...a]);
  });

  it('never reach another person, not by their id and not by an id of theirs', async () => {
    expect(refused(await keep(tom, [answer('x')], { person: mira.person }))).toEqual({
      status: 409,
      path: 'person',
      message: 'These answers belong to somebody else than the person signed in.',
    });
    // Mira has an answer of this id too: Tom's does not change it, and is kept beside it
    const before = await answersOf(site, mira.person);
    granted(await keep(tom, [answer('1', { right: false, at: '2026-11-20T00:00:00.000Z' })]));
    expect(await answersOf(site, mira.person)).toEqual(before);
    expect((await answersOf(site, tom.person)).map(({ id }) => id)).toContain('answer-1');
  });

  it('are kept for nobody who is not signed in, and for no employer', async () => {
    for (const viewer of [null, boss]) {
      expect(refused(await keep(viewer, [answer('1')]))).toMatchObject({ status: 401 });
      expect(refused(await eraseAnswers(site, viewer))).toMatchObject({ status: 401 });
      expect(await readLearning(site, viewer)).toBeNull();
    }
  });

  it('to questions that are not in the lessons are left out', async () => {
    const { answers } = granted(
      await keep(trainer, [
        answer('1'),
        answer('2', { question: 'no-such' }),
        answer('3', { lesson: 'no-such' }),
        answer('4', { question: 'kerf' }),
      ]),
    );
    expect(answers.map(({ id }) => id)).toEqual(['answer-b', 'answer-a', 'answer-1']);
  });

  it('by a clock that is ahead are put back to now', async () => {
    const ahead = answer('ahead', {
      at: '2031-01-01T00:00:00.000Z',
      lesson: 'blade',
      question: 'kerf',
    });
    const { answers } = granted(await keep(trainer, [ahead]));
    expect(answers.find(({ id }) => id === 'answer-ahead')?.at).toBe(NOW.toISOString());
  });

  it.each<[string, unknown, string, RegExp]>([
    ['no list', undefined, 'answers', /must list answers/],
    ['an empty list', [], 'answers', /at least 1 answer/],
    [
      'too many',
      Array.from({ length: MOST_AT_ONCE + 1 }, (_, i) => answer(String(i))),
      'answers',
      /at most 500 answers/,
    ],
    [
      'a name that is none',
      [answer('1', { lesson: '../x' })],
      'answers[0].lesson',
      /small letters/,
    ],
    ['a verdict that is none', [answer('1', { right: 1 })], 'answers[0].right', /true or false/],
    ['a time that is none', [answer('1', { at: 'today' })], 'answers[0].at', /instant in UTC/],
    [
      'a time of another zone',
      [answer('1', { at: '2026-11-27T12:00:00+01:00' })],
      'answers[0].at',
      /UTC/,
    ],
    ['an id that is none', [answer('1', { id: 'Ä' })], 'answers[0].id', /8 to 170/],
    ['a field that is none', [answer('1', { person: 'x' })], 'answers[0]', /group of fields/],
  ])('%s: refused with a sentence', async (_what, answers, path, message) => {
    const refusal = refused(await keep(mira, answers));
    expect(refusal.status).toBe(400);
    expect(refusal.path).toBe(path);
    expect(refusal.message).toMatch(message);
  });

  it('cannot be changed in the database, only erased', async () => {
    await expect(
      sql`update learning_answer set "right" = 1 - "right"`.execute(site.store.db),
    ).rejects.toThrow(/append-only|permission denied for table learning_answer/);
  });

  it('are erased for one person alone, and only they go', async () => {
    const before = await answersOf(site, tom.person);
    expect(granted(await eraseAnswers(site, mira)).answers).toEqual([]);
    expect(await answersOf(site, mira.person)).toEqual([]);
    expect(await answersOf(site, tom.person)).toEqual(before);
    expect(before.length).toBeGreaterThan(0);
  });

  it('leave the log as it was', async () => {
    const before = await site.store.checkpoint();
    granted(await keep(mira, [answer('log')]));
    granted(await eraseAnswers(site, mira));
    expect(await site.store.checkpoint()).toBe(before);
  });

  it('stop at a number nobody reaches by learning', async () => {
    const received = NOW.toISOString();
    const rows = Array.from({ length: MOST_KEPT }, (_, i) => ({
      ...answer(`full-${i}`, {}),
      right: 1,
      person: tom.person,
      received,
    }));
    for (let i = 0; i < rows.length; i += 1000) {
      await site.store.db
        .insertInto('learning_answer')
        .values(rows.slice(i, i + 1000))
        .execute();
    }
    expect(refused(await keep(tom, [answer('over')]))).toMatchObject({
      status: 409,
      path: 'answers',
    });
  });
});

describe('bench tasks begun', () => {
  it('are read from the log, each once', async () => {
    granted(await startAttempt(site, mira, { task: 'walk-round' }));
    granted(await startAttempt(site, mira, { task: 'walk-round' }));
    expect(await tasksBegun(site, mira.org, mira.person)).toEqual(['walk-round']);
    expect((await readLearning(site, mira))?.tasks).toEqual(['walk-round']);
    expect(await tasksBegun(site, tom.org, tom.person)).toEqual([]);
  });
});
