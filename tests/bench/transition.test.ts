import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Action,
  ActionSchema,
  type Bench,
  type Effect,
  INSTRUMENT_IDS,
  INSTRUMENTS,
  MEASURING_POINT_IDS,
  MEASURING_POINTS,
  measureBench,
  readBench,
  readInstrument,
  replay,
  SETTING_IDS,
  SETTINGS,
  transition,
} from '../../src/bench/index.ts';
import { makeBench } from '../helpers/bench.ts';

const isolated = (): Bench => transition(makeBench(), { do: 'isolate' }).bench;
const run = (bench: Bench, ...actions: Action[]) => replay(bench, actions);
const kinds = (effects: readonly { effect: Effect }[]) => effects.map(({ effect }) => effect.kind);

describe('working at the bench', () => {
  it('moves the knife only with its clamp open', () => {
    const locked = run(isolated(), { do: 'set', setting: 'knife.along', to: 6 });
    expect(locked.bench.knife?.along).toBe(2);
    expect(locked.effects[0]?.effect).toEqual({
      kind: 'refused',
      because: 'locked',
      part: 'knife',
    });
    const open = run(
      isolated(),
      { do: 'unlock', part: 'knife' },
      { do: 'set', setting: 'knife.along', to: 6 },
      { do: 'lock', part: 'knife' },
    );
    expect(open.bench.knife).toMatchObject({ along: 6, locked: true });
    expect(open.effects).toEqual([]);
  });

  it('stops the knife where it touches the teeth', () => {
    const { bench, effects } = run(
      isolated(),
      { do: 'unlock', part: 'knife' },
      { do: 'set', setting: 'knife.along', to: -40 },
    );
    expect(kinds(effects)).toEqual(['stopped']);
    const gap = measureBench(bench)['knife.gapMin'] as number;
    expect(gap).toBeGreaterThanOrEqual(0);
    expect(gap).toBeLessThan(0.01);
  });

  it('slides the guard along its arm in one piece', () => {
    const { bench } = run(
      isolated(),
      { do: 'unlock', part: 'guard' },
      { do: 'set', setting: 'guard.front', to: -250 },
    );
    expect(bench.guard).toMatchObject({ front: -250, rear: 220 });
  });

  it('marks a hand at the blade with the supply on, and does what was done', () => {
    const { bench, effects } = run(makeBench(), { do: 'unlock', part: 'guard' });
    expect(kinds(effects)).toEqual(['not-isolated']);
    expect(bench.guard?.locked).toBe(false);
  });

  it('does not mark looking', () => {
    expect(run(makeBench(), { do: 'look', at: 'blade' }).effects).toEqual([]);
  });

  it('refuses work on a part that is off', () => {
    const bench = transition(makeBench({ knife: null }), { do: 'isolate' }).bench;
    expect(run(bench, { do: 'unlock', part: 'knife' }).effects[0]?.effect).toMatchObject({
      kind: 'refused',
      because: 'taken-off',
    });
  });

  it('carries a knife on the arbor with the blade, and leaves one on the frame behind', () => {
    const lower = (carriedBy: 'arbor' | 'frame') => {
      const from = transition(makeBench({ knife: { carriedBy } }), { do: 'isolate' }).bench;
      const to = run(from, { do: 'set', setting: 'arbor.depth', to: 120 }).bench;
      return { before: measureBench(from), after: measureBench(to) };
    };
    const arbor = lower('arbor');
    expect(arbor.after['knife.tipDrop']).toBeCloseTo(arbor.before['knife.tipDrop'] as number, 9);
    const frame = lower('frame');
    expect(frame.after['knife.tipHeight']).toBeCloseTo(
      frame.before['knife.tipHeight'] as number,
      9,
    );
    expect(frame.after['knife.tipDrop']).toBeCloseTo(
      (frame.before['knife.tipDrop'] as number) - 10,
      9,
    );
  });

  it('reports side play as the hand feels it', () => {
    const bench = transition(makeBench({ knife: { play: 2 } }), { do: 'isolate' }).bench;
    expect(run(bench, { do: 'try', part: 'knife' }).effects[0]?.effect).toEqual({
      kind: 'play',
      part: 'knife',
      movement: 2,
    });
  });

  const anyAction: fc.Arbitrary<Action> = fc.oneof(
    fc.constantFrom<Action>(
      { do: 'isolate' },
      { do: 'reconnect' },
      { do: 'rest-fingers' },
      { do: 'raise-fingers' },
      { do: 'unlock', part: 'knife' },
      { do: 'unlock', part: 'guard' },
      { do: 'unlock', part: 'fence' },
      { do: 'lock', part: 'knife' },
      { do: 'try', part: 'guard' },
    ),
    fc.record({
      do: fc.constant('set' as const),
      setting: fc.constantFrom(...SETTING_IDS),
      to: fc.double({ min: -1000, max: 1000, noNaN: true }),
    }),
    fc.record({
      do: fc.constant('measure' as const),
      with: fc.constantFrom(...INSTRUMENT_IDS),
      at: fc.constantFrom(...MEASURING_POINT_IDS),
    }),
  );

  it('leaves a bench the schema still accepts, whatever is done, and the first one untouched', () => {
    const carried = fc.constantFrom('arbor' as const, 'frame' as const, 'table' as const);
    fc.assert(
      fc.property(carried, fc.array(anyAction, { maxLength: 40 }), (carriedBy, actions) => {
        const start = makeBench({ knife: { carriedBy } });
        const copy = structuredClone(start);
        const { bench } = replay(start, actions);
        expect(start).toEqual(copy);
        const read = readBench(bench);
        expect(read.ok ? '' : read.error.message).toBe('');
        expect(measureBench(bench)['knife.gapMin']).toBeGreaterThanOrEqual(0);
        for (const action of actions) expect(ActionSchema.safeParse(action).success).toBe(true);
      }),
      { seed: 99, numRuns: 300 },
    );
  });

  it('replays to the same bench every time', () => {
    fc.assert(
      fc.property(fc.array(anyAction, { maxLength: 20 }), (actions) => {
        expect(replay(makeBench(), actions)).toEqual(replay(makeBench(), actions));
      }),
    );
  });
});

describe('instruments', () => {
  it('reads a rule to the nearest half and feeler leaves never over the gap', () => {
    expect(readInstrument(INSTRUMENTS.rule, 7.74)).toBe(7.5);
    expect(readInstrument(INSTRUMENTS.rule, 7.76)).toBe(8);
    expect(readInstrument(INSTRUMENTS.feeler, 7.79)).toBe(7.75);
    expect(readInstrument(INSTRUMENTS.feeler, 0.15)).toBe(0.15);
    expect(readInstrument(INSTRUMENTS.feeler, 0.03)).toBeNull();
    expect(readInstrument(INSTRUMENTS.feeler, 40)).toBeNull();
  });

  it('keeps the true length within the uncertainty it states', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...INSTRUMENT_IDS),
        fc.double({ min: 0.06, max: 24, noNaN: true }),
        (id, length) => {
          fc.pre(length <= INSTRUMENTS[id].longest);
          const reading = readInstrument(INSTRUMENTS[id], length) as number;
          expect(Math.abs(reading - length)).toBeLessThanOrEqual(
            INSTRUMENTS[id].uncertainty + 1e-9,
          );
        },
      ),
    );
  });

  it('takes no reading with an instrument that does not go there', () => {
    const { effects } = run(isolated(), {
      do: 'measure',
      with: 'calliper',
      at: 'knife-gap-at-table',
    });
    expect(effects[0]?.effect).toMatchObject({ kind: 'reading', value: null });
  });

  it('reads at every measuring point of a sound bench with each of its instruments', () => {
    for (const id of MEASURING_POINT_IDS) {
      for (const instrument of MEASURING_POINTS[id].instruments) {
        const { effects } = run(isolated(), { do: 'measure', with: instrument, at: id });
        const effect = effects[0]?.effect;
        if (effect?.kind !== 'reading') throw new Error(id);
        expect(effect.value === null ? `${id} by ${instrument}` : '').toBe('');
      }
    }
  });
});

describe('the range of a setting', () => {
  it.each(SETTING_IDS)('stops %s at both ends of its range', (setting) => {
    const { least, most } = SETTINGS[setting];
    for (const wanted of [least - 50, most + 50]) {
      const { effects } = run(
        isolated(),
        { do: 'unlock', part: 'knife' },
        { do: 'unlock', part: 'guard' },
        { do: 'unlock', part: 'fence' },
        { do: 'set', setting, to: wanted },
      );
      expect(kinds(effects)).toContain('stopped');
    }
  });
});
