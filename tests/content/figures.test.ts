import { describe, expect, it } from 'vitest';
import { measureBench } from '../../src/bench/index.ts';
import { findFigure } from '../../src/components/lesson/figures.ts';
import { loadBenches } from '../../src/store/content-files.ts';

describe('figures of a lesson', () => {
  const bench = loadBenches().get('lesson-bench') as NonNullable<
    ReturnType<ReturnType<typeof loadBenches>['get']>
  >;

  it('come from the engine', () => {
    expect(findFigure(bench, 'knife.gapMax')).toEqual({
      value: measureBench(bench)['knife.gapMax'],
      unit: 'mm',
    });
    expect(findFigure(bench, 'blade.kerf')).toEqual({ value: bench.blade.kerf, unit: 'mm' });
    expect(findFigure(bench, 'arbor.runDown').unit).toBe('s');
  });

  it.each(['knife.gapp', 'place.floor', 'guard.kind', 'controls.stopReach', 'guard.coversGullets'])(
    'refuse %s, which is no length a sentence can show',
    (id) => {
      expect(() => findFigure(bench, id)).toThrow(/figure/);
    },
  );

  it('refuse a part that has been taken off', () => {
    expect(() => findFigure({ ...bench, knife: null }, 'knife.gapMax')).toThrow('no number');
  });
});
