import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type Knife, readBench, withKnife } from '../../src/bench/index.ts';
import { makeBench } from '../helpers/bench.ts';

const bench = makeBench();
const own = bench.knife as Knife;
const around = (value: number, by: number) =>
  fc.double({ min: value - by, max: value + by, noNaN: true });

/** A knife near one that fits and far from it: within and beyond what its fields take and a fitter can do. */
const knives = fc.record({
  thickness: fc.constantFrom(own.thickness, 0.2),
  edgeRadius: around(own.edgeRadius, 60),
  reach: around(own.reach, 60),
  along: fc.oneof(around(own.along, 60), fc.constantFrom(-501)),
  up: around(own.up, 60),
  lateral: fc.constantFrom(0, 0.2, 0.4, 51),
  play: fc.constantFrom(0, 0.5, 1, -1),
  carriedBy: fc.constantFrom('arbor' as const, 'frame' as const),
});

it('puts a knife on a bench as reading the whole bench anew would, and refuses what that refuses', () => {
  let [taken, refused] = [0, 0];
  fc.assert(
    fc.property(knives, (knife) => {
      const read = readBench({ ...bench, knife });
      const fitted = withKnife(bench, knife);
      expect(fitted).toEqual(read.ok ? read.bench : null);
      if (fitted === null) refused += 1;
      else {
        taken += 1;
        // the same text as well: what is stored of a bench is hashed
        expect(JSON.stringify(fitted)).toBe(JSON.stringify(read.ok && read.bench));
      }
    }),
    { numRuns: 2_000 },
  );
  expect(Math.min(taken, refused)).toBeGreaterThan(50);
});
