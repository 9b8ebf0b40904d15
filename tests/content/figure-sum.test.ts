import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measureBench, rimSpeed } from '../../src/bench/index.ts';
import { workOut } from '../../src/components/lesson/figure-sum.ts';
import { findFigure, sayFigure } from '../../src/components/lesson/figures.ts';
import { WORKINGS } from '../../src/components/lesson/workings-figures.ts';
import { loadBenches } from '../../src/store/content-files.ts';

const bench = loadBenches().get('lesson-bench') as NonNullable<
  ReturnType<ReturnType<typeof loadBenches>['get']>
>;

describe('a sum of figures', () => {
  it('is worked out as it is written', () => {
    expect(findFigure(bench, 'blade.kerf - knife.thickness').value).toBeCloseTo(1, 9);
    expect(findFigure(bench, '(blade.kerf - knife.thickness) / 2').value).toBeCloseTo(0.5, 9);
    expect(findFigure(bench, 'blade.diameter / 2 - arbor.depth').value).toBeCloseTo(
      measureBench(bench)['blade.projection'] as number,
      9,
    );
    expect(findFigure(bench, '-1 * fence.end').unit).toBe('mm');
    expect(findFigure(bench, 'blade.kerf / blade.plate')).toEqual({ value: 4.2 / 2.8, unit: '1' });
  });

  it('comes to what plain arithmetic comes to', () => {
    const number = fc.integer({ min: 1, max: 99 }).map(String);
    const { tree } = fc.letrec<{ tree: string }>((tie) => ({
      tree: fc.oneof(
        { maxDepth: 4 },
        number,
        fc
          .tuple(tie('tree'), fc.constantFrom('+', '-', '*'), tie('tree'))
          .map(([one, sign, other]) => `(${one} ${sign} ${other})`),
        fc
          .tuple(number, fc.constantFrom('+', '-', '*', '/'), number)
          .map((parts) => parts.join(' ')),
      ),
    }));
    fc.assert(
      fc.property(tree, (sum) => {
        const own = workOut(sum, () => ({ value: 0, unit: '1' })).value;
        expect(own).toBeCloseTo(new Function(`return ${sum}`)() as number, 6);
      }),
      { seed: 6, numRuns: 300 },
    );
  });

  it.each([
    ['blade.kerf + arbor.runDown', /units do not go together/],
    ['blade.kerf * blade.plate', /units do not go together/],
    ['blade.kerf -', /not complete/],
    ['(blade.kerf', /not complete/],
    ['blade.kerf knife.thickness', /not complete/],
    ['blade.kerf ^ 2', /cannot be read/],
    ['blade.kerf / (2 - 2)', /divided by nothing/],
    ['blade.nonsense', /no figure named blade.nonsense/],
  ])('refuses %s in one sentence', (sum, why) => {
    expect(() => findFigure(bench, sum)).toThrow(why);
  });
});

describe('the workings', () => {
  it('all come to a number on the bench of the lessons', () => {
    for (const id of Object.keys(WORKINGS)) {
      expect(Number.isFinite(findFigure(bench, id).value), id).toBe(true);
    }
  });

  it('never throw a piece faster than the rim', () => {
    expect(findFigure(bench, 'throw.speed').value).toBeLessThanOrEqual(
      rimSpeed(bench.blade.diameter, bench.arbor.speed),
    );
  });

  // Worked out by hand from the definitions: steel 7850 kg/m3, bore 30 mm; see the table of run-down figures
  // in tests/oracles for the disc of 400 x 2.8 at 3000 turns: 2.74655 kg, 2725.99 J.
  it('know the weight and the energy of the blade', () => {
    expect(findFigure(bench, 'blade.mass').value).toBeCloseTo(2.74655, 3);
    expect(findFigure(bench, 'blade.energy').value).toBeCloseTo(2725.99, 0);
  });

  it('are written with their units', () => {
    expect(sayFigure({ value: 20, unit: 'deg' })).toBe('20°');
    expect(sayFigure({ value: 2.5, unit: 'mg/m3' })).toBe('2.5 mg/m³');
    expect(sayFigure({ value: 12.34, unit: 'N m' })).toBe('12.3 N·m');
  });
});
