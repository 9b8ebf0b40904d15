import { describe, expect, it } from 'vitest';
import {
  type Action,
  ActionSchema,
  type Bench,
  type Effect,
  measureBench,
  replay,
  transition,
} from '../../src/bench/index.ts';
import { type BenchOverrides, makeBench } from '../helpers/bench.ts';

/** What comes of each thing a hand does, seen from every side. */

const isolated = (overrides: BenchOverrides = {}): Bench =>
  makeBench({ ...overrides, controls: { isolated: true } });
const effectsOf = (bench: Bench, action: Action): readonly Effect[] =>
  transition(bench, action).effects;
const benchAfter = (bench: Bench, ...actions: Action[]): Bench => replay(bench, actions).bench;

describe('the supply', () => {
  const AT_THE_BLADE: readonly Action[] = [
    { do: 'unlock', part: 'knife' },
    { do: 'lock', part: 'knife' },
    { do: 'set', setting: 'knife.along', to: 3 },
    { do: 'rest-fingers' },
    { do: 'raise-fingers' },
    { do: 'measure', with: 'rule', at: 'blade-height' },
    { do: 'try', part: 'knife' },
  ];

  it.each(AT_THE_BLADE.map((action) => [action]))(
    '%j with it on is marked, with it locked off is not',
    (action) => {
      expect(effectsOf(makeBench(), action)[0]).toEqual({
        kind: 'not-isolated',
        action: action.do,
      });
      const kinds = effectsOf(isolated(), action).map(({ kind }) => kind);
      expect(kinds).not.toContain('not-isolated');
    },
  );

  it('is locked off and put back on, and looking is never marked', () => {
    const off = benchAfter(makeBench(), { do: 'isolate' });
    expect(off.controls.isolated).toBe(true);
    expect(benchAfter(off, { do: 'reconnect' }).controls.isolated).toBe(false);
    const plain: Action[] = [{ do: 'isolate' }, { do: 'reconnect' }, { do: 'look', at: 'knife' }];
    for (const action of plain) expect(effectsOf(makeBench(), action)).toEqual([]);
  });
});

describe('the fingers', () => {
  it('are let down and lifted', () => {
    const up = isolated({ guard: { fingers: 'raised' } });
    const down = transition(up, { do: 'rest-fingers' });
    expect(down.bench.guard?.fingers).toBe('resting');
    expect(down.effects).toEqual([]);
    expect(benchAfter(down.bench, { do: 'raise-fingers' }).guard?.fingers).toBe('raised');
  });

  it('are refused where the guard has none, or there is no guard', () => {
    const none = isolated({ guard: { fingers: 'none' } });
    expect(transition(none, { do: 'rest-fingers' })).toEqual({
      bench: none,
      effects: [{ kind: 'refused', because: 'no-fingers', part: 'guard' }],
    });
    const off = isolated({ guard: null });
    expect(transition(off, { do: 'raise-fingers' })).toEqual({
      bench: off,
      effects: [{ kind: 'refused', because: 'taken-off', part: 'guard' }],
    });
  });
});

describe('trying a part by hand', () => {
  it('feels its play when it is locked, and that it is loose when it is not', () => {
    expect(effectsOf(isolated({ fence: { play: 1.5 } }), { do: 'try', part: 'fence' })).toEqual([
      { kind: 'play', part: 'fence', movement: 1.5 },
    ]);
    expect(effectsOf(isolated({ fence: { locked: false } }), { do: 'try', part: 'fence' })).toEqual(
      [{ kind: 'play', part: 'fence', movement: 10 }],
    );
  });

  it('is refused where the part is off', () => {
    expect(effectsOf(isolated({ guard: null }), { do: 'try', part: 'guard' })).toEqual([
      { kind: 'refused', because: 'taken-off', part: 'guard' },
    ]);
  });
});

describe('setting', () => {
  it('is refused where the part is off', () => {
    const bare = isolated({ knife: null, guard: null });
    const settings = [
      ['knife.along', 'knife'],
      ['knife.up', 'knife'],
      ['guard.height', 'guard'],
      ['guard.front', 'guard'],
    ] as const;
    for (const [setting, part] of settings) {
      expect(transition(bare, { do: 'set', setting, to: 20 })).toEqual({
        bench: bare,
        effects: [{ kind: 'refused', because: 'taken-off', part }],
      });
    }
  });

  it('goes to the end of the range and no further, and says so', () => {
    const loose = isolated({ guard: { locked: false }, fence: { locked: false } });
    const high = transition(loose, { do: 'set', setting: 'guard.height', to: 900 });
    expect(high.bench.guard?.height).toBe(400);
    expect(high.effects).toEqual([{ kind: 'stopped', by: 'range', setting: 'guard.height' }]);
    const low = transition(loose, { do: 'set', setting: 'fence.face', to: -5 });
    expect(low.bench.fence.face).toBe(0);
    expect(low.effects).toEqual([{ kind: 'stopped', by: 'range', setting: 'fence.face' }]);
    const there = transition(loose, { do: 'set', setting: 'guard.height', to: 400 });
    expect(there.effects).toEqual([]);
  });

  it('of the fence moves what was named and nothing else', () => {
    const loose = isolated({ fence: { locked: false } });
    expect(benchAfter(loose, { do: 'set', setting: 'fence.end', to: -120 }).fence).toEqual({
      ...loose.fence,
      end: -120,
    });
    expect(benchAfter(loose, { do: 'set', setting: 'fence.face', to: 80 }).fence).toEqual({
      ...loose.fence,
      face: 80,
    });
  });
});

describe('rise and fall', () => {
  const depth = (bench: Bench, to: number) =>
    transition(bench, { do: 'set', setting: 'arbor.depth', to });

  it('needs no clamp, and leaves one tooth point in sight', () => {
    const bare = isolated({ knife: null });
    const { bench, effects } = depth(bare, 300);
    expect(bench.arbor.depth).toBe(199);
    expect(effects).toEqual([{ kind: 'stopped', by: 'range', setting: 'arbor.depth' }]);
    expect(depth(bare, 199).effects).toEqual([]);
    expect(depth(bare, 150).bench.knife).toBeNull();
  });

  it('takes a knife on the arbor along, and leaves one on frame or table where it stands', () => {
    for (const [carriedBy, up] of [
      ['arbor', 0],
      ['frame', 6],
      ['table', 6],
    ] as const) {
      const { bench, effects } = depth(isolated({ knife: { carriedBy } }), 116);
      expect(effects).toEqual([]);
      expect(bench.knife?.up).toBe(up);
    }
  });

  it('stops where the teeth would come into a knife that stays behind', () => {
    const onFrame = isolated({ knife: { carriedBy: 'frame' } });
    const { bench, effects } = depth(onFrame, 60);
    expect(bench).toBe(onFrame);
    expect(effects).toEqual([{ kind: 'stopped', by: 'teeth', setting: 'arbor.depth' }]);
    expect(measureBench(onFrame)['knife.gapMin']).toBeGreaterThan(0);
  });

  it('stops before the knife sinks wholly under the table with the blade', () => {
    // reach 120 with the axis 110 down: the tip stands 10 above the table
    const short = isolated({ knife: { reach: 120 } });
    expect(depth(short, 119).effects).toEqual([]);
    expect(depth(short, 121)).toEqual({
      bench: short,
      effects: [{ kind: 'stopped', by: 'teeth', setting: 'arbor.depth' }],
    });
  });
});

describe('sliding the knife', () => {
  const slide = (overrides: BenchOverrides, setting: 'knife.along' | 'knife.up', to: number) =>
    transition(isolated({ ...overrides, knife: { locked: false, ...overrides.knife } }), {
      do: 'set',
      setting,
      to,
    });

  it('lands where it was sent when nothing is in the way, to the last digit', () => {
    const { bench, effects } = slide({}, 'knife.along', 7.25);
    expect(bench.knife?.along).toBe(7.25);
    expect(effects).toEqual([]);
    expect(slide({}, 'knife.up', 3.5).bench.knife).toMatchObject({ up: 3.5, along: 2 });
  });

  it('stops a hair before the teeth along and up, and names what it met', () => {
    for (const [setting, to] of [
      ['knife.along', -30],
      ['knife.up', -30],
    ] as const) {
      const { bench, effects } = slide({}, setting, to);
      const gap = Number(measureBench(bench)['knife.gapMin']);
      expect(gap).toBeGreaterThanOrEqual(0);
      expect(gap).toBeLessThan(0.0011);
      expect(effects).toEqual([{ kind: 'stopped', by: 'teeth', setting }]);
      expect(bench.knife?.[setting === 'knife.along' ? 'up' : 'along']).toBe(
        setting === 'knife.along' ? 0 : 2,
      );
    }
  });

  it('stops before its tip goes under the table', () => {
    // a knife well behind the blade, tip 10 above the table, pushed 40 down
    const { bench, effects } = slide({ knife: { along: 60, reach: 120 } }, 'knife.up', -40);
    expect(effects).toEqual([{ kind: 'stopped', by: 'table', setting: 'knife.up' }]);
    expect(bench.knife?.up).toBeLessThan(-9.99);
    expect(bench.knife?.up).toBeGreaterThan(-10.0011);
    expect(bench.knife?.along).toBe(60);
  });

  it('in the teeth already may be moved clear, and no deeper', () => {
    // along -8 the knife stands in the teeth (a fault); the file may say so
    const fouled = { knife: { along: -8 } };
    const out = slide(fouled, 'knife.along', 5);
    expect(out.bench.knife?.along).toBe(5);
    expect(out.effects).toEqual([]);
    const some = slide(fouled, 'knife.along', -7);
    expect(some.bench.knife?.along).toBe(-7);
    expect(some.effects).toEqual([]);
    const deeper = slide(fouled, 'knife.along', -9);
    expect(deeper.bench.knife?.along).toBe(-8);
    expect(deeper.effects).toEqual([{ kind: 'stopped', by: 'teeth', setting: 'knife.along' }]);
    expect(slide(fouled, 'knife.along', -8).effects).toEqual([]);
  });
});

describe('what may be sent as an action', () => {
  const accepts = (action: unknown): boolean => ActionSchema.safeParse(action).success;
  it.each([
    [{ do: 'set', setting: 'knife.along', to: 1000 }, true],
    [{ do: 'set', setting: 'knife.along', to: -1000 }, true],
    [{ do: 'set', setting: 'knife.along', to: 1000.5 }, false],
    [{ do: 'set', setting: 'knife.along', to: -1000.5 }, false],
    [{ do: 'set', setting: 'knife.along', to: Number.NaN }, false],
    [{ do: 'set', setting: 'knife.sideways', to: 1 }, false],
    [{ do: 'look', at: 'x'.repeat(40) }, true],
    [{ do: 'look', at: 'x'.repeat(41) }, false],
    [{ do: 'look', at: '' }, true],
    [{ do: 'measure', with: 'dial', at: 'fence-toe' }, true],
    [{ do: 'measure', with: 'lamp', at: 'fence-toe' }, false],
    [{ do: 'measure', with: 'calliper', at: 'fence-toe' }, true],
    [{ do: 'try', part: 'table' }, false],
    [{ do: 'isolate', now: true }, false],
    [{ do: 'dance' }, false],
  ])('%j: %s', (action, accepted) => {
    expect(accepts(action)).toBe(accepted);
  });
});
