import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Site, Viewer } from '../../src/accounts/index.ts';
import type { Work } from '../../src/assessment/index.ts';
import {
  askMoreTime,
  type EndedSitting,
  findSitting,
  gradeSitting,
  handInSitting,
  mayReadResult,
  openSitting,
  openSittingOf,
  releaseSitting,
  type SittingGiven,
  saveSitting,
  setSitting,
  settingsFor,
} from '../../src/attempts/index.ts';
import { addMember, granted, makeWorkshop, refused } from '../accounts/temp-site.ts';
import { EXAM_CONTENT, rulesFor } from '../helpers/exam.ts';
import { sitPerfectly } from '../helpers/perfect-candidate.ts';

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

const HOLD = 'a-tab-of-this-test-0001';
const OTHER = 'another-tab-of-it-0002';
const START = Date.parse('2026-11-25T09:00:00.000Z');
/** s after the start, by the server's clock */
const at = (seconds: number) => new Date(START + seconds * 1000);

const ask = (
  blueprint: string,
  more: Partial<{ how: string; time: string; hold: string }> = {},
) => ({ blueprint, how: 'begin', time: 'as-set', hold: HOLD, ...more });

async function begin(
  blueprint = 'rip-test',
  viewer: Viewer = mira,
  more: Partial<{ how: string; time: string; hold: string }> = {},
  now = at(0),
): Promise<SittingGiven> {
  const opened = granted(await openSitting(site, viewer, ask(blueprint, more), now));
  if (opened.state !== 'open') throw new Error(opened.state);
  return opened.given;
}

const save = (
  given: Pick<SittingGiven, 'attempt'>,
  revision: number,
  work: unknown,
  { seconds = 10, hold = HOLD, pause = false, viewer = mira } = {},
) =>
  saveSitting(site, viewer, { attempt: given.attempt, hold, revision, work, pause }, at(seconds));

const handIn = (
  given: Pick<SittingGiven, 'attempt'>,
  revision: number,
  work: unknown,
  { seconds = 20, hold = HOLD, viewer = mira } = {},
) => handInSitting(site, viewer, { attempt: given.attempt, hold, revision, work }, at(seconds));

const PLAN: Work = { plan: { kind: 'plan', stance: 'a', stick: 'a', end: 'a' } };
const FOUND = (actions: object[]) => ({ find: { kind: 'find', actions, findings: [] } });

/** Every test leaves nobody sitting. */
afterEach(() => site.store.db.deleteFrom('open_sitting').execute());

describe('a form that is begun', () => {
  it('goes to somebody signed in who learns here, and to nobody else', async () => {
    expect(refused(await openSitting(site, null, ask('rip-test'))).status).toBe(401);
    expect(refused(await openSitting(site, boss, ask('rip-test'))).status).toBe(403);
    expect(refused(await openSitting(site, mira, ask('nowhere')))).toMatchObject({
      status: 404,
      message: 'There is no test named nowhere.',
    });
    expect(refused(await openSitting(site, mira, { ...ask('rip-test'), seed: 'x' }))).toMatchObject(
      {
        status: 400,
      },
    );
    expect(await openSittingOf(site, mira)).toBeNull();
  });

  it('is not begun by looking', async () => {
    const looked = granted(await openSitting(site, mira, ask('rip-test', { how: 'look' })));
    expect(looked).toMatchObject({ state: 'ready', card: { minutes: 60, feedback: 'now' } });
    expect(await openSittingOf(site, mira)).toBeNull();
  });

  it('is one at a time, and the same one for two tabs that ask together', async () => {
    const both = await Promise.all([
      openSitting(site, mira, ask('rip-test'), at(0)),
      openSitting(site, mira, ask('rip-test', { hold: OTHER }), at(0)),
    ]);
    const states = both.map((one) => granted(one).state).sort();
    expect(states).toEqual(['held', 'open']);
    const stored = await site.store.events({
      org: mira.org,
      kinds: ['sitting.started'],
      about: mira.person,
    });
    const open = await site.store.db.selectFrom('open_sitting').selectAll().execute();
    expect(open).toHaveLength(1);
    expect(stored.filter(({ event }) => event?.body.attempt === open[0]?.attempt)).toHaveLength(1);
    const other = granted(await openSitting(site, mira, ask('walk-and-name'), at(1)));
    expect(other).toMatchObject({ state: 'other', other: { blueprint: 'rip-test' } });
  });

  it('goes on elsewhere with all that was kept, and the first tab is told', async () => {
    const given = await begin();
    granted(await save(given, 0, PLAN));
    const held = granted(await openSitting(site, mira, ask('rip-test', { hold: OTHER }), at(12)));
    expect(held.state).toBe('held');
    const taken = await begin('rip-test', mira, { hold: OTHER, how: 'take-over' }, at(13));
    expect(taken).toMatchObject({ attempt: given.attempt, revision: 1, work: PLAN });
    expect(taken.form).toEqual(given.form);
    expect(refused(await save(given, 1, {}, { seconds: 14 }))).toMatchObject({
      status: 409,
      path: 'hold',
    });
    expect(refused(await handIn(given, 1, {}, { seconds: 15 })).status).toBe(409);
    granted(await save(taken, 1, PLAN, { seconds: 16, hold: OTHER }));
  });

  it('is found again after a crash without asking: the tab before has fallen silent', async () => {
    const given = await begin();
    granted(await save(given, 0, PLAN));
    const again = await begin('rip-test', mira, { hold: OTHER, how: 'look' }, at(600));
    expect(again).toMatchObject({ attempt: given.attempt, revision: 1, work: PLAN });
  });
});

/** All that a task of each kind may show. */
const SHOWN = {
  find: 'id kind weight bench',
  set: 'id kind weight bench mounted blades knives inserts settings',
  plan: 'id kind weight bench stances sticks ends',
  react: 'id kind weight title tells choices',
  limit: 'id kind weight bench ask set setTitle title end unit readings',
};

/** Every name and every text in a reply. */
function* walk(value: unknown): Generator<string> {
  if (Array.isArray(value)) for (const one of value) yield* walk(one);
  else if (typeof value === 'object' && value !== null) {
    for (const [name, one] of Object.entries(value)) {
      yield name;
      yield* walk(one);
    }
  } else if (typeof value === 'string') yield value;
}

describe('what the page is told', () => {
  it.each([...EXAM_CONTENT.blueprints.keys()])(
    'holds no seed, key, plant, estimate or verdict in any reply, for %s',
    async (blueprint) => {
      const replies: unknown[] = [];
      replies.push(granted(await openSitting(site, mira, ask(blueprint, { how: 'look' }), at(0))));
      const given = await begin(blueprint);
      replies.push(given);
      replies.push(granted(await save(given, 0, PLAN)));
      const { attempt } = given;
      replies.push(granted(await askMoreTime(site, mira, { attempt, hold: HOLD }, at(11))));
      replies.push(granted(await openSitting(site, mira, ask(blueprint, { hold: OTHER }), at(12))));
      replies.push(refused(await save(given, 7, {}, { seconds: 13 })));
      replies.push(granted(await handIn(given, 1, PLAN)));
      replies.push(granted(await save(given, 1, PLAN, { seconds: 30 })));

      const record = await findSitting(site, mira.org, attempt);
      const { graded } = await gradeSitting(site, mira.org, record!);
      const seed = record!.started.seed;
      expect(seed).toMatch(/^[0-9a-f]{32}$/);
      const words = new Set(replies.flatMap((reply) => [...walk(reply)]));
      for (const word of [
        'seed',
        'formHash',
        'key',
        'planted',
        'lookAlikes',
        'lookAlike',
        'estimate',
        'margin',
        'verdict',
        'holds',
        'closeness',
        'severity',
        'critical',
        'score',
        'passed',
        'bars',
        'situation',
        'choice',
        'steps',
        'slips',
        seed,
      ]) {
        expect(words, word).not.toContain(word);
      }
      expect(JSON.stringify(replies)).not.toContain(seed);
      for (const task of given.form.tasks) {
        expect(Object.keys(task).sort(), task.kind).toEqual(SHOWN[task.kind].split(' ').sort());
        if (task.kind !== 'react') continue;
        for (const choice of task.choices) expect(Object.keys(choice)).toEqual(['id', 'text']);
      }
      // the lists to name faults from are the whole catalogue, whatever the bench
      expect(given.choices.faults).toHaveLength(EXAM_CONTENT.catalogue.entries.length);
      expect(graded!.form.seed).toBe(seed);
    },
  );
});

describe('what is kept on the way', () => {
  it('goes on and is never undone', async () => {
    const given = await begin();
    const laid = { do: 'measure', with: 'calliper', at: 'blade-kerf' };
    const first = FOUND([{ do: 'reconnect' }, laid]);
    expect(granted(await save(given, 0, first))).toMatchObject({ state: 'saved', revision: 1 });
    // hands at a live blade, and the wish to have it undone
    const clean = FOUND([{ do: 'isolate' }, laid]);
    expect(refused(await save(given, 1, clean))).toMatchObject({ status: 409, path: 'work' });
    expect(refused(await save(given, 1, {}))).toMatchObject({ status: 409, path: 'work' });
    expect(refused(await handIn(given, 1, clean)).path).toBe('work');
    const more = FOUND([{ do: 'reconnect' }, laid, { do: 'isolate' }]);
    expect(granted(await save(given, 1, more))).toMatchObject({ revision: 2 });
    granted(await handIn(given, 2, more));
    const { graded } = await gradeSitting(
      site,
      mira.org,
      (await findSitting(site, mira.org, given.attempt))!,
    );
    expect(graded!.grade.bars).toContainEqual({ kind: 'not-isolated', task: 'find', times: 1 });
  });

  it('lets a reading be written down after the tool was laid', async () => {
    const given = await begin();
    const laid = { do: 'measure', with: 'calliper', at: 'blade-kerf' };
    const first = await save(given, 0, FOUND([{ do: 'isolate' }, laid]));
    if (!first.ok) throw new Error(first.refusal.message);
    const read = FOUND([{ do: 'isolate' }, { ...laid, read: 3.2 }]);
    expect(granted(await save(given, 1, read))).toMatchObject({ revision: 2 });
  });

  it('takes the same sending twice, and refuses an older one', async () => {
    const given = await begin();
    granted(await save(given, 0, PLAN));
    expect(granted(await save(given, 0, PLAN))).toMatchObject({ revision: 1 });
    const other = { plan: { kind: 'plan', stance: 'b', stick: 'a', end: 'a' } };
    granted(await save(given, 1, other));
    // a request caught and sent again
    expect(refused(await save(given, 0, PLAN))).toMatchObject({ status: 409, path: 'revision' });
    expect((await begin()).work).toEqual(other);
  });

  it('names the field that is wrong in what is sent', async () => {
    const given = await begin();
    expect(refused(await save(given, 0, { plan: { kind: 'plan', stance: 7 } }))).toMatchObject({
      status: 400,
    });
    expect(refused(await save(given, 0, { limit: { kind: 'guess' } })).message).toContain(
      'must be one of the kinds',
    );
    expect(refused(await save(given, 0, PLAN, { viewer: tom })).status).toBe(410);
  });
});

describe('the time', () => {
  const time = async (given: SittingGiven, seconds: number, revision = 0, pause = false) => {
    const saved = granted(await save(given, revision, {}, { seconds, pause }));
    return saved.state === 'saved' ? saved.time : saved;
  };

  it.each([
    ['as-set', 3600],
    ['half-more', 5400],
    ['twice', 7200],
    ['ten-times', 36_000],
  ])('is adjusted before the start: %s gives %d s', async (choice, seconds) => {
    const given = await begin('rip-test', mira, { time: choice });
    expect(given.time.left).toBe(seconds * 1000);
  });

  it('is switched off by oneself, and off where the blueprint sets none', async () => {
    expect((await begin('rip-test', mira, { time: 'off' })).time.left).toBeNull();
    await site.store.db.deleteFrom('open_sitting').execute();
    expect((await begin('walk-and-name')).time.left).toBeNull();
  });

  it('counts from word to word, not while paused, and not through a long silence', async () => {
    const given = await begin();
    expect(await time(given, 60)).toEqual({ used: 60_000, left: 3_540_000 });
    // a lost network: two hours without a word
    expect(await time(given, 7260)).toEqual({ used: 60_000, left: 3_540_000 });
    expect(await time(given, 7300, 0, true)).toEqual({ used: 100_000, left: 3_500_000 });
    expect(await time(given, 7350)).toEqual({ used: 100_000, left: 3_500_000 });
    expect(await time(given, 7360)).toEqual({ used: 110_000, left: 3_490_000 });
    granted(await handIn(given, 0, {}, { seconds: 7370 }));
    expect((await findSitting(site, mira.org, given.attempt))?.handedIn).toMatchObject({
      usedSeconds: 120,
      awaySeconds: 7200,
    });
  });

  it('gives ten minutes more as often as asked, and says so in the record', async () => {
    const given = await begin();
    for (let i = 1; i <= 12; i++) {
      const more = granted(
        await askMoreTime(site, mira, { attempt: given.attempt, hold: HOLD }, at(0)),
      );
      expect(more).toMatchObject({ time: { left: (3600 + i * 600) * 1000 } });
    }
    granted(await handIn(given, 0, {}, { seconds: 1 }));
    expect((await findSitting(site, mira.org, given.attempt))?.handedIn?.extensions).toBe(12);
  });

  it('over, hands in what was kept before the end and takes nothing after it', async () => {
    const given = await begin();
    granted(await save(given, 0, PLAN));
    for (let s = 70; s <= 3600; s += 60) granted(await save(given, 1, PLAN, { seconds: s }));
    const late = { plan: { kind: 'plan', stance: 'b', stick: 'b', end: 'b' } };
    const ended = granted(await save(given, 1, late, { seconds: 3635 }));
    expect(ended).toMatchObject({ state: 'ended', ended: 'time-over' });
    expect((await findSitting(site, mira.org, given.attempt))?.handedIn?.work).toEqual(PLAN);
  });

  it('counts nothing for a clock set back', async () => {
    const given = await begin();
    expect(await time(given, 60)).toMatchObject({ used: 60_000 });
    expect(await time(given, -3600)).toMatchObject({ used: 60_000 });
  });
});

describe('handing in', () => {
  it('grades the perfect candidate at 100 from seed and work alone, and stands once', async () => {
    const given = await begin();
    const { sets, catalogue } = rulesFor('rip-test');
    const work = sitPerfectly(given.form, { sets, catalogue });
    const ended = granted(await handIn(given, 0, work));
    expect(ended).toEqual({
      state: 'ended',
      ended: 'handed-in',
      feedback: 'now',
      review: `/sittings/${given.attempt}`,
    } satisfies EndedSitting);
    // back button, second tab, caught request: the first one stands
    expect(granted(await handIn(given, 0, {}))).toEqual(ended);
    expect(granted(await save(given, 0, {}))).toEqual(ended);
    expect(granted(await handIn(given, 0, PLAN, { hold: OTHER }))).toEqual(ended);
    expect(refused(await handIn(given, 0, work, { viewer: tom })).status).toBe(410);
    const record = (await findSitting(site, mira.org, given.attempt))!;
    const { graded, remark } = await gradeSitting(site, mira.org, record);
    expect(remark).toBeNull();
    expect(graded!.grade.score).toBeCloseTo(100, 6);
    const stored = await site.store.events({
      org: mira.org,
      kinds: ['sitting.handed-in'],
      about: mira.person,
    });
    expect(stored.filter(({ event }) => event?.body.attempt === given.attempt)).toHaveLength(1);
  });

  it('of two at once enters one', async () => {
    const given = await begin();
    const all = await Promise.all([
      handIn(given, 0, PLAN),
      handIn(given, 0, {}),
      handIn(given, 0, PLAN),
    ]);
    expect(new Set(all.map((one) => JSON.stringify(granted(one)))).size).toBe(1);
    const stored = await site.store.events({
      org: mira.org,
      kinds: ['sitting.handed-in'],
      about: mira.person,
    });
    expect(stored.filter(({ event }) => event?.body.attempt === given.attempt)).toHaveLength(1);
  });

  it('leaves the person free to begin another', async () => {
    granted(await handIn(await begin(), 0, {}));
    expect((await begin('walk-and-name')).form.mode).toBe('practice');
  });
});

describe('a test a trainer chooses', () => {
  const set = (body: object, viewer: Viewer | null = trainer) => setSitting(site, viewer, body);

  it('is for somebody else who learns here', async () => {
    const body = { person: mira.person, blueprint: 'rip-test', feedback: 'later' };
    expect(refused(await set(body, null)).status).toBe(401);
    expect(refused(await set(body, mira)).status).toBe(403);
    expect(refused(await set({ ...body, person: trainer.person })).status).toBe(403);
    expect(refused(await set({ ...body, person: boss.person })).status).toBe(404);
    expect(refused(await set({ ...body, blueprint: 'nowhere' })).status).toBe(404);
    expect(refused(await set({ ...body, feedback: 'never' })).message).toBe(
      'feedback must be now or later.',
    );
  });

  it('decides when the result is read, and lets it out', async () => {
    const { setting } = granted(
      await set({ person: tom.person, blueprint: 'rip-test', feedback: 'later' }),
    );
    expect(await settingsFor(site, tom.org, tom.person)).toMatchObject([
      { setting, isUsed: false },
    ]);
    const given = await begin('rip-test', tom);
    expect(given.feedback).toBe('later');
    expect(await settingsFor(site, tom.org, tom.person)).toMatchObject([{ isUsed: true }]);
    expect(refused(await releaseSitting(site, trainer, { attempt: given.attempt })).status).toBe(
      404,
    );
    granted(await handIn(given, 0, PLAN, { viewer: tom }));

    const read = async () => (await findSitting(site, tom.org, given.attempt))!;
    expect(mayReadResult(tom, await read())).toBe(false);
    expect(mayReadResult(trainer, await read())).toBe(true);
    expect(mayReadResult(mira, await read())).toBe(false);
    expect(mayReadResult(boss, await read())).toBe(false);
    expect(refused(await releaseSitting(site, tom, { attempt: given.attempt })).status).toBe(403);
    granted(await releaseSitting(site, trainer, { attempt: given.attempt }));
    granted(await releaseSitting(site, trainer, { attempt: given.attempt }));
    expect(mayReadResult(tom, await read())).toBe(true);
    expect(mayReadResult(mira, await read())).toBe(false);
    const out = await site.store.events({ org: tom.org, kinds: ['sitting.released'] });
    expect(out).toHaveLength(1);
  });
});

describe('a test that is changed or taken out while somebody sits it', () => {
  const other = mkdtempSync(join(tmpdir(), 'content-'));
  afterAll(() => rmSync(other, { recursive: true, force: true }));

  it.each(['changed', 'gone'])('is closed as it stood and holds nobody up: %s', async (how) => {
    const folder = join(other, how);
    cpSync(site.contentDir, folder, { recursive: true });
    const file = join(folder, 'blueprints/rip-test.yaml');
    if (how === 'gone') rmSync(file);
    else writeFileSync(file, readFileSync(file, 'utf8').replace(/^title: .*/m, 'title: Otherwise'));
    const person = await addMember(site, trainer, 'trainee', `Sits one that is ${how}`);
    const given = await begin('rip-test', person);
    granted(await save(given, 0, PLAN, { viewer: person }));

    const changed: Site = { ...site, contentDir: folder };
    const asked = await openSitting(changed, person, ask('walk-and-name'), at(60));
    expect(refused(asked)).toMatchObject({ status: 410, message: expect.stringContaining('kept') });
    const record = await findSitting(site, person.org, given.attempt);
    expect(record?.handedIn).toMatchObject({ ended: 'test-changed', work: PLAN });
    const next = granted(await openSitting(changed, person, ask('walk-and-name'), at(90)));
    expect(next.state).toBe('open');
  });
});
