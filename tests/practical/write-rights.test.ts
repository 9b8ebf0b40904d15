import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { confirmSigner } from '../../src/pages/_desk/confirm-signer.ts';
import { enrolKey } from '../../src/pages/_desk/enrol-key.ts';
import { recordOf } from '../../src/pages/_desk/proof-of.ts';
import { receivePractical } from '../../src/pages/_desk/receive-practical.ts';
import { registerBench } from '../../src/pages/_desk/register-bench.ts';
import { withdrawPractical } from '../../src/pages/_desk/withdraw-practical.ts';
import { standingOf, workshopOf } from '../../src/pages/_desk/workshop.ts';
import { newId } from '../../src/records/index.ts';
import { makeBenchFile } from '../helpers/bench.ts';
import {
  enrolledKey,
  makeSheet,
  makeStatement,
  openStage,
  PASSWORD,
  type Stage,
  signedRequest,
  ticketFor,
} from './workshop.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage();
});
afterAll(() => stage.close());

const entry = (over: Record<string, unknown> = {}) => ({
  asset: 'AL-03',
  title: 'Bench 3',
  work: ['rip'],
  limits: 'eu',
  file: JSON.stringify(makeBenchFile()),
  ...over,
});

describe('the employer and the trainee write nothing', () => {
  it.each(['Anna Weir', 'Mira Holt'])('refuses every write of %s with 403', async (name) => {
    const viewer = stage.as(name);
    const before = await countEvents();
    const replies = await Promise.all([
      receivePractical(viewer, {}, stage.site),
      enrolKey(viewer, {}, stage.site),
      confirmSigner(viewer, {}, null, stage.site),
      registerBench(viewer, entry(), stage.site),
      withdrawPractical(viewer, newId(), { reason: 'no' }, stage.site),
    ]);
    for (const reply of replies) {
      expect(reply).toMatchObject({ ok: false, status: 403 });
      expect(reply.ok ? '' : reply.message).toMatch(/^[A-Z][^.]*\.$/);
    }
    expect(await countEvents()).toBe(before);
  });
});

async function countEvents(): Promise<number> {
  let count = 0;
  for await (const _ of stage.site.store.readAll()) count += 1;
  return count;
}

describe('the register of benches', () => {
  const register = (over: Record<string, unknown>) =>
    registerBench(stage.as('Ruth Amsel'), entry(over), stage.site);

  it('takes a bench file as JSON and as YAML', async () => {
    expect(await register({ asset: 'AL-10' })).toMatchObject({ ok: true });
    const { stringify } = await import('yaml');
    expect(await register({ asset: 'AL-11', file: stringify(makeBenchFile()) })).toMatchObject({
      ok: true,
    });
    const { benches } = await workshopOf(stage.as('Ruth Amsel').org, stage.site);
    expect(benches.map(({ asset }) => asset)).toEqual(expect.arrayContaining(['AL-10', 'AL-11']));
  });

  it.each([
    ['no mark', { asset: ' ' }, 400, 'asset must be text of 1 to 40 characters.'],
    ['a mark in use', { asset: 'al-01' }, 409, 'asset must be a mark that no other bench has'],
    ['no work', { work: [] }, 400, 'work must list at least one kind of work.'],
    ['work there is not', { work: ['whittle'] }, 400, 'must be one of: rip, crosscut'],
    ['a limit set there is not', { limits: 'moon' }, 422, 'limits must be one of:'],
    ['no file', { file: '' }, 400, 'file must be a bench file of'],
    [
      'a file that is no YAML',
      { file: 'blade: [1, 2' },
      422,
      'cannot be read as JSON or YAML at line',
    ],
    [
      'a file that is no bench',
      { file: 'blade: 3' },
      422,
      'In the bench file, schema must be "bench/1".',
    ],
    [
      'a blade smaller than its arbor depth allows',
      { file: JSON.stringify(makeBenchFile({ blade: { diameter: 200 } })) },
      422,
      'blade.diameter must be more than twice arbor.depth (over 220 mm)',
    ],
    [
      'a knife inside the blade',
      { file: JSON.stringify(makeBenchFile({ knife: { along: -40 } })) },
      422,
      'knife.along must stand the knife behind the teeth',
    ],
  ])('refuses %s, naming the field', async (_, over, status, message) => {
    const done = await register(over);
    expect(done).toMatchObject({ ok: false, status });
    expect(done.ok ? '' : done.message).toContain(message);
  });

  it('replaces an entry when its id is given', async () => {
    const made = await register({ asset: 'AL-20' });
    if (!made.ok) throw new Error(made.message);
    await register({ asset: 'AL-20', bench: made.value.bench, limits: 'gb', change: 'entry' });
    const { benches } = await workshopOf(stage.as('Ruth Amsel').org, stage.site);
    expect(benches.filter(({ asset }) => asset === 'AL-20')).toMatchObject([{ limits: 'gb' }]);
  });
});

describe('a withdrawal', () => {
  it('ends the sign-off from then on, once, with its reason', async () => {
    const key = await enrolledKey(stage, 'Ruth Amsel');
    const sheet = makeSheet(stage);
    const statement = makeStatement(stage, sheet, 'Ruth Amsel');
    const ticket = await ticketFor(stage, 'Ruth Amsel', statement);
    const request = await signedRequest(statement, sheet, key, ticket);
    await receivePractical(stage.as('Ruth Amsel'), request, stage.site);
    const dev = stage.as('Dev Pradhan');
    const withdraw = (input: unknown) =>
      withdrawPractical(dev, statement.signoff, input, stage.site);

    expect(await withdraw({ reason: ' ' })).toMatchObject({
      ok: false,
      status: 400,
      path: 'reason',
    });
    const id = newId();
    const first = await withdraw({ id, reason: 'Guard changed on the bench' });
    expect(first.ok).toBe(true);
    expect(await withdraw({ id, reason: 'Guard changed on the bench' })).toEqual(first);
    expect(await withdraw({ id, reason: 'Another reason' })).toMatchObject({
      ok: false,
      status: 422,
    });
    expect(await withdraw({ reason: 'Again' })).toMatchObject({ ok: false, status: 409 });

    const { person } = stage.person('Mira Holt');
    const workshop = await workshopOf(dev.org, stage.site, { people: [person] });
    const standing = standingOf(workshop, {
      person,
      bench: stage.bench.id,
      work: 'rip',
      at: new Date().toISOString(),
    });
    expect(standing.state).toBe('withdrawn');
    expect(await recordOf(statement.signoff, dev.org, stage.site)).toMatchObject({
      state: 'proved',
      verdict: { verdict: 'withdrawn' },
    });
  });
});

describe('signing in again', () => {
  it('refuses a wrong password and gives no ticket', async () => {
    const done = await confirmSigner(
      stage.as('Dev Pradhan'),
      { password: `${PASSWORD}!`, statement: '0'.repeat(64), key: null },
      null,
      stage.site,
    );
    expect(done).toMatchObject({ ok: false, status: 401, path: 'password' });
  });
});
