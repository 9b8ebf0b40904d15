import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Action,
  CLAMPED_PARTS,
  INSTRUMENT_IDS,
  MEASURING_POINT_IDS,
  replay,
  SETTING_IDS,
} from '../../src/bench/index.ts';
import { createAttempt } from '../../src/panels/bench/work/attempt.ts';
import { makeServer, makeShelf, makeStarted, OFFLINE, REFUSED } from './fake-bench-server.ts';

const ISOLATE: Action = { do: 'isolate' };
const UNLOCK: Action = { do: 'unlock', part: 'knife' };
const MOVE: Action = { do: 'set', setting: 'knife.along', to: 6 };
const CLAIM = { part: 'blade', fault: 'cracked-gullet', remedy: 'take-out-of-service' };

async function begin(over: Parameters<typeof makeStarted>[0] = {}) {
  const fake = makeServer(makeStarted(over));
  const shelf = makeShelf();
  const attempt = createAttempt('walk-round', fake.server, shelf);
  await attempt.begin();
  return { attempt, shelf, ...fake };
}

const action: fc.Arbitrary<Action> = fc.oneof(
  fc.constantFrom<Action>(
    { do: 'isolate' },
    { do: 'reconnect' },
    { do: 'rest-fingers' },
    { do: 'raise-fingers' },
  ),
  fc.record({
    do: fc.constantFrom('unlock', 'lock', 'try'),
    part: fc.constantFrom(...CLAMPED_PARTS),
  }),
  fc.record({
    do: fc.constant('set' as const),
    setting: fc.constantFrom(...SETTING_IDS),
    to: fc.integer({ min: -200, max: 200 }),
  }),
  fc.record({
    do: fc.constant('measure' as const),
    with: fc.constantFrom(...INSTRUMENT_IDS),
    at: fc.constantFrom(...MEASURING_POINT_IDS),
  }),
) as fc.Arbitrary<Action>;

describe('an attempt at a bench', () => {
  it('moves the bench through the engine and sends what was done, not what came of it', async () => {
    const { attempt, sent } = await begin();
    for (const one of [ISOLATE, UNLOCK, MOVE]) attempt.act(one);
    expect(attempt.bench.value?.knife?.along).toBe(6);
    attempt.writeDown(CLAIM);
    await attempt.handIn();
    expect(sent.at(-1)).toEqual({
      what: 'hand-in',
      body: ['a-token', [ISOLATE, UNLOCK, MOVE], [CLAIM], []],
    });
    expect(attempt.phase.value).toBe('handed-in');
  });

  it('takes no action and no claim once it is handed in', async () => {
    const { attempt } = await begin();
    await attempt.handIn();
    attempt.act(ISOLATE);
    expect(attempt.writeDown(CLAIM)).toBe(false);
    expect(attempt.actions.value).toEqual([]);
    expect(attempt.claims.value).toEqual([]);
  });

  it('writes the same fault of a part down once, and takes it back', async () => {
    const { attempt } = await begin();
    expect(attempt.writeDown(CLAIM)).toBe(true);
    expect(attempt.writeDown({ ...CLAIM, remedy: 'report' })).toBe(false);
    attempt.takeBack(attempt.claims.value[0] as typeof CLAIM);
    expect(attempt.claims.value).toEqual([]);
    expect(attempt.writeDown(CLAIM)).toBe(true);
  });
});

describe('work left lying', () => {
  it('is offered, and carried on to the same bench, whatever was done', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(action, { maxLength: 30 }), async (actions) => {
        const { attempt, shelf } = await begin();
        for (const one of actions) attempt.act(one);
        attempt.writeDown(CLAIM);
        attempt.jot({ part: 'blade', fault: '', remedy: '' });

        const again = createAttempt('walk-round', makeServer().server, shelf);
        await again.begin();
        expect(again.phase.value).toBe('offering');
        await again.carryOn();
        expect(again.phase.value).toBe('working');
        expect(again.bench.value).toEqual(attempt.bench.value);
        expect(again.done.value).toEqual(attempt.done.value);
        expect(again.claims.value).toEqual([CLAIM]);
        expect(again.draft.value.part).toBe('blade');
        // and it is where the server, which has only the actions, will find it
        expect(again.bench.value).toEqual(replay(makeStarted().bench, actions).bench);
      }),
      { numRuns: 60 },
    );
  });

  it('is thrown away for a fresh bench only when asked', async () => {
    const { attempt, shelf } = await begin();
    attempt.act(ISOLATE);
    const fake = makeServer();
    const again = createAttempt('walk-round', fake.server, shelf);
    await again.begin();
    expect(fake.sent).toEqual([]);
    await again.takeFresh();
    expect(again.actions.value).toEqual([]);
    expect(shelf.read()?.actions).toEqual([]);
  });

  it('stays when a fresh bench was asked for and did not come', async () => {
    const { attempt, shelf, failNext } = await begin();
    attempt.act(ISOLATE);
    failNext(OFFLINE);
    await attempt.takeFresh();
    expect(attempt.phase.value).toBe('failed');
    expect(shelf.read()?.actions).toEqual([ISOLATE]);
    await attempt.carryOn();
    expect(attempt.phase.value).toBe('working');
    expect(attempt.actions.value).toEqual([ISOLATE]);
  });

  it('shows a result again after a reload', async () => {
    const { attempt, shelf } = await begin();
    await attempt.handIn();
    const again = createAttempt('walk-round', makeServer().server, shelf);
    await again.begin();
    await again.carryOn();
    expect(again.phase.value).toBe('handed-in');
    expect(again.outcome.value?.score).toBe(50);
  });

  it('of another version gives way to a fresh bench instead of an error', async () => {
    const { attempt, shelf } = await begin();
    attempt.act(ISOLATE);
    shelf.text = (shelf.text ?? '').replace('"isolate"', '"set"');
    const again = createAttempt('walk-round', makeServer().server, shelf);
    await again.begin();
    await again.carryOn();
    expect(again.phase.value).toBe('working');
    expect(again.actions.value).toEqual([]);
  });

  it('is told of when the browser keeps nothing', async () => {
    const { attempt, shelf } = await begin();
    shelf.isFull = true;
    attempt.act(ISOLATE);
    expect(attempt.isKept.value).toBe(false);
    expect(attempt.actions.value).toEqual([ISOLATE]);
  });
});

describe('a server that does not answer', () => {
  it('leaves all that was done, and takes it when asked again', async () => {
    const { attempt, failNext, sent } = await begin();
    attempt.act(ISOLATE);
    attempt.writeDown(CLAIM);
    failNext(OFFLINE);
    await attempt.handIn();
    expect(attempt.phase.value).toBe('working');
    expect(attempt.trouble.value).toEqual({ kind: 'offline', message: 'No answer.' });
    await attempt.handIn();
    expect(attempt.phase.value).toBe('handed-in');
    expect(attempt.trouble.value).toBeNull();
    expect(sent.at(-1)).toEqual(sent.at(-2));
  });

  it('or refuses is quoted as it is', async () => {
    const { attempt, failNext } = await begin();
    failNext(REFUSED);
    await attempt.askHowClose();
    expect(attempt.trouble.value?.message).toBe('actions[0] is odd.');
    expect(attempt.verdict.value).toBeNull();
  });

  it('at the start can be asked again', async () => {
    const fake = makeServer();
    fake.failNext(OFFLINE);
    const attempt = createAttempt('walk-round', fake.server, makeShelf());
    await attempt.begin();
    expect(attempt.phase.value).toBe('failed');
    await attempt.start();
    expect(attempt.phase.value).toBe('working');
  });
});
