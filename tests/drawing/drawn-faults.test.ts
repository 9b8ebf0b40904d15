import { describe, expect, it } from 'vitest';
import type { Bench } from '../../src/bench/index.ts';
import { drawBench, type View } from '../../src/drawing/index.ts';
import { makeBench } from '../helpers/bench.ts';
import { FAULTY_BENCHES } from '../helpers/faulty-benches.ts';

/** Faults of blade, knife, guard, table and drive that an eye finds, and so a line drawing has to show. */
const DRAWN = [
  'cracked-gullet',
  'cracked-plate',
  'missing-tooth',
  'broken-tooth',
  'square-gullets',
  'dull-blade',
  'uneven-teeth',
  'burnt-blade',
  'resin-build-up',
  'blade-unmarked',
  'blade-backwards',
  'blade-too-low',
  'flanges-wrong',
  'nut-loose',
  'packing-worn',
  'knife-missing',
  'knife-too-far',
  'knife-too-near',
  'knife-fouls-blade',
  'knife-too-thin',
  'knife-too-thick',
  'knife-out-of-line',
  'knife-too-low',
  'knife-above-blade',
  'knife-damaged',
  'guard-missing',
  'guard-too-high',
  'guard-short-front',
  'guard-short-rear',
  'guard-stuck',
  'fingers-missing',
  'fingers-raised',
  'drive-uncovered',
  'belt-slack',
  'no-under-guard',
  'under-guard-open',
  'under-plates-wrong',
  'under-packed',
  'wide-insert',
  'insert-proud',
  'insert-low',
  'insert-loose',
  'table-unsound',
  'offcuts-on-table',
  'fence-past-gullets',
  'fence-closing',
  'fence-not-straight',
] as const;

const VIEWS = ['side', 'end', 'plan', 'knife', 'teeth'] as const satisfies readonly View[];
const words = { title: 'A bench', description: 'A bench, drawn for a test.' };
/** The lines alone: what is printed beside them is not a drawing of the fault. */
const lines = (bench: Bench, view: View): string =>
  drawBench(bench, { ...words, view }).replace(/<text.*?<\/text>/g, '');
const sound = new Map(VIEWS.map((view) => [view, lines(makeBench(), view)]));
const printed = (bench: Bench): string => drawBench(bench, { ...words, view: 'teeth' });

describe('a fault in the drawings', () => {
  it.each(DRAWN)('%s is drawn in one view at least, in each way it comes', (id) => {
    const rows = FAULTY_BENCHES.filter(({ fault }) => fault === id);
    expect(rows.length).toBeGreaterThan(0);
    for (const { bench: over, how } of rows) {
      const bench = makeBench(over);
      const differs =
        id === 'blade-unmarked'
          ? printed(bench) !== printed(makeBench())
          : VIEWS.some((view) => lines(bench, view) !== sound.get(view));
      expect(differs, how).toBe(true);
    }
  });

  it('is the same drawing twice for the same bench', () => {
    for (const view of VIEWS) expect(lines(makeBench(), view)).toBe(sound.get(view));
  });

  it('is turned into the close view of the teeth, wherever on the rim it is', () => {
    for (const tooth of [0, 11, 24]) {
      const bench = makeBench({ blade: { condition: { missingTeeth: [tooth] } } });
      const svg = drawBench(bench, { ...words, view: 'teeth' });
      const torn = /class="l-heavy[^>]*d="M(-?[\d.]+) (-?[\d.]+)/.exec(svg);
      expect(Number(torn?.[1])).toBeLessThan(-100);
      expect(Number(torn?.[2])).toBeGreaterThan(5);
      expect(Number(torn?.[2])).toBeLessThan(85);
    }
  });

  it('of the set shows from above: the points of a sound blade stand in two rows, of a careless one they do not', () => {
    const rows = (set: 'even' | 'uneven') => {
      const svg = drawBench(makeBench({ blade: { condition: { set } } }), {
        ...words,
        view: 'teeth',
      });
      const tops = [
        ...svg.matchAll(/class="l-thin m-steel" d="M[\d.]+ ([\d.]+)L[^>]*data-part="point"/g),
      ];
      return new Set(tops.map((one) => Number(one[1]).toFixed(2))).size;
    };
    expect(rows('even')).toBe(2);
    expect(rows('uneven')).toBeGreaterThan(3);
  });
});
