import { describe, expect, it } from 'vitest';
import {
  type Action,
  ActionSchema,
  type Bench,
  replay,
  transition,
} from '../../src/bench/index.ts';
import { type BenchOverrides, makeBench } from '../helpers/bench.ts';

/** Start, stop, wait, feed: what each does, and what counts as reaching in. Seconds are the bench's own. */

const still = makeBench();
const running = (over: BenchOverrides = {}) =>
  makeBench({ ...over, controls: { turning: 'running', ...over.controls } });
const does = (bench: Bench, action: Action) => transition(bench, action);
const FEED: Action = { do: 'feed', stopped: null };

describe('the two buttons', () => {
  it('starts a saw that stands still, and tells its run-up', () => {
    const { bench, effects } = does(still, { do: 'start' });
    expect(bench.controls.turning).toBe('running');
    expect(effects).toEqual([{ kind: 'turns', to: 'running', after: 4 }]);
  });

  it('starts nothing with the supply locked off', () => {
    const locked = makeBench({ controls: { isolated: true } });
    const { bench, effects } = does(locked, { do: 'start' });
    expect(bench).toBe(locked);
    expect(effects).toEqual([{ kind: 'refused', because: 'locked-off', part: 'controls' }]);
  });

  it('stops into a run-down, and stands still only when it was waited for', () => {
    const { bench, effects } = replay(still, [{ do: 'start' }, { do: 'stop' }, { do: 'wait' }]);
    expect(bench.controls.turning).toBe('still');
    expect(effects.map(({ effect }) => effect)).toEqual([
      { kind: 'turns', to: 'running', after: 4 },
      { kind: 'turns', to: 'slowing', after: 0 },
      { kind: 'turns', to: 'still', after: 8 },
    ]);
  });

  it('starts again while it runs down', () => {
    const slowing = makeBench({ controls: { turning: 'slowing' } });
    expect(does(slowing, { do: 'start' }).bench.controls.turning).toBe('running');
  });

  it.each<[string, Bench, Action, string]>([
    ['start, running', running(), { do: 'start' }, 'running'],
    ['stop, still', still, { do: 'stop' }, 'still'],
    ['wait, still', still, { do: 'wait' }, 'still'],
    ['wait, running', running(), { do: 'wait' }, 'running'],
    ['stop that fails', running({ controls: { stopWorks: false } }), { do: 'stop' }, 'stop-fails'],
    ['feed, still', still, FEED, 'not-running'],
    ['feed, slowing', makeBench({ controls: { turning: 'slowing' } }), FEED, 'not-running'],
    ['feed, no feed', running({ job: { fed: 0 } }), FEED, 'not-fed'],
  ])('changes nothing and says why: %s', (_, bench, action, because) => {
    const step = does(bench, action);
    expect(step.bench).toBe(bench);
    expect(step.effects).toMatchObject([{ kind: 'refused', because }]);
  });
});

describe('feeding', () => {
  it('leaves the saw running', () => {
    const { bench, effects } = does(running(), FEED);
    expect(bench.controls.turning).toBe('running');
    expect(effects).toEqual([{ kind: 'fed', stopped: null }]);
  });

  it('leaves it running down where stop was pressed on the way', () => {
    const { bench, effects } = does(running(), { do: 'feed', stopped: 3.5 });
    expect(bench.controls.turning).toBe('slowing');
    expect(effects[0]).toEqual({ kind: 'fed', stopped: 3.5 });
  });

  it('goes on to the end where the stop fails', () => {
    const bench = running({ controls: { stopWorks: false } });
    const step = does(bench, { do: 'feed', stopped: 3.5 });
    expect(step.bench.controls.turning).toBe('running');
    expect(step.effects).toEqual([{ kind: 'fed', stopped: null }]);
  });
});

describe('reaching in while it turns', () => {
  const HANDS: Action[] = [
    { do: 'unlock', part: 'knife' },
    { do: 'lock', part: 'guard' },
    { do: 'set', setting: 'arbor.depth', to: 112 },
    { do: 'rest-fingers' },
    { do: 'raise-fingers' },
    { do: 'measure', with: 'feeler', at: 'knife-gap-at-table' },
    { do: 'try', part: 'fence' },
  ];

  it.each(HANDS)('is marked of its own kind, running and slowing: $do', (action) => {
    for (const turning of ['running', 'slowing'] as const) {
      // the lock does not still a blade
      for (const isolated of [false, true]) {
        const { effects } = does(makeBench({ controls: { turning, isolated } }), action);
        expect(effects[0]).toEqual({ kind: 'while-turning', action: action.do });
        expect(effects.some(({ kind }) => kind === 'not-isolated')).toBe(false);
      }
    }
  });

  it('is only not isolated where the blade stands still', () => {
    for (const bench of [still, makeBench({ controls: { turning: 'still' } })]) {
      expect(does(bench, { do: 'try', part: 'knife' }).effects[0]?.kind).toBe('not-isolated');
    }
  });

  it('is marked for a running saw cut off at the isolator, which then runs down', () => {
    const { bench, effects } = does(running(), { do: 'isolate' });
    expect(bench.controls).toMatchObject({ isolated: true, turning: 'slowing' });
    expect(effects[0]).toEqual({ kind: 'while-turning', action: 'isolate' });
  });

  it('is not marked where the stop fails, nor while it runs down', () => {
    for (const bench of [
      running({ controls: { stopWorks: false } }),
      makeBench({ controls: { turning: 'slowing' } }),
    ]) {
      const step = does(bench, { do: 'isolate' });
      expect(step.bench.controls).toMatchObject({ isolated: true, turning: 'slowing' });
      expect(step.effects.some(({ kind }) => kind === 'while-turning')).toBe(false);
    }
  });

  it('is not looking, and not pressing a button', () => {
    for (const action of [{ do: 'look', at: 'blade' }, { do: 'stop' }, FEED] as Action[]) {
      expect(does(running(), action).effects.some(({ kind }) => kind === 'while-turning')).toBe(
        false,
      );
    }
  });
});

describe('what may be sent', () => {
  it.each([
    { do: 'start' },
    { do: 'stop' },
    { do: 'wait' },
    FEED,
    { do: 'feed', stopped: 0 },
    { do: 'feed', stopped: 100_000 },
  ])('takes %j', (action) => {
    expect(ActionSchema.safeParse(action).success).toBe(true);
  });
  it.each([
    { do: 'feed' },
    { do: 'feed', stopped: -1 },
    { do: 'feed', stopped: 100_001 },
    { do: 'feed', stopped: Number.NaN },
    { do: 'start', now: true },
  ])('refuses %j', (action) => {
    expect(ActionSchema.safeParse(action).success).toBe(false);
  });
});
