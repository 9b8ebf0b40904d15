import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Bench,
  isMeasureId,
  knifeEdge,
  MEASURE_IDS,
  MEASURES,
  type MeasureId,
  measureBench,
  readBench,
} from '../../src/bench/index.ts';
import { inchesToMm, mmToInches } from '../../src/geometry/index.ts';
import { gradeBench } from '../../src/grading/index.ts';
import { judgeLimit, readLimitSet } from '../../src/limits/index.ts';
import { makeBench, makeBenchFile } from '../helpers/bench.ts';
import { anyBenchFile } from '../helpers/random-bench.ts';
import { CATALOGUE, SETS } from '../helpers/rules.ts';

/** What must hold for every bench, whatever its sizes. Random benches, the seed in each test's name. */
const SEED = 1914;

const numberOf = (bench: Bench, id: MeasureId): number => measureBench(bench)[id] as number;

/** A random bench the schema accepts, with its knife on. */
const benches = anyBenchFile
  .map((file) => readBench(file))
  .filter((read) => read.ok)
  .map((read) => read.bench);
const withKnife = benches.filter(({ knife }) => knife !== null);

describe('the least gap against a general geometry library', () => {
  test(`agrees to 1e-6 mm on 10,000 random benches (@flatten-js/core, seed ${SEED})`, () => {
    fc.assert(
      fc.property(withKnife, (bench) => {
        const edge = knifeEdge(bench.knife!, bench.arbor.depth);
        const centre = Flatten.point(edge.centre.x, edge.centre.y);
        const arc = new Flatten.Arc(centre, edge.radius, edge.from, edge.to, true);
        const [away] = Flatten.point(0, -bench.arbor.depth).distanceTo(arc);
        const least = away - bench.blade.diameter / 2;
        expect(Math.abs(numberOf(bench, 'knife.gapMin') - least)).toBeLessThan(1e-6);
      }),
      { seed: SEED, numRuns: 10_000 },
    );
  });

  test(`the gap at the table is the distance to the edge's foot, 10,000 times (@flatten-js/core, seed ${SEED + 1})`, () => {
    fc.assert(
      fc.property(withKnife, (bench) => {
        const edge = knifeEdge(bench.knife!, bench.arbor.depth);
        const circle = new Flatten.Circle(Flatten.point(edge.centre.x, edge.centre.y), edge.radius);
        const table = new Flatten.Line(Flatten.point(0, 0), Flatten.point(1, 0));
        const feet = circle.intersect(table).sort((a, b) => b.x - a.x);
        const axis = Flatten.point(0, -bench.arbor.depth);
        const gap = axis.distanceTo(feet[0]!)[0] - bench.blade.diameter / 2;
        expect(Math.abs(numberOf(bench, 'knife.gapAtTable') - gap)).toBeLessThan(1e-6);
      }),
      { seed: SEED + 1, numRuns: 10_000 },
    );
  });
});

describe('properties of the measures', () => {
  test(`moving the knife away never shrinks the greatest gap (seed ${SEED})`, () => {
    fc.assert(
      fc.property(withKnife, fc.double({ min: 0.001, max: 40, noNaN: true }), (bench, away) => {
        const knife = { ...bench.knife!, along: Math.abs(bench.knife!.along) };
        const moved = { ...knife, along: knife.along + away };
        fc.pre(Math.hypot(moved.along, moved.up) < moved.edgeRadius);
        const near = numberOf({ ...bench, knife }, 'knife.gapMax');
        expect(numberOf({ ...bench, knife: moved }, 'knife.gapMax')).toBeGreaterThanOrEqual(
          near - 1e-9,
        );
      }),
      { seed: SEED, numRuns: 2000 },
    );
  });

  test(`least, at the table and greatest stand in that order (seed ${SEED})`, () => {
    fc.assert(
      fc.property(withKnife, (bench) => {
        const measures = measureBench(bench);
        const [least, table, greatest] = [
          measures['knife.gapMin'] as number,
          measures['knife.gapAtTable'] as number,
          measures['knife.gapMax'] as number,
        ];
        expect(least).toBeLessThanOrEqual(table + 1e-9);
        expect(table).toBeLessThanOrEqual(greatest + 1e-9);
      }),
      { seed: SEED, numRuns: 2000 },
    );
  });

  test(`scaling: with every length doubled, lengths double and ratios, angles and counts stay (seed ${SEED})`, () => {
    // 12 mm at which a knife covers the teeth, and rim speed, do not scale with the bench
    const fixed = new Set<MeasureId>(['knife.arcShare', 'blade.rimSpeed']);
    fc.assert(
      fc.property(benches, (bench) => {
        const once = measureBench(bench);
        const twice = measureBench(scale(bench, 2));
        for (const id of MEASURE_IDS) {
          const [a, b] = [once[id], twice[id]];
          if (fixed.has(id) || typeof a !== 'number' || typeof b !== 'number') continue;
          const factor = MEASURES[id].unit === 'mm' ? 2 : 1;
          expect(Math.abs(b - factor * a), id).toBeLessThan(1e-6 * (1 + Math.abs(a)));
        }
        expect(twice['blade.rimSpeed'] as number).toBeCloseTo(
          2 * (once['blade.rimSpeed'] as number),
          9,
        );
      }),
      { seed: SEED, numRuns: 1000 },
    );
  });

  test(`mirror: left and right changed over, nothing measured or graded changes (seed ${SEED})`, () => {
    fc.assert(
      fc.property(benches, (bench) => {
        const mirrored = mirror(bench);
        expect(measureBench(mirrored)).toEqual(measureBench(bench));
        for (const set of SETS.values()) {
          const grade = (one: Bench) =>
            gradeBench({ bench: one, sets: [set], catalogue: CATALOGUE });
          // a worn insert is told by its two gaps, each by its side
          const limits = ({ results }: ReturnType<typeof grade>) =>
            results
              .filter(({ measure }) => isMeasureId(measure))
              .map(({ limit, verdict }) => [limit, verdict]);
          expect(limits(grade(mirrored))).toEqual(limits(grade(bench)));
        }
      }),
      { seed: SEED, numRuns: 200 },
    );
  });

  test(`units round-trip to a billionth of a millimetre (seed ${SEED})`, () => {
    fc.assert(
      fc.property(fc.double({ min: -5000, max: 5000, noNaN: true }), (mm) => {
        expect(Math.abs(inchesToMm(mmToInches(mm)) - mm)).toBeLessThan(1e-9);
        expect(Math.abs(mmToInches(inchesToMm(mm)) - mm)).toBeLessThan(1e-9);
      }),
      { seed: SEED, numRuns: 5000 },
    );
  });

  test(`every number measured is finite, whatever the bench (seed ${SEED})`, () => {
    fc.assert(
      fc.property(benches, (bench) => {
        for (const [id, value] of Object.entries(measureBench(bench))) {
          if (typeof value === 'number') expect(Number.isFinite(value), id).toBe(true);
        }
      }),
      { seed: SEED, numRuns: 5000 },
    );
  });
});

describe('equality at a limit, meant in whole micrometres', () => {
  const setWith = (end: 'min' | 'max', figure: number, inclusive: boolean) => {
    const read = readLimitSet({
      schema: 'limits/1',
      id: 'own',
      version: 1,
      title: 'One limit',
      edition: 'For this test',
      caution: 'Not the law.',
      basis: 'own',
      documents: { rules: { title: 'For this test' } },
      limits: [
        {
          id: 'own.play',
          title: 'Play',
          measure: 'knife.play',
          [end]: figure,
          [`${end}Inclusive`]: inclusive,
          unit: 'mm',
          source: { document: 'rules', seen: 'primary' },
        },
      ],
    });
    if (!read.ok) throw new Error(read.error.message);
    return read.set.limits[0]!;
  };

  test(`"at most" and "at least" hold at the figure, "more than" and "less than" do not; one micrometre decides (seed ${SEED})`, () => {
    const bench = makeBench();
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 50_000 }), (micrometres) => {
        // the figure by division and the value by adding up: the last bits differ
        const figure = micrometres / 1000;
        const value = Array.from({ length: 10 }, () => micrometres / 10_000).reduce(
          (a, b) => a + b,
          0,
        );
        const verdict = (end: 'min' | 'max', inclusive: boolean, off: number) => {
          const measures = { ...measureBench(bench), 'knife.play': value + off / 1000 };
          return judgeLimit(setWith(end, figure, inclusive), bench, measures).verdict;
        };
        expect(verdict('max', true, 0)).toBe('within');
        expect(verdict('min', true, 0)).toBe('within');
        expect(verdict('max', false, 0)).toBe('outside');
        expect(verdict('min', false, 0)).toBe('outside');
        expect(verdict('max', true, 1)).toBe('outside');
        expect(verdict('min', true, -1)).toBe('outside');
        expect(verdict('max', false, -1)).toBe('within');
        expect(verdict('min', false, 1)).toBe('within');
      }),
      { seed: SEED, numRuns: 300 },
    );
  });
});

/** Every length of a bench times a factor; the spindle keeps its speed, its numbers and words stay. */
function scale(bench: Bench, factor: number): Bench {
  const group = <Group extends object>(value: Group, lengths: readonly (keyof Group)[]): Group => ({
    ...value,
    ...Object.fromEntries(lengths.map((key) => [key, (value[key] as number) * factor])),
  });
  const { blade, arbor, knife, guard, fence, insert, table, job, people } = bench;
  return {
    ...bench,
    blade: {
      ...group(blade, ['diameter', 'plate', 'kerf', 'gulletDepth']),
      condition: {
        ...blade.condition,
        cracks: blade.condition.cracks.map((crack) => group(crack, ['length'])),
      },
    },
    arbor: group(arbor, ['depth', 'largestBlade']),
    knife:
      knife && group(knife, ['thickness', 'edgeRadius', 'reach', 'along', 'up', 'lateral', 'play']),
    guard: guard && group(guard, ['height', 'front', 'rear', 'sideDepth', 'play']),
    fence: group(fence, ['face', 'toe', 'end', 'play']),
    insert: {
      ...group(insert, ['step']),
      gaps: [insert.gaps[0] * factor, insert.gaps[1] * factor],
    },
    table: group(table, ['infeed', 'outfeed', 'width']),
    job: {
      ...group(job, ['widthOfCut']),
      stock: group(job.stock, ['length', 'width', 'thickness']),
    },
    people: {
      ...people,
      pushStick: people.pushStick && group(people.pushStick, ['length', 'usedForLast']),
    },
  };
}

/** The bench seen in a mirror that stands along the blade. */
function mirror(bench: Bench): Bench {
  const { knife, insert, people } = bench;
  const person = <Person extends { z: number }>(one: Person): Person => ({ ...one, z: -one.z });
  return {
    ...bench,
    knife: knife && { ...knife, lateral: -knife.lateral },
    insert: { ...insert, gaps: [insert.gaps[1], insert.gaps[0]] },
    people: {
      ...people,
      operator: person(people.operator),
      takeOff: people.takeOff && person(people.takeOff),
    },
  };
}

test('the benches drawn here are of every kind', () => {
  const seen = fc.sample(benches, { seed: SEED, numRuns: 500 });
  expect(seen.some(({ knife }) => knife === null)).toBe(true);
  expect(seen.some(({ guard }) => guard === null)).toBe(true);
  expect(seen.some(({ exposure }) => exposure?.noise !== undefined)).toBe(true);
  expect(new Set(seen.map(({ job }) => job.cut)).size).toBe(6);
  expect(Math.max(...seen.map(({ blade }) => blade.diameter))).toBeGreaterThan(900);
  expect(readBench(makeBenchFile()).ok).toBe(true);
});
