import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Bench, type Knife, knifeEdge, measureBench } from '../../src/bench/index.ts';
import { pointAt } from '../../src/geometry/index.ts';
import { buildBench } from '../../src/scene/index.ts';
import { makeBench } from '../helpers/bench.ts';
import { CLOSE, extent, least, most, reach, type Vertex, verticesOf } from './read-back.ts';

/*
 * Everything a hand can set, read back off the vertices of the drawn bench and held against the bench.
 */

type Built = ReturnType<typeof buildBench>;

/** Vertices of the sharp edge: those ground to less than half the knife's thickness. */
const leading = (vertices: readonly Vertex[], knife: Knife): Vertex[] =>
  vertices.filter((v) => Math.abs(v.z - knife.lateral) < knife.thickness * 0.25);

function expectKnife(built: Built, bench: Bench): void {
  const knife = bench.knife as Knife;
  const vertices = verticesOf(built.root, 'knife-plate');
  const [low, high] = extent(vertices, 'z');
  expect(Math.abs(high - low - knife.thickness)).toBeLessThan(CLOSE);
  expect(Math.abs((low + high) / 2 - knife.lateral)).toBeLessThan(CLOSE);
  const edge = knifeEdge(knife, bench.arbor.depth);
  const sharp = leading(vertices, knife).filter((v) => v.y > -0.01);
  for (const v of sharp)
    expect(Math.abs(reach(v, edge.centre) - knife.edgeRadius)).toBeLessThan(CLOSE);
  const ends = [edge.from, edge.to].map((angle) => pointAt(edge.centre, edge.radius, angle));
  for (const end of ends) {
    expect(least(sharp.map((v) => reach(v, end)))).toBeLessThan(CLOSE);
  }
  // nothing of the knife stands higher than its tip or further forward than its edge
  const measures = measureBench(bench);
  expect(Math.abs(extent(vertices, 'y')[1] - Number(measures['knife.tipHeight']))).toBeLessThan(
    CLOSE,
  );
  const axis = { x: 0, y: -bench.arbor.depth };
  const above = vertices.filter((v) => v.y > -0.01);
  const gap = least(above.map((v) => reach(v, axis))) - bench.blade.diameter / 2;
  expect(Math.abs(gap - Number(measures['knife.gapMin']))).toBeLessThan(CLOSE);
}

function expectGuard(built: Built, bench: Bench): void {
  const guard = bench.guard as NonNullable<Bench['guard']>;
  const hood = verticesOf(built.root, 'guard-hood');
  const [front, rear] = extent(hood, 'x');
  expect(Math.abs(front - guard.front)).toBeLessThan(CLOSE);
  expect(Math.abs(rear - guard.rear)).toBeLessThan(CLOSE);
  expect(Math.abs(extent(hood, 'y')[0] - guard.height)).toBeLessThan(CLOSE);
  const plates = verticesOf(built.root, 'guard-side-plates');
  if (guard.sideDepth > 0) {
    expect(Math.abs(extent(plates, 'y')[0] - (guard.height - guard.sideDepth))).toBeLessThan(CLOSE);
  } else expect(plates).toHaveLength(0);
}

function expectFence(built: Built, bench: Bench): void {
  const { fence, blade } = bench;
  const face = verticesOf(built.root, 'fence-face');
  expect(Math.abs(extent(face, 'x')[1] - fence.end)).toBeLessThan(CLOSE);
  // the plane of the face, taken where it passes the front teeth and carried on to the rear ones
  const flat = face.filter((v) => v.y > 20 && v.y < 116.2);
  const near = flat.filter((v) => v.x < fence.end - 20).map((v) => v);
  const far = flat.filter((v) => v.x > fence.end - 1.2);
  const a = near.reduce((p, q) => (q.z < p.z ? q : p));
  const b = far.reduce((p, q) => (q.z < p.z ? q : p));
  const half = Math.sqrt((blade.diameter / 2) ** 2 - bench.arbor.depth ** 2);
  const zAt = (x: number) => a.z + ((b.z - a.z) * (x - a.x)) / (b.x - a.x);
  expect(Math.abs(zAt(-half) - blade.kerf / 2 - fence.face)).toBeLessThan(CLOSE);
  expect(Math.abs(zAt(half) - zAt(-half) - fence.toe)).toBeLessThan(CLOSE);
}

function expectInsert(built: Built, bench: Bench): void {
  const { insert, blade } = bench;
  const plate = verticesOf(built.root, 'insert-plate');
  const [left, right] = insert.gaps;
  // the slot's own walls: its ends are rounded, so the widest is where the blade runs
  const slot = extent(
    plate.filter((v) => Math.abs(v.z) < 35 && v.y > insert.step - 1),
    'z',
  );
  expect(Math.abs(slot[0] + blade.kerf / 2 + left)).toBeLessThan(CLOSE);
  expect(Math.abs(slot[1] - blade.kerf / 2 - right)).toBeLessThan(CLOSE);
  expect(Math.abs(extent(plate, 'y')[1] - insert.step)).toBeLessThan(CLOSE);
}

function expectStock(built: Built, bench: Bench): void {
  const { stock } = bench.job;
  const board = [...verticesOf(built.root, 'stock-board'), ...verticesOf(built.root, 'stock-ends')];
  const size = (axis: 'x' | 'y' | 'z') => {
    const [low, high] = extent(board, axis);
    return high - low;
  };
  expect(Math.abs(size('x') - stock.length)).toBeLessThan(CLOSE);
  expect(Math.abs(size('y') - stock.thickness)).toBeLessThan(CLOSE);
  expect(Math.abs(size('z') - stock.width)).toBeLessThan(CLOSE);
  expect(Math.abs(extent(board, 'y')[0])).toBeLessThan(CLOSE);
  // ready in front of the teeth, never through the blade, and against the fence
  const half = Math.sqrt((bench.blade.diameter / 2) ** 2 - bench.arbor.depth ** 2);
  expect(extent(board, 'x')[1]).toBeLessThan(-half);
  expect(Math.abs(extent(board, 'z')[1] - bench.blade.kerf / 2 - bench.fence.face)).toBeLessThan(
    CLOSE,
  );
}

function expectAll(built: Built, bench: Bench): void {
  if (bench.knife !== null) expectKnife(built, bench);
  if (bench.guard !== null) expectGuard(built, bench);
  expectFence(built, bench);
  expectInsert(built, bench);
  expectStock(built, bench);
}

const CHANGES = [
  { knife: { along: 14.5, up: 3, lateral: -0.4, thickness: 2.9 } },
  { guard: { height: 92, front: -180, rear: 290, sideDepth: 24 } },
  { fence: { face: 212, end: 175, toe: 0.6 } },
  { insert: { gaps: [7.5, 4], step: -1 } },
  { arbor: { depth: 126 } },
  { job: { stock: { length: 940, width: 180, thickness: 38 } } },
] as const;

describe('what a hand can set', () => {
  it('stands in the drawing as it does in the bench', () => {
    const bench = makeBench();
    const built = buildBench(bench);
    expectAll(built, bench);
    built.dispose();
  });

  it('follows each change, and only what changed is made again', () => {
    const built = buildBench(makeBench());
    let made = new Map(built.made);
    for (const change of CHANGES) {
      const bench = makeBench(change as never);
      built.update(bench);
      expectAll(built, bench);
      const again = [...built.made].filter(([name, times]) => times !== made.get(name));
      expect(again.length).toBeGreaterThan(0);
      made = new Map(built.made);
    }
    built.update(makeBench());
    built.update(makeBench({ guard: { height: 70 } }));
    const before = new Map(built.made);
    built.update(makeBench({ guard: { height: 71 } }));
    const again = [...built.made].filter(([name, times]) => times !== before.get(name));
    expect(again.map(([name]) => name).sort()).toEqual(['guard', 'guard-support']);
    built.dispose();
  });

  it('follows any setting of knife, guard and fence (seed 20261)', () => {
    const settings = fc.record({
      along: fc.double({ min: 0.5, max: 40, noNaN: true }),
      lateral: fc.double({ min: -2, max: 2, noNaN: true }),
      thickness: fc.double({ min: 1.5, max: 5, noNaN: true }),
      height: fc.double({ min: 20, max: 200, noNaN: true }),
      front: fc.double({ min: -400, max: -60, noNaN: true }),
      length: fc.double({ min: 200, max: 700, noNaN: true }),
      face: fc.double({ min: 20, max: 400, noNaN: true }),
      end: fc.double({ min: -300, max: 600, noNaN: true }),
      left: fc.double({ min: 0.5, max: 20, noNaN: true }),
    });
    const built = buildBench(makeBench());
    fc.assert(
      fc.property(settings, (s) => {
        const bench = makeBench({
          knife: { along: s.along, lateral: s.lateral, thickness: s.thickness },
          guard: { height: s.height, front: s.front, rear: s.front + s.length },
          fence: { face: s.face, end: s.end },
          insert: { gaps: [s.left, 3] },
        });
        built.update(bench);
        expectAll(built, bench);
      }),
      { seed: 20261, numRuns: 60 },
    );
    built.dispose();
  });

  it('takes knife and guard off, and leaves the bracket and the post', () => {
    const built = buildBench(makeBench({ knife: null, guard: null }));
    expect(verticesOf(built.root, 'knife-plate')).toHaveLength(0);
    expect(verticesOf(built.root, 'guard-hood')).toHaveLength(0);
    expect(verticesOf(built.root, 'knife').length).toBeGreaterThan(0);
    built.dispose();
  });

  it('stands a lever differently when a clamp is open', () => {
    for (const part of ['knife', 'guard', 'fence'] as const) {
      const shape = (locked: boolean) => {
        const built = buildBench(makeBench({ [part]: { locked } }));
        const all = verticesOf(built.root, part).map((v) => v.y);
        built.dispose();
        return [least(all), most(all), all.reduce((a, b) => a + b, 0)].map((v) => v.toFixed(2));
      };
      expect(shape(true)).not.toEqual(shape(false));
    }
  });
});
