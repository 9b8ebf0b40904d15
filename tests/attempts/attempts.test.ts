import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Site, Viewer } from '../../src/accounts/index.ts';
import {
  attemptsOf,
  findAttempt,
  handIn,
  startAttempt,
  tellVerdict,
} from '../../src/attempts/index.ts';
import {
  type Action,
  INSTRUMENTS,
  type InstrumentId,
  MEASURING_POINTS,
  type MeasuringPointId,
  readInstrument,
} from '../../src/bench/index.ts';
import { newId } from '../../src/records/index.ts';
import { granted, makeTempSite, refused } from '../accounts/temp-site.ts';

let site: Site;
let remove: () => Promise<void>;
beforeAll(async () => {
  ({ site, remove } = await makeTempSite());
});
afterAll(() => remove());

const trainee = (person = 'p-trainee'): Viewer => ({
  person,
  org: 'o-1',
  name: 'Mira Holt',
  email: 'mira@alderlane.example',
  role: 'trainee',
  signedInAt: '2026-11-25T08:00:00.000Z',
});

/** Brings the knife-and-guard bench within the limits of gb, in the order of work. */
const SET_RIGHT: Action[] = [
  { do: 'isolate' },
  { do: 'unlock', part: 'knife' },
  { do: 'set', setting: 'knife.up', to: 0 },
  { do: 'set', setting: 'knife.along', to: 2 },
  { do: 'lock', part: 'knife' },
  { do: 'unlock', part: 'guard' },
  { do: 'set', setting: 'guard.height', to: 56 },
  { do: 'set', setting: 'guard.front', to: -235 },
  { do: 'lock', part: 'guard' },
  { do: 'rest-fingers' },
];

const start = async (task: string, viewer: Viewer | null = trainee()) =>
  granted(await startAttempt(site, viewer, { task }));

describe('being given a bench', () => {
  it('carries the bench and word lists, and no key: no verdict, fault of this bench, seed or limit', async () => {
    const given = await start('walk-round');
    const sent = JSON.stringify(given);
    expect(Object.keys(given).sort()).toEqual(['attempt', 'bench', 'choices', 'task', 'token']);
    expect(Object.keys(given.task).sort()).toEqual(
      ['brief', 'faults', 'heldTo', 'id', 'limits', 'mode', 'settings', 'title'].sort(),
    );
    for (const word of [
      'seed',
      'spoil',
      'verdict',
      'within',
      'outside',
      'missed',
      'severity',
      'critical',
    ]) {
      expect(sent).not.toContain(`"${word}"`);
    }
    const stored = await site.store.events({ org: 'o-1', kinds: ['attempt.started'] });
    const seed = String(stored.at(-1)?.event?.body.seed);
    expect(seed).toMatch(/^[0-9a-f]{32}$/);
    expect(sent).not.toContain(seed);
    // the lists are the same for every bench
    expect((await start('walk-round')).choices).toEqual(given.choices);
    expect((await start('walk-round')).bench).not.toEqual(given.bench);
  });

  it('keeps nothing about somebody without an account, or an employer', async () => {
    const began = () => site.store.events({ org: 'o-1', kinds: ['attempt.started'] });
    const before = (await began()).length;
    const stranger = await start('knife-and-guard', null);
    const employer = await start('knife-and-guard', { ...trainee('p-boss'), role: 'employer' });
    expect([stranger.attempt, employer.attempt]).toEqual([null, null]);
    const result = granted(
      await handIn(site, null, { token: stranger.token, actions: SET_RIGHT, claims: [] }),
    );
    expect(result.stored).toBe(false);
    expect(await began()).toHaveLength(before);
  });

  it('names an unknown task and a malformed request', async () => {
    expect(refused(await startAttempt(site, null, { task: 'nowhere' }))).toMatchObject({
      status: 404,
    });
    expect(refused(await startAttempt(site, null, undefined)).message).toMatch(
      /^The request must be/,
    );
    expect(refused(await startAttempt(site, null, { task: '../x' })).path).toBe('task');
  });
});

describe('asking how close', () => {
  it('tells the settings with their sources, in practice', async () => {
    const { token } = await start('knife-and-guard');
    const before = granted(tellVerdict(site, trainee(), { token, actions: [] }));
    const gap = before.settings.find(
      (one) => one.measure === 'knife.gapAtTable' && one.set === 'gb',
    );
    expect(gap).toMatchObject({
      verdict: 'outside',
      limit: 'at most 8 mm',
      limitInch: 'at most 5/16 in',
    });
    expect(gap?.source.document).toMatch(/HSE/);
    const after = granted(tellVerdict(site, trainee(), { token, actions: SET_RIGHT }));
    expect(after.settings.filter((one) => one.verdict === 'outside')).toEqual([]);
  });
});

describe('a test of reading tools', () => {
  it('counts what was read within the uncertainty of the tool, the last reading at each place', async () => {
    const given = await start('read-the-tools');
    expect(given.task.mode).toBe('test');
    const places = given.task.readings as MeasuringPointId[];
    const laid = (at: MeasuringPointId, by: number): Action => {
      const tool = MEASURING_POINTS[at].instruments[0] as InstrumentId;
      const length = MEASURING_POINTS[at].take(given.bench);
      const shown = length === null ? null : readInstrument(INSTRUMENTS[tool], length);
      return { do: 'measure', with: tool, at, read: shown === null ? null : shown + by };
    };
    // a reading far out is mended by a later one; the last place is never read, the first read wrong
    const actions: Action[] = [
      { do: 'isolate' },
      ...places.slice(0, -1).map((at) => laid(at, 40)),
      ...places.slice(1, -1).map((at) => laid(at, 0.04)),
      { do: 'measure', with: 'dial', at: places.at(-1) as MeasuringPointId },
    ];
    const isThere = MEASURING_POINTS[places[0] as MeasuringPointId].take(given.bench) !== null;
    const graded = granted(
      await handIn(site, trainee(), { token: given.token, actions, claims: [] }),
    );
    const right = graded.readings.filter(({ taken }) => taken?.right).length;
    expect(right).toBe(places.length - (isThere ? 2 : 1));
    expect(graded.readings.at(-1)?.taken).toBeNull();
    expect(graded.score).toBe(Math.round((100 * right) / places.length));
  });

  it('takes no reading that is no length', async () => {
    const { token } = await start('read-the-tools');
    const actions = [{ do: 'measure', with: 'rule', at: 'blade-height', read: '7' }];
    const { message } = refused(await handIn(site, trainee(), { token, actions, claims: [] }));
    expect(message).toContain('must be a number of mm from -1000 to 1000');
  });
});

describe('handing in', () => {
  it('grades from the seed and the actions, and stores what was done', async () => {
    const { token, attempt } = await start('knife-and-guard');
    const result = granted(
      await handIn(site, trainee(), { token, actions: SET_RIGHT, claims: [] }),
    );
    expect(result).toMatchObject({ attempt, stored: true, critical: [], left: [], fit: true });
    expect(result.score).toBeGreaterThan(80);
    const [listed] = await attemptsOf(site, 'o-1', 'p-trainee');
    expect(listed).toMatchObject({ id: attempt, grade: { score: result.score }, remark: null });
    const kept = await findAttempt(site, 'o-1', attempt ?? '');
    expect(kept?.grade).toMatchObject({ score: result.score });
    expect(kept?.actions).toEqual(SET_RIGHT);
    expect(kept?.remark).toBeNull();
  });

  it('tells of work at the blade before the supply was locked off', async () => {
    const { token } = await start('knife-and-guard');
    const actions = SET_RIGHT.slice(1);
    const { critical } = granted(await handIn(site, trainee(), { token, actions, claims: [] }));
    expect(critical).toHaveLength(1);
    expect(critical[0]).toContain('9 times');
  });

  it('counts a clamp left open', async () => {
    const { token } = await start('knife-and-guard');
    const actions = SET_RIGHT.filter((one) => !(one.do === 'lock' && one.part === 'knife'));
    const result = granted(await handIn(site, trainee(), { token, actions, claims: [] }));
    expect(result.left.map((one) => one.fault)).toContain('knife-loose');
    expect(result.fit).toBe(false);
  });

  it('enters it once: the first hand-in stands, whatever is sent after', async () => {
    const { token, attempt } = await start('walk-round');
    const first = granted(await handIn(site, trainee(), { token, actions: [], claims: [] }));
    const claims = [{ part: 'blade', fault: 'cracked-gullet', remedy: 'take-out-of-service' }];
    const again = granted(await handIn(site, trainee(), { token, actions: SET_RIGHT, claims }));
    expect(again).toEqual(first);
    const kept = (await attemptsOf(site, 'o-1', trainee().person)).filter(
      (one) => one.id === attempt,
    );
    expect(kept).toHaveLength(1);
    expect((await findAttempt(site, 'o-1', attempt ?? ''))?.claims).toEqual([]);
  });

  it('is found by its id, by nobody of another organisation', async () => {
    const { attempt } = await start('walk-round', trainee('p-found'));
    expect(await findAttempt(site, 'o-1', attempt ?? '')).toMatchObject({
      ...{ id: attempt, person: 'p-found', handedInAt: null },
    });
    expect(await findAttempt(site, 'o-2', attempt ?? '')).toBeNull();
    expect(await findAttempt(site, 'o-1', newId())).toBeNull();
    expect(await findAttempt(site, 'o-1', '%')).toBeNull();
  });

  it('is found where it was entered under an id of its own, as it used to be', async () => {
    const begun = await start('walk-round', trainee('p-older'));
    const event = (await site.store.event(begun.attempt ?? ''))?.event;
    const [older, entered, beside] = [newId(), newId(), newId()];
    for (const [id, attempt] of [
      [entered, older],
      [beside, newId()],
    ]) {
      const { received: _, ...draft } = event as typeof event & { received: string };
      const body = { ...(draft as { body: object }).body, attempt };
      await site.store.append({ ...draft, id, body } as never);
    }
    expect(await findAttempt(site, 'o-1', older)).toMatchObject({ id: older, person: 'p-older' });
    expect(await findAttempt(site, 'o-1', entered)).toBeNull();
  });

  it('refuses another person’s token, a changed one and one not ours', async () => {
    const { token } = await start('walk-round');
    const body = { token, actions: [], claims: [] };
    expect(refused(await handIn(site, trainee('p-other'), body)).status).toBe(401);
    expect(refused(await handIn(site, null, body)).status).toBe(401);
    const changed = `${token.slice(0, -2)}${token.endsWith('A') ? 'BB' : 'AA'}`;
    expect(refused(await handIn(site, trainee(), { ...body, token: changed })).status).toBe(410);
    expect(refused(await handIn(site, trainee(), { ...body, token: 'x' })).status).toBe(410);
  });

  it('names the action that is not one', async () => {
    const { token } = await start('walk-round');
    const actions = [{ do: 'isolate' }, { do: 'set', setting: 'knife.along', to: 'far' }];
    const refusal = refused(await handIn(site, trainee(), { token, actions, claims: [] }));
    expect(refusal).toEqual({
      status: 400,
      path: 'actions[1].to',
      message: 'actions[1].to must be a number of mm from -1000 to 1000.',
    });
  });

  it('finds every fault somebody perfect writes down, and nothing for one who marks everything', async () => {
    const { token, choices } = await start('walk-round');
    const everything = choices.faults.map(({ id, part }) => ({
      part,
      fault: id,
      remedy: 'report',
    }));
    const marked = granted(
      await handIn(site, trainee(), { token, actions: [], claims: everything }),
    );
    expect(marked.missed).toEqual([]);
    expect(marked.found.length).toBeGreaterThanOrEqual(3);
    expect(marked.score).toBe(0);
  });
});
