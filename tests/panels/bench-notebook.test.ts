import { afterEach, describe, expect, it } from 'vitest';
import { type Action, type Bench, transition } from '../../src/bench/index.ts';
import type { Done } from '../../src/panels/bench/work/attempt.ts';
import { writeNotebook } from '../../src/panels/bench/work/notebook.ts';
import { readingsOf } from '../../src/panels/bench/work/readings.ts';
import { shownUnit } from '../../src/panels/bench/work/words.ts';
import { makeBench } from '../helpers/bench.ts';

function doAll(actions: readonly Action[], from: Bench = makeBench()): Done[] {
  let before = from;
  return actions.map((action) => {
    const { bench, effects } = transition(before, action);
    const one = { action, effects, before };
    before = bench;
    return one;
  });
}

const move = (to: number): Action => ({ do: 'set', setting: 'knife.along', to });
const GAP: Action = { do: 'measure', with: 'feeler', at: 'knife-gap-at-table' };

afterEach(() => {
  shownUnit.value = 'mm';
});

describe('the notebook', () => {
  it('tells many small steps as one move, and looks not at all', () => {
    const lines = writeNotebook(
      doAll([
        { do: 'isolate' },
        { do: 'look', at: 'knife' },
        { do: 'unlock', part: 'knife' },
        move(2.5),
        move(3),
        move(3.5),
        { do: 'lock', part: 'knife' },
      ]),
    );
    expect(lines.map((line) => line.text)).toEqual([
      'Switched off and locked off',
      'Loosened the clamp of the riving knife',
      'Riving knife, along the cut: from 2 mm to 3.5 mm',
      'Tightened the clamp of the riving knife',
    ]);
    expect(lines.every((line) => !line.danger)).toBe(true);
  });

  it('marks what was done with the supply on, on the way too', () => {
    const lines = writeNotebook(doAll([{ do: 'unlock', part: 'knife' }, move(3), move(4)]));
    expect(lines.map((line) => line.danger)).toEqual([true, true]);
  });

  it('says where a move was stopped, and that a tight clamp did not move', () => {
    const [, stopped] = writeNotebook(doAll([{ do: 'unlock', part: 'knife' }, move(-40)]));
    expect(stopped?.came[0]?.text).toBe('The knife touches the teeth and goes no further.');
    const [refused] = writeNotebook(doAll([move(4)]));
    expect(refused?.text).toBe('Riving knife, along the cut: not moved');
    expect(refused?.came[0]?.text).toBe('The clamp is tight: loosen it first.');
  });

  // 204 mm edge on a 200 mm blade, set on the arbor axis: the gap is 4 mm all round (plane geometry)
  it('writes a reading with its uncertainty, in the unit chosen', () => {
    const bench = makeBench({ knife: { along: 0 } });
    const read = () => writeNotebook(doAll([{ do: 'isolate' }, GAP], bench))[1]?.came[0]?.text;
    expect(read()).toBe('4 mm ± 0.05 mm');
    shownUnit.value = 'inch';
    // 4 / 25.4 = 0.1575 in; 0.05 / 25.4 = 0.00197 in (inch of 25.4 mm, 1959)
    expect(read()).toBe('0.157 in ± 0.002 in');
  });

  it('says why a tool shows nothing', () => {
    const read = (bench: Bench, action: Action) =>
      writeNotebook(doAll([action], bench))[0]?.came[0];
    expect(read(makeBench({ knife: null }), GAP)?.text).toBe('nothing there to measure');
    expect(read(makeBench({ knife: { along: 60 } }), GAP)?.text).toBe('too wide for this tool');
    expect(read(makeBench({ knife: { along: -8 } }), GAP)?.text).toBe(
      'not even the thinnest leaf goes in',
    );
  });
});

describe('readings', () => {
  it('stand until something is moved, and the newest at a place counts', () => {
    const fresh = readingsOf(doAll([{ do: 'unlock', part: 'knife' }, GAP]));
    expect(fresh.get('knife-gap-at-table')).toMatchObject({ isStale: false });
    const moved = doAll([{ do: 'unlock', part: 'knife' }, GAP, move(6)]);
    expect(readingsOf(moved).get('knife-gap-at-table')).toMatchObject({ isStale: true });
    const again = readingsOf(doAll([{ do: 'unlock', part: 'knife' }, GAP, move(6), GAP]));
    expect(again.get('knife-gap-at-table')).toMatchObject({ isStale: false });
    expect(again.get('knife-gap-at-table')?.reading.value).toBeGreaterThan(
      fresh.get('knife-gap-at-table')?.reading.value ?? Number.POSITIVE_INFINITY,
    );
  });
});
