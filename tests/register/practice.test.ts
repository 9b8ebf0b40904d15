import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { practiceOf } from '../../src/competence/index.ts';
import { confirmPractice } from '../../src/pages/_desk/confirm-practice.ts';
import { notePractice } from '../../src/pages/_desk/note-practice.ts';
import { sessionsToConfirm, supervisorsFor } from '../../src/pages/_desk/practice-around.ts';
import { newId } from '../../src/records/index.ts';
import { wholeWorkshop } from '../helpers/whole-workshop.ts';
import { openStage, type Stage } from '../practical/workshop.ts';
import { countEvents } from './stage.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage();
});
afterAll(() => stage.close());

const DAY = new Date(Date.now() - 2 * 86_400_000).toISOString().slice(0, 10);
const note = (name: string, over: Record<string, unknown> = {}) =>
  notePractice(
    stage.as(name),
    {
      ...{ id: newId(), bench: stage.bench.id, work: 'rip', day: DAY, offset: '' },
      ...{ supervisor: stage.person('Ruth Amsel').person, from: '08:00', to: '09:30' },
      done: 'Twelve rips in redwood',
      ...over,
    },
    stage.site,
  );
const now = () => new Date().toISOString();
const workshop = () => wholeWorkshop(stage.as('Ruth Amsel').org, stage.site);
const practice = async (name: string) =>
  practiceOf((await workshop()).events, stage.person(name).person, now());

describe('a session of practice', () => {
  it('is noted once however often it is sent, and counts nothing yet', async () => {
    const before = await countEvents(stage.site);
    const id = newId();
    expect(await note('Mira Holt', { id })).toMatchObject({ ok: true });
    expect(await note('Mira Holt', { id })).toMatchObject({ ok: true });
    expect(await countEvents(stage.site)).toBe(before + 1);
    expect(await practice('Mira Holt')).toMatchObject({
      sessions: [{ state: 'awaits' }],
      confirmed: [],
    });
  });

  it.each([
    ['an overlap by a minute', { from: '09:29', to: '10:00' }],
    ['one inside', { from: '08:10', to: '08:20' }],
    ['one around', { from: '07:00', to: '12:00' }],
    ['one at another bench kind of work', { work: 'crosscut' }],
  ])('refuses %s, naming the other', async (_, over) => {
    const done = await note('Mira Holt', over);
    expect(done).toMatchObject({ ok: false, status: 409, path: 'from' });
    expect(done.ok ? '' : done.message).toContain(`AL-01`);
    expect(done.ok ? '' : done.message).toContain('from 08:00 to 09:30 UTC');
  });

  it('takes one that begins as the other ends or ends as it begins, and the same hours of somebody else', async () => {
    expect(await note('Mira Holt', { from: '09:30', to: '10:00' })).toMatchObject({ ok: true });
    const dev = stage.person('Dev Pradhan').person;
    expect(await note('Mira Holt', { from: '07:00', to: '08:00', supervisor: dev })).toMatchObject({
      ok: true,
    });
    expect(await note('Tom Okafor')).toMatchObject({ ok: true });
  });

  const person = (name: string) => stage.person(name).person;
  it.each([
    ['nobody as supervisor', () => ({ supervisor: '' }), 422, 'supervisor'],
    ['oneself as supervisor', () => ({ supervisor: person('Jess Lindqvist') }), 422, 'supervisor'],
    ['a trainee without leave', () => ({ supervisor: person('Tom Okafor') }), 422, 'supervisor'],
    ['the employer', () => ({ supervisor: person('Anna Weir') }), 422, 'supervisor'],
    ['an end before the start', () => ({ to: '07:00' }), 422, 'to'],
    ['more than twelve hours', () => ({ from: '06:00', to: '18:01' }), 422, 'to'],
    ['no time', () => ({ from: '' }), 400, 'from'],
    ['a day to come', () => ({ day: '2099-01-01' }), 422, 'to'],
    ['work the bench is not for', () => ({ work: 'groove' }), 422, 'work'],
    ['a bench there is not', () => ({ bench: newId() }), 422, 'bench'],
    ['nothing cut', () => ({ done: '' }), 400, 'done'],
  ])('refuses %s at its field', async (_, over, status, path) => {
    const before = await countEvents(stage.site);
    const done = await note('Jess Lindqvist', over());
    expect(done).toMatchObject({ ok: false, status, path });
    expect(done.ok ? '' : done.message).toMatch(/\.$/);
    expect(await countEvents(stage.site)).toBe(before);
  });

  it('is not supervised by whoever practises, trainer or not', async () => {
    const done = await note('Ruth Amsel', { from: '11:00', to: '12:00' });
    expect(done).toMatchObject({ ok: false, status: 422, path: 'supervisor' });
    expect(done.ok ? '' : done.message).toContain('nobody watches themselves');
  });

  it('is not noted by the employer', async () => {
    expect(await note('Anna Weir')).toMatchObject({ ok: false, status: 403 });
  });

  it('offers the trainers as supervisors, and never oneself', async () => {
    const names = (who: string) =>
      workshop()
        .then((one) => supervisorsFor(one, person(who), stage.site))
        .then((all) => all.map(({ name }) => name));
    expect(await names('Mira Holt')).toEqual(['Dev Pradhan', 'Ruth Amsel']);
    expect(await names('Ruth Amsel')).toEqual(['Dev Pradhan']);
  });
});

describe('the answer of the supervisor', () => {
  const answer = (name: string, answers: readonly Record<string, unknown>[]) =>
    confirmPractice(stage.as(name), answers, stage.site);
  const waiting = async () =>
    sessionsToConfirm(
      { org: stage.as('Ruth Amsel').org, store: stage.site.store },
      stage.person('Ruth Amsel').person,
      now(),
    );

  it('is given to several at once, by the one named and nobody else', async () => {
    const open = await waiting();
    expect(open).toHaveLength(3);
    const yes = open.map(({ id }) => ({ id: newId(), session: id, answer: 'yes', note: '' }));
    const before = await countEvents(stage.site);
    for (const name of ['Dev Pradhan', 'Mira Holt', 'Anna Weir']) {
      expect(await answer(name, yes)).toMatchObject({ ok: false, status: 403 });
    }
    expect(await answer('Ruth Amsel', [])).toMatchObject({ ok: false, status: 400 });
    expect(await answer('Ruth Amsel', [{ ...yes[0], answer: 'no' }])).toMatchObject({
      ok: false,
      status: 400,
      path: `note-${yes[0]?.session}`,
    });
    expect(await countEvents(stage.site)).toBe(before);
    const no = { ...yes[2], answer: 'no', note: 'Only half an hour of it' };
    const answers = [yes[0], yes[1], no].filter((one) => one !== undefined);
    expect(await answer('Ruth Amsel', answers)).toMatchObject({ ok: true, value: { entered: 3 } });
    expect(await answer('Ruth Amsel', answers)).toMatchObject({ ok: true });
    expect(await countEvents(stage.site)).toBe(before + 3);
    expect(await waiting()).toEqual([]);
    const again = { ...yes[0], id: newId(), answer: 'no', note: 'Changed my mind' };
    expect(await answer('Ruth Amsel', [again])).toMatchObject({ ok: false, status: 409 });
  });

  it('makes what was confirmed count, in hours, and nothing else', async () => {
    const { confirmed, sessions } = await practice('Mira Holt');
    const held = sessions.filter(({ state }) => state === 'confirmed');
    const hours = held.reduce((sum, one) => sum + one.hours, 0);
    expect(confirmed.reduce((sum, one) => sum + one.hours, 0)).toBeCloseTo(hours, 9);
    const all = [...sessions, ...(await practice('Tom Okafor')).sessions];
    expect(all.map(({ state }) => state).sort()).toEqual([
      'awaits',
      'confirmed',
      'confirmed',
      'refused',
    ]);
  });

  it('lets a refused session be noted again in the same hours', async () => {
    const refused = [
      ...(await practice('Mira Holt')).sessions,
      ...(await practice('Tom Okafor')).sessions,
    ].find(({ state }) => state === 'refused');
    const name = refused?.person === stage.person('Tom Okafor').person ? 'Tom Okafor' : 'Mira Holt';
    const [from, to] = [refused?.startedAt, refused?.endedAt].map((at) => at?.slice(11, 16) ?? '');
    expect(await note(name, { from, to })).toMatchObject({ ok: true });
  });
});

describe('two requests at the same moment', () => {
  const AT_NIGHT = { from: '20:00', to: '21:00' };
  const won = (replies: readonly { readonly ok: boolean }[]) =>
    replies.filter(({ ok }) => ok).length;

  it('enter one of two sessions of one person that overlap', async () => {
    const replies = await Promise.all(
      Array.from({ length: 4 }, () => note('Jess Lindqvist', AT_NIGHT)),
    );
    expect(won(replies)).toBe(1);
    for (const reply of replies) if (!reply.ok) expect(reply.status).toBe(409);
    expect((await practice('Jess Lindqvist')).sessions).toHaveLength(1);
  });

  it('enter one of two answers to one session', async () => {
    const [session] = (await practice('Jess Lindqvist')).sessions;
    const give = (answer: string) =>
      confirmPractice(
        stage.as('Ruth Amsel'),
        [{ id: newId(), session: session?.id, answer, note: 'Seen' }],
        stage.site,
      );
    const replies = await Promise.all([give('yes'), give('no'), give('yes'), give('no')]);
    expect(won(replies)).toBe(1);
    for (const reply of replies) if (!reply.ok) expect(reply.status).toBe(409);
  });
});
