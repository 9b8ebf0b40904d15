import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { benchStateOf } from '../../src/competence/index.ts';
import { moveService } from '../../src/pages/_desk/bench-service.ts';
import { checkBench } from '../../src/pages/_desk/check-bench.ts';
import { nearMissesAt } from '../../src/pages/_desk/near-misses-at.ts';
import { reportNearMiss } from '../../src/pages/_desk/report-near-miss.ts';
import { shopOf } from '../../src/pages/_desk/workshop.ts';
import { newId } from '../../src/records/index.ts';
import { openStage, type Stage } from '../practical/workshop.ts';
import { countEvents, makeCheck, minutesAgo } from './stage.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage();
});
afterAll(() => stage.close());

const stateNow = async () => {
  const { events } = await shopOf(stage.as('Ruth Amsel').org, stage.site, {
    checksOf: [stage.bench.id],
  });
  return benchStateOf(events, stage.bench.id, new Date().toISOString());
};
const check = (name: string, over: Record<string, unknown> = {}) =>
  checkBench(stage.as(name), makeCheck(stage.site, stage.bench.id, over), stage.site);
const move = (name: string, to: 'take-out' | 'return', reason: string, id = newId()) =>
  moveService(stage.as(name), to, { id, bench: stage.bench.id, reason }, stage.site);
const withResult = (id: string, result: string) => ({
  ...makeCheck(stage.site, stage.bench.id).checks,
  [id]: { result, note: 'Seen at the back' },
});

describe('a daily check', () => {
  it('is entered by a trainee, once however often it is sent', async () => {
    const before = await countEvents(stage.site);
    const id = newId();
    expect(await check('Mira Holt', { id })).toMatchObject({ ok: true });
    expect(await check('Mira Holt', { id })).toMatchObject({ ok: true });
    expect(await countEvents(stage.site)).toBe(before + 1);
    expect((await stateNow()).lastCheck).toMatchObject({
      verdict: 'fit',
      by: stage.person('Mira Holt').person,
    });
  });

  it('is not entered by the employer, nor at a bench there is not, nor for another list', async () => {
    const before = await countEvents(stage.site);
    expect(await check('Anna Weir')).toMatchObject({ ok: false, status: 403 });
    expect(await check('Mira Holt', { bench: newId() })).toMatchObject({ ok: false, status: 404 });
    expect(await check('Mira Holt', { listVersion: '99' })).toMatchObject({
      ok: false,
      status: 409,
    });
    expect(await countEvents(stage.site)).toBe(before);
  });

  it.each([
    ['not-sound', 'because this check was not sound'],
    ['not-looked-at', 'because this was not looked at'],
  ])('never says fit with a check %s', async (result, sentence) => {
    const done = await check('Mira Holt', { checks: withResult('guard', result) });
    expect(done).toMatchObject({ ok: false, status: 422, path: 'verdict' });
    expect(done.ok ? '' : done.message).toContain(sentence);
  });

  it.each([
    ['an answer left out', { checks: {} }, 400, 'checks.isolator.result'],
    ['a verdict left out', { verdict: '' }, 400, 'verdict'],
    ['out of service without a reason', { verdict: 'not-fit', takeOut: 'yes' }, 400, 'reason'],
    ['fit and out of service', { takeOut: 'yes', reason: 'Guard' }, 422, 'verdict'],
  ])('refuses %s at its field', async (_, over, status, path) => {
    const done = await check('Mira Holt', over);
    expect(done).toMatchObject({ ok: false, status, path });
    expect(done.ok ? '' : done.message).toMatch(/^[A-Z].*\.$/);
  });

  it('takes the bench out in the same transaction, once, and only a trainer returns it', async () => {
    const before = await countEvents(stage.site);
    const id = newId();
    const found = {
      id,
      checks: withResult('guard', 'not-sound'),
      verdict: 'not-fit',
      takeOut: 'yes',
      reason: 'Guard stays up',
    };
    expect(await check('Mira Holt', found)).toMatchObject({ ok: true });
    expect(await check('Mira Holt', found)).toMatchObject({ ok: true });
    expect(await countEvents(stage.site)).toBe(before + 2);
    expect(await stateNow()).toMatchObject({ state: 'out-of-service', reason: 'Guard stays up' });
    expect(
      await check('Mira Holt', { ...found, reason: '', takeOut: 'no', verdict: 'fit' }),
    ).toMatchObject({ ok: false });
    expect(await move('Mira Holt', 'return', 'Mended')).toMatchObject({ ok: false, status: 403 });
    expect(await move('Anna Weir', 'return', 'Mended')).toMatchObject({ ok: false, status: 403 });
    expect(await move('Ruth Amsel', 'return', ' ')).toMatchObject({
      ok: false,
      status: 400,
      path: 'reason',
    });
    const back = newId();
    expect(await move('Ruth Amsel', 'return', 'New spring, tried ten times', back)).toMatchObject({
      ok: true,
    });
    expect(await move('Ruth Amsel', 'return', 'New spring, tried ten times', back)).toMatchObject({
      ok: true,
    });
    expect(await move('Ruth Amsel', 'return', 'Something else', back)).toMatchObject({
      ok: false,
      status: 422,
    });
    expect(await stateNow()).toMatchObject({ state: 'in-service' });
    expect(await countEvents(stage.site)).toBe(before + 3);
  });
});

describe('out of service', () => {
  it.each(['Mira Holt', 'Anna Weir', 'Dev Pradhan'])(
    'is said by %s, and not twice',
    async (name) => {
      expect(await move(name, 'take-out', 'Belt frayed')).toMatchObject({ ok: true });
      expect(await move(name, 'take-out', 'Belt frayed')).toMatchObject({ ok: false, status: 409 });
      expect(await move('Ruth Amsel', 'return', 'New belt')).toMatchObject({ ok: true });
      expect(await move('Ruth Amsel', 'return', 'New belt')).toMatchObject({
        ok: false,
        status: 409,
      });
    },
  );
});

describe('a near miss', () => {
  const report = (name: string, over: Record<string, unknown> = {}) =>
    reportNearMiss(
      stage.as(name),
      {
        ...{ id: newId(), bench: stage.bench.id, ...minutesAgo(60), offset: '', work: 'rip' },
        ...{ people: [stage.person('Mira Holt').person], hurt: 'nobody', takeOut: 'no' },
        what: 'The offcut was thrown back past the operator',
        ...over,
      },
      stage.site,
    );

  it.each(['Mira Holt', 'Ruth Amsel', 'Anna Weir'])('is reported by %s', async (name) => {
    const before = await countEvents(stage.site, 'near-miss.reported');
    expect(await report(name)).toMatchObject({ ok: true });
    expect(await countEvents(stage.site, 'near-miss.reported')).toBe(before + 1);
  });

  it('is entered once, and takes the bench out at once when asked', async () => {
    const before = await countEvents(stage.site);
    const asked = { id: newId(), takeOut: 'yes', what: 'x'.repeat(500) };
    expect(await report('Mira Holt', asked)).toMatchObject({ ok: true });
    expect(await report('Mira Holt', asked)).toMatchObject({ ok: true });
    expect(await countEvents(stage.site)).toBe(before + 2);
    expect(await stateNow()).toMatchObject({ state: 'out-of-service', reason: 'x'.repeat(300) });
    await move('Ruth Amsel', 'return', 'Looked over');
  });

  it('keeps the moment meant by the clock of the device, and names nobody when nobody says', async () => {
    const { day, time } = minutesAgo(300);
    // a clock an hour ahead of UTC tells -60
    const id = newId();
    expect(
      await report('Tom Okafor', { id, day, time, offset: '-60', people: [], work: '' }),
    ).toMatchObject({ ok: true });
    const { events } = await shopOf(stage.as('Ruth Amsel').org, stage.site);
    const entered = nearMissesAt(events, stage.bench.id).find((one) => one.id === id);
    expect(entered?.body).toMatchObject({ people: [], work: null });
    const typed = Date.parse(`${day}T${time}:00.000Z`);
    expect(Date.parse(entered?.body.happenedAt ?? '')).toBe(typed - 3_600_000);
  });

  it.each([
    ['a time to come', { ...minutesAgo(-30) }, 422, 'day'],
    ['no day', { day: '' }, 400, 'day'],
    ['a clock there is not', { offset: '9999' }, 400, 'day'],
    ['somebody of another workshop', { people: ['stranger'] }, 422, 'people'],
    ['eleven people', { people: Array.from({ length: 11 }, (_, i) => `p${i}`) }, 400, 'people'],
    ['nothing said', { what: ' ' }, 400, 'what'],
    ['no word on whether anybody was hurt', { hurt: '' }, 400, 'hurt'],
    ['work there is not', { work: 'whittle' }, 400, 'work'],
    ['a bench there is not', { bench: newId() }, 404, 'bench'],
  ])('refuses %s at its field', async (_, over, status, path) => {
    const before = await countEvents(stage.site);
    const done = await report('Mira Holt', over);
    expect(done).toMatchObject({ ok: false, status, path });
    expect(done.ok ? '' : done.message).toMatch(/\.$/);
    expect(await countEvents(stage.site)).toBe(before);
  });
});
