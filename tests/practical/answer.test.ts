import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { answerPractical } from '../../src/pages/_desk/answer-practical.ts';
import { settleAppeal } from '../../src/pages/_desk/settle-appeal.ts';
import { openAppeals, storyOf } from '../../src/pages/_desk/story-of.ts';
import { withdrawPractical } from '../../src/pages/_desk/withdraw-practical.ts';
import { newId, type SigningKey, type Statement } from '../../src/records/index.ts';
import { cosign, signedBy } from './after.ts';
import { enrolledKey, openStage, type Stage } from './workshop.ts';

let stage: Stage;
let ruths: SigningKey;
let devs: SigningKey;
beforeAll(async () => {
  stage = await openStage();
  ruths = await enrolledKey(stage, 'Ruth Amsel');
  devs = await enrolledKey(stage, 'Dev Pradhan');
}, 60_000);
afterAll(() => stage.close());

const fresh = () => signedBy(stage, 'Ruth Amsel', ruths);
const answer = (name: string, of: Statement, input: Record<string, unknown>) =>
  answerPractical(stage.as(name), of.signoff, { id: newId(), ...input }, stage.site);
const settle = (name: string, of: Statement, input: Record<string, unknown>) =>
  settleAppeal(
    stage.as(name),
    of.signoff,
    { id: newId(), outcome: 'stands', reason: 'The gap was measured twice.', ...input },
    stage.site,
  );
const APPEAL = { answer: 'appeals', words: 'The guard was set by somebody else.' };

async function story(of: Statement) {
  const stored = await stage.site.store.event(of.signoff);
  if (stored?.event?.kind !== 'practical.signed') throw new Error('no such record');
  return storyOf(stored.event, stage.site);
}
async function appealed(): Promise<{ of: Statement; appeal: string }> {
  const of = await fresh();
  const done = await answer('Mira Holt', of, APPEAL);
  if (!done.ok) throw new Error(done.message);
  return { of, appeal: done.value.id };
}

describe('the answer of the person watched', () => {
  it('is entered once to each answer', async () => {
    const of = await fresh();
    expect((await answer('Mira Holt', of, { answer: 'agrees' })).ok).toBe(true);
    expect((await answer('Mira Holt', of, APPEAL)).ok).toBe(true);
    expect(await answer('Mira Holt', of, { answer: 'agrees' })).toMatchObject({
      ok: false,
      status: 409,
      path: 'answer',
    });
    expect((await story(of)).map(({ kind }) => kind)).toEqual(['signed', 'answered', 'answered']);
  });

  it('is entered once when the form is sent twice, and once when it is sent at the same moment', async () => {
    const of = await fresh();
    const same = { id: newId(), ...APPEAL };
    const first = await answer('Mira Holt', of, same);
    expect(first.ok).toBe(true);
    expect(await answer('Mira Holt', of, same)).toEqual(first);
    const replies = await Promise.all(
      [1, 2, 3].map(() => answer('Mira Holt', of, { answer: 'agrees' })),
    );
    expect(replies.filter(({ ok }) => ok)).toHaveLength(1);
    expect(await story(of)).toHaveLength(3);
  });

  it.each(['Tom Okafor', 'Ruth Amsel', 'Dev Pradhan', 'Anna Weir'])(
    'is not for %s to give',
    async (name) => {
      const of = await fresh();
      expect(await answer(name, of, { answer: 'agrees' })).toMatchObject({
        ok: false,
        status: 403,
        message: 'Only the person who was watched answers here.',
      });
    },
  );

  it.each([
    ['no answer', {}, 'answer'],
    ['an answer there is not', { answer: 'shrugs' }, 'answer'],
    ['"disagrees" without a reason', { answer: 'disagrees', words: '  ' }, 'words'],
    ['an appeal without a reason', { answer: 'appeals' }, 'words'],
    ['too many words', { answer: 'appeals', words: 'a'.repeat(501) }, 'words'],
    ['no id', { id: 'one', answer: 'agrees' }, 'id'],
  ])('refuses %s, naming the field', async (_, input, path) => {
    const of = await fresh();
    expect(await answer('Mira Holt', of, input)).toMatchObject({ ok: false, status: 400, path });
    expect(await story(of)).toHaveLength(1);
  });
});

describe('an appeal', () => {
  it.each([
    ['Dev Pradhan', 'watch-again'],
    ['Anna Weir', 'stands'],
  ])('is settled by %s: %s', async (name, outcome) => {
    const { of, appeal } = await appealed();
    expect(openAppeals(await story(of))).toMatchObject([{ id: appeal }]);
    expect((await settle(name, of, { appeal, outcome })).ok).toBe(true);
    expect(openAppeals(await story(of))).toEqual([]);
    expect((await story(of)).at(-1)).toMatchObject({
      kind: 'settled',
      by: stage.person(name).person,
      outcome,
      words: 'The gap was measured twice.',
    });
  });

  it.each([
    ['Ruth Amsel', 'An appeal is settled by somebody other than who signed the practical.'],
    [
      'Mira Holt',
      'An appeal is settled by a trainer or the employer, and never by the person who was watched.',
    ],
    [
      'Tom Okafor',
      'An appeal is settled by a trainer or the employer, and never by the person who was watched.',
    ],
  ])('is not for %s to settle', async (name, message) => {
    const { of, appeal } = await appealed();
    expect(await settle(name, of, { appeal })).toMatchObject({ ok: false, status: 403, message });
  });

  it('is settled once, also when two people settle it at the same moment', async () => {
    const { of, appeal } = await appealed();
    const replies = await Promise.all([
      settle('Dev Pradhan', of, { appeal }),
      settle('Anna Weir', of, { appeal, outcome: 'watch-again' }),
    ]);
    expect(replies.filter(({ ok }) => ok)).toHaveLength(1);
    expect(replies.find(({ ok }) => !ok)).toMatchObject({ status: 409, path: 'appeal' });
    expect(await settle('Dev Pradhan', of, { appeal })).toMatchObject({ ok: false, status: 409 });
  });

  it('must be one, and of this record', async () => {
    const { appeal } = await appealed();
    const other = await fresh();
    const agreed = await answer('Mira Holt', other, { answer: 'agrees' });
    const ids = [appeal, newId(), agreed.ok ? agreed.value.id : ''];
    for (const id of ids) {
      expect(await settle('Dev Pradhan', other, { appeal: id })).toMatchObject({
        ok: false,
        status: 404,
        path: 'appeal',
      });
    }
  });

  it.each([
    ['no reason', { reason: ' ' }, 'reason'],
    ['too long a reason', { reason: 'a'.repeat(301) }, 'reason'],
    ['an outcome there is not', { outcome: 'maybe' }, 'outcome'],
  ])('refuses %s', async (_, input, path) => {
    const { of, appeal } = await appealed();
    const done = await settle('Dev Pradhan', of, { appeal, ...input });
    expect(done).toMatchObject({ ok: false, status: 400, path });
  });
});

it('tells the story of a record in the order of time', async () => {
  const { of, appeal } = await appealed();
  await cosign(stage, 'Dev Pradhan', of, devs, { answer: 'disagrees', note: 'Gap not seen.' });
  await settle('Dev Pradhan', of, { appeal, outcome: 'watch-again' });
  await withdrawPractical(stage.as('Dev Pradhan'), of.signoff, { reason: 'Again' }, stage.site);
  const lines = await story(of);
  expect(lines.map(({ kind }) => kind)).toEqual([
    'signed',
    'answered',
    'cosigned',
    'settled',
    'withdrawn',
  ]);
  expect(lines.map(({ at }) => at)).toEqual(lines.map(({ at }) => at).sort());
});
