import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addDays, addMonths, dayOf } from '../../src/competence/index.ts';
import { ageQuestionOf } from '../../src/pages/_desk/authorise/ages.ts';
import { type Change, changeAuthorisation } from '../../src/pages/_desk/authorise/change.ts';
import { giveAuthorisation } from '../../src/pages/_desk/authorise/give.ts';
import { historyOf } from '../../src/pages/_desk/authorise/history.ts';
import { listAuthorisations } from '../../src/pages/_desk/authorise/list.ts';
import { offersFor } from '../../src/pages/_desk/authorise/offers.ts';
import { reviewAuthorisation } from '../../src/pages/_desk/authorise/review.ts';
import { setRules } from '../../src/pages/_desk/set-rules.ts';
import { newId } from '../../src/records/index.ts';
import { wholeWorkshop } from '../helpers/whole-workshop.ts';
import { openStage, PASSWORD, type Stage } from '../practical/workshop.ts';
import { signOffInFull, withdraw } from './signed-off.ts';

let stage: Stage;
let signed: string[];
const now = new Date();
const today = dayOf(now.toISOString());
const day = addDays(today, -1);

const signOff = (name: string, on = day) =>
  signOffInFull(stage.site, {
    trainer: stage.person('Ruth Amsel'),
    who: stage.person(name),
    org: stage.as('Ruth Amsel').org,
    bench: stage.bench,
    work: 'rip',
    day: on,
  });

beforeAll(async () => {
  stage = await openStage();
  signed = await signOff('Mira Holt');
});
afterAll(() => stage.close());

const form = (over: Record<string, unknown> = {}) => ({
  id: newId(),
  person: stage.person('Mira Holt').person,
  bench: stage.bench.id,
  work: ['rip'],
  from: today,
  until: addMonths(today, 12),
  supervised: 'as-usual',
  thickness: '',
  length: '',
  conditions: '',
  age: 'old-enough',
  ...over,
});

const review = (over: Record<string, unknown> = {}, as = 'Anna Weir') =>
  reviewAuthorisation(stage.as(as), form(over), stage.site);
/** Reads the whole text and signs it. */
async function give(input: ReturnType<typeof form>, as = 'Anna Weir', password = PASSWORD) {
  const reviewed = await reviewAuthorisation(stage.as(as), input, stage.site);
  const seen = reviewed.ok ? reviewed.value.hash : '0'.repeat(64);
  return giveAuthorisation(stage.as(as), input, { seen, password, address: null }, stage.site);
}
const change = (authorisation: string, what: Change, of: Record<string, unknown>, as: string) =>
  changeAuthorisation(
    stage.as(as),
    { authorisation, change: what, form: { id: newId(), ...of } },
    stage.site,
  );
const given = async () =>
  (
    await stage.site.store.events({
      org: stage.as('Anna Weir').org,
      kinds: ['authorisation.given'],
    })
  ).length;
async function stateOf(id: string) {
  const workshop = await wholeWorkshop(stage.as('Anna Weir').org, stage.site);
  const at = new Date().toISOString();
  const people = workshop.people.map(({ person }) => person);
  return listAuthorisations(workshop, at, people).find(({ status }) => status.id === id)?.status
    .state;
}
/** Ends what a test gave, so that the next one may give again. */
const clear = async (id: string) =>
  expect(await change(id, 'end', { reason: 'The test is over.' }, 'Anna Weir')).toMatchObject({
    ok: true,
  });

describe('what may be authorised', () => {
  it('offers work that is signed off in full, and nothing else', async () => {
    const workshop = await wholeWorkshop(stage.as('Anna Weir').org, stage.site);
    const at = now.toISOString();
    const offers = (name: string) =>
      offersFor(workshop, { person: stage.person(name).person, bench: stage.bench.id, at }).map(
        ({ work, offered }) => `${work} ${offered}`,
      );
    expect(offers('Mira Holt')).toEqual(['rip true', 'crosscut false']);
    expect(offers('Tom Okafor')).toEqual(['rip false', 'crosscut false']);
  });

  it.each([
    ['a kind of work not signed off', { work: ['rip', 'crosscut'] }, 422, 'work'],
    ['no work', { work: [] }, 400, 'work'],
    ['work the bench is not for', { work: ['groove'] }, 422, 'work'],
    ['a bench that is not there', { bench: 'b-none' }, 422, 'bench'],
    ['somebody who is not there', { person: 'p-none' }, 422, 'person'],
    ['yesterday', { from: day }, 422, 'from'],
    ['a day that is none', { from: '2026-02-30' }, 400, 'from'],
    ['an end before the start', { until: day }, 422, 'until'],
    ['an end after a sign-off ends', { until: addMonths(today, 37) }, 422, 'until'],
    ['a thickness in words', { thickness: 'thick' }, 400, 'thickness'],
    ['a length too short', { length: '49' }, 400, 'length'],
    ['13 conditions', { conditions: 'No rebating.\n'.repeat(13) }, 400, 'conditions'],
    ['no word on age', { age: '' }, 400, 'age'],
    ['somebody too young', { age: 'too-young' }, 422, 'age'],
    ['an id that is none', { id: 'x' }, 400, 'id'],
  ])('refuses %s with one sentence that names the field', async (_why, over, status, path) => {
    const done = await review(over);
    expect(done).toMatchObject({ ok: false, status, path });
    if (!done.ok) expect(done.message).toMatch(/^[A-Z a-z][^.]*\.$/);
  });

  it('says whether the rules or a sign-off set the last day', async () => {
    const late = await review({ until: addMonths(today, 40) });
    expect(late.ok ? '' : late.message).toContain('because a sign-off it rests on ends then');
    // watched today: the sign-offs stand as long as the rules let an authorisation stand
    await signOff('Tom Okafor', today);
    const { person } = stage.person('Tom Okafor');
    const long = await review({ person, until: addDays(addMonths(today, 36), 1) });
    expect(long.ok ? '' : long.message).toContain('because your rules let');
    expect(await review({ person, until: addMonths(today, 36) })).toMatchObject({ ok: true });
  });

  it('goes by the rules as they are set now', async () => {
    const { person } = stage.person('Tom Okafor');
    const rules = { breakMonths: '12', noticeDays: '60', second: 'nothing' };
    const set = (months: string) =>
      setRules(stage.as('Anna Weir'), { id: newId(), ...rules, months }, stage.site);
    await set('6');
    const long = await review({ person, until: addMonths(today, 7) });
    await set('36');
    expect(long.ok ? '' : long.message).toContain('stand for 6 months');
    expect(await review({ person, until: addMonths(today, 7) })).toMatchObject({ ok: true });
  });

  it.each([
    ['gb', null, ['old-enough', 'young-under-supervision']],
    // 29 CFR 570.55 and 570.65, with exceptions for apprentices and student learners
    ['us', 18, ['old-enough', 'young-under-supervision']],
    ['a-set-of-its-own', null, ['old-enough', 'young-under-supervision']],
  ])('asks the age of the limit set %s', (set, years, answers) => {
    expect(ageQuestionOf(set, stage.site)).toMatchObject({ years, answers });
  });

  it('asks for a supervisor where somebody is young', async () => {
    const age = 'young-under-supervision';
    expect(await review({ age })).toMatchObject({ ok: false, status: 422, path: 'supervised' });
    expect(await review({ age, supervised: 'always' })).toMatchObject({ ok: true });
  });

  it('keeps nothing of a date of birth, only the rule and the answer', async () => {
    const done = await review();
    expect(done.ok && done.value.statement.age).toEqual({
      rule: expect.any(String),
      answer: 'old-enough',
    });
  });
});

describe('who may authorise', () => {
  it.each(['Mira Holt', 'Tom Okafor'])('refuses %s, who is a trainee', async (name) => {
    expect(await review({}, name)).toMatchObject({ ok: false, status: 403 });
  });

  it('refuses everybody for themselves', async () => {
    const own = { person: stage.person('Ruth Amsel').person };
    expect(await review(own, 'Ruth Amsel')).toMatchObject({ ok: false, status: 403 });
  });

  it('takes the trainer and the employer', async () => {
    expect(await review({}, 'Ruth Amsel')).toMatchObject({ ok: true });
    expect(await review({}, 'Anna Weir')).toMatchObject({ ok: true });
  });
});

describe('giving', () => {
  it('enters the text that was read, once however often it is sent', async () => {
    const input = form({
      conditions: 'No rebating.\n\nA second person takes off.',
      thickness: '50,5',
    });
    const before = await given();
    expect(await give(input)).toMatchObject({ ok: true, value: { id: input.id } });
    expect(await give(input)).toMatchObject({ ok: true, value: { id: input.id } });
    expect(await given()).toBe(before + 1);
    const stored = await stage.site.store.event(input.id);
    expect(stored?.event?.body).toMatchObject({
      statement: {
        conditions: ['No rebating.', 'A second person takes off.'],
        largest: { thickness: 50.5, length: null },
        by: { role: 'employer' },
      },
    });
    expect(await stateOf(input.id)).toBe('in-force');
    await clear(input.id);
  });

  it('refuses a wrong password and a text that was not read', async () => {
    const input = form();
    const before = await given();
    expect(await give(input, 'Anna Weir', 'not the password')).toMatchObject({
      ok: false,
      status: 401,
      path: 'password',
    });
    const blind = { seen: '0'.repeat(64), password: PASSWORD, address: null };
    expect(await giveAuthorisation(stage.as('Anna Weir'), input, blind, stage.site)).toMatchObject({
      ok: false,
      status: 409,
      path: 'seen',
    });
    expect(await given()).toBe(before);
  });

  it('lets one of two forms through that are sent at once for the same work', async () => {
    const [one, two] = [form(), form()];
    const before = await given();
    const done = await Promise.all([give(one, 'Anna Weir'), give(two, 'Ruth Amsel')]);
    expect(done.filter(({ ok }) => ok)).toHaveLength(1);
    const lost = done.find(({ ok }) => !ok);
    expect(lost).toMatchObject({ status: 409 });
    expect(await given()).toBe(before + 1);
    const again = await give(form());
    expect(again.ok ? '' : again.message).toContain('has an authorisation for');
    await clear(done[0]?.ok ? one.id : two.id);
  });

  it('refuses when a sign-off was withdrawn between reading and signing', async () => {
    await signOff('Jess Lindqvist');
    const person = stage.person('Jess Lindqvist').person;
    const input = form({ person });
    const reviewed = await reviewAuthorisation(stage.as('Anna Weir'), input, stage.site);
    const seen = reviewed.ok ? reviewed.value.hash : '';
    const basis = reviewed.ok ? (reviewed.value.statement.basis[0] ?? '') : '';
    await withdraw(stage.site, stage.as('Ruth Amsel'), person, basis);
    const before = await given();
    const done = await giveAuthorisation(
      stage.as('Anna Weir'),
      input,
      { seen, password: PASSWORD, address: null },
      stage.site,
    );
    expect(done).toMatchObject({ ok: false, status: 422, path: 'work' });
    expect(await given()).toBe(before);
  });
});

describe('afterwards', () => {
  it('waits for a second person where the rules ask for one, who is not the giver', async () => {
    const rules = { months: '36', breakMonths: '12', noticeDays: '60' };
    const set = (second: string) =>
      setRules(stage.as('Anna Weir'), { id: newId(), ...rules, second }, stage.site);
    await set('authorisation');
    const input = form();
    await give(input);
    expect(await stateOf(input.id)).toBe('awaits-second');
    const second = (of: Record<string, unknown>, as: string) => change(input.id, 'second', of, as);
    const agrees = { answer: 'agrees', note: '' };
    expect(await second(agrees, 'Anna Weir')).toMatchObject({ ok: false, status: 403 });
    expect(await second(agrees, 'Mira Holt')).toMatchObject({ ok: false, status: 403 });
    expect(await second({ answer: 'disagrees', note: ' ' }, 'Dev Pradhan')).toMatchObject({
      ok: false,
      status: 400,
      path: 'note',
    });
    expect(await second(agrees, 'Dev Pradhan')).toMatchObject({ ok: true });
    expect(await stateOf(input.id)).toBe('in-force');
    await set('nothing');
    await clear(input.id);
  });

  it('rests when suspended, stands again when refreshed, and ends for good', async () => {
    const input = form();
    await give(input);
    const suspend = { cause: 'near-miss', reason: 'The push stick was left away.' };
    expect(await change(input.id, 'suspend', suspend, 'Dev Pradhan')).toMatchObject({ ok: true });
    expect(await stateOf(input.id)).toBe('rests');
    const talk = { how: 'talked-through', note: 'Push stick, at the machine.' };
    expect(await change(input.id, 'refresh', talk, 'Anna Weir')).toMatchObject({ status: 403 });
    expect(await change(input.id, 'refresh', talk, 'Dev Pradhan')).toMatchObject({ ok: true });
    expect(await stateOf(input.id)).toBe('in-force');
    await clear(input.id);
    expect(await stateOf(input.id)).toBe('ended');
    expect(await change(input.id, 'refresh', talk, 'Dev Pradhan')).toMatchObject({ status: 409 });
    const { events } = await wholeWorkshop(stage.as('Anna Weir').org, stage.site);
    expect(historyOf(events, input.id).map(({ key }) => key)).toEqual([
      'given',
      'suspended',
      'talked-through',
      'ended',
    ]);
  });

  it('takes as a refresh only a sign-off of this person, bench and work that stands', async () => {
    const input = form();
    await give(input);
    const by = (signoff: string) =>
      change(input.id, 'refresh', { how: 'practical', signoff, note: 'Watched.' }, 'Dev Pradhan');
    expect(await by(newId())).toMatchObject({ ok: false, status: 422, path: 'signoff' });
    expect(await by('')).toMatchObject({ ok: false, status: 422, path: 'signoff' });
    expect(await by(signed.at(-1) ?? '')).toMatchObject({ ok: true });
    await clear(input.id);
  });

  it.each([
    ['suspend', { cause: 'mood', reason: 'x' }, 'cause'],
    ['suspend', { cause: 'other', reason: '' }, 'reason'],
    ['refresh', { how: 'by-post', note: 'x' }, 'how'],
    ['refresh', { how: 'talked-through', note: '' }, 'note'],
    ['end', { reason: 'x'.repeat(301) }, 'reason'],
    ['second', { answer: 'perhaps', note: '' }, 'answer'],
  ] as const)('refuses to %s with %j', async (what, of, path) => {
    const input = form();
    await give(input);
    expect(await change(input.id, what, of, 'Dev Pradhan')).toMatchObject({
      ok: false,
      status: 400,
      path,
    });
    await clear(input.id);
  });

  it('enters a change once however often its form is sent', async () => {
    const input = form();
    await give(input);
    const of = { id: newId(), cause: 'other', reason: 'A look at the fence.' };
    expect(await change(input.id, 'suspend', of, 'Dev Pradhan')).toMatchObject({ ok: true });
    expect(await change(input.id, 'suspend', of, 'Dev Pradhan')).toMatchObject({ ok: true });
    const { events } = await wholeWorkshop(stage.as('Anna Weir').org, stage.site);
    expect(historyOf(events, input.id)).toHaveLength(2);
    await clear(input.id);
  });
});
