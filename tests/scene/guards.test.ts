import fc from 'fast-check';
import { Group } from 'three';
import { afterAll, describe, expect, it } from 'vitest';
import type { Bench } from '../../src/bench/index.ts';
import { buildGuard, poseGuard } from '../../src/scene/build/guard.ts';
import { buildBench } from '../../src/scene/index.ts';
import { type GuardPose, guardOverWork } from '../../src/scene/motion/guard-over-work.ts';
import { createPalette } from '../../src/scene/surface/palette.ts';
import { type BenchOverrides, makeBench } from '../helpers/bench.ts';
import { CLOSE, extent, least, meshesOf, most, type Vertex, verticesOf } from './read-back.ts';

/*
 * Every kind of guard, read back off the vertices of what is drawn while work passes under it. The
 * oracle is what a sawyer sees: nothing of the guard stands in the work or under the table, what rides
 * touches the work, what is set by hand stays where it was set. Common practice, no source.
 */

/** mm: 24 in front of the teeth of the test bench, 400 across with its axis 110 down */
const READY = -Math.sqrt(200 ** 2 - 110 ** 2) - 24;

const palette = createPalette();
afterAll(() => palette.dispose());

/** The guard drawn with the leading end of the work at `lead`. */
function drawn(bench: Bench, lead: number | null) {
  const guard = buildGuard(bench, palette);
  const root = new Group();
  root.scale.setScalar(0.001);
  root.add(guard);
  const pose = guardOverWork(bench, lead) as GuardPose;
  poseGuard(root, bench, pose);
  const take = (name: string): Vertex[] => verticesOf(root, name);
  const found = {
    pose,
    hood: take('guard-hood'),
    leaves: take('guard-flaps'),
    fingers: take('guard-fingers'),
    flap: take('guard-flap'),
    pane: take('guard-window'),
  };
  for (const mesh of meshesOf(root)) mesh.geometry.dispose();
  return found;
}

const inWork = (vertices: readonly Vertex[], { job }: Bench, lead: number): Vertex[] =>
  vertices.filter((v) => v.x >= lead - job.stock.length && v.x <= lead);

/** Heights of a straight edge between its vertices too: a long plate has corners only. */
function along(vertices: readonly Vertex[], step = 2): Vertex[] {
  const low = least(vertices.map((v) => v.y)) + 0.01;
  const level = vertices.filter((v) => v.y < low);
  const [from, to] = extent(level, 'x');
  const more: Vertex[] = [];
  for (let x = from; x <= to; x += step) more.push({ x, y: low - 0.01, z: 0 });
  return [...vertices, ...more];
}

const guarded = (guard: BenchOverrides['guard'], more: BenchOverrides = {}): Bench =>
  makeBench({ ...more, guard: guard as never });

describe('a guard set by hand', () => {
  it.each(['fixed', 'suspended'] as const)('stays where it was set as work passes: %s', (kind) => {
    const bench = guarded({ kind, height: 63 });
    for (const lead of [null, -100, 0, 200, 1700, 2600]) {
      const { hood } = drawn(bench, lead);
      expect(Math.abs(extent(hood, 'y')[0] - 63)).toBeLessThan(CLOSE);
      expect(Math.abs(extent(hood, 'x')[0] + 235)).toBeLessThan(CLOSE);
      expect(Math.abs(extent(hood, 'x')[1] - 235)).toBeLessThan(CLOSE);
    }
  });

  it('has posts that slide in their clamp: the arm stays as the guard is set higher', () => {
    const armOf = (height: number) => {
      const built = buildBench(guarded({ kind: 'fixed', height }));
      const all = verticesOf(built.root, 'guard').filter((v) => v.z > -440 && v.z < -415);
      built.dispose();
      return extent(all, 'y');
    };
    expect(armOf(40)).toEqual(armOf(85));
    // beyond the length of its posts the arm is moved up
    expect(armOf(300)[1]).toBeGreaterThan(armOf(85)[1]);
  });
});

describe('the fence-side flap', () => {
  it('hangs to the rim when down, and clears the fence side when up', () => {
    const low = (flap: 'down' | 'up') => drawn(guarded({ flap, height: 55 }), null).flap;
    expect(Math.abs(extent(low('down'), 'y')[0] - 55)).toBeLessThan(CLOSE);
    expect(extent(low('down'), 'z')[1]).toBeLessThan(25);
    const up = low('up');
    expect(extent(up, 'y')[0]).toBeGreaterThan(55 + 45);
    // it opens to the fence side
    expect(least(up.map((v) => v.z))).toBeGreaterThan(10);
    // the far side stays closed down to the rim
    const hood = drawn(guarded({ flap: 'up', height: 55 }), null).hood;
    expect(
      Math.abs(
        extent(
          hood.filter((v) => v.z < 0),
          'y',
        )[0] - 55,
      ),
    ).toBeLessThan(CLOSE);
  });

  it('is not there when it is not fitted, nor a window', () => {
    const bare = drawn(guarded({}), null);
    expect(bare.flap).toHaveLength(0);
    expect(bare.pane).toHaveLength(0);
    expect(drawn(guarded({ window: true }), null).pane.length).toBeGreaterThan(0);
  });
});

describe('the leaves of a self-closing guard', () => {
  const bench = guarded({ kind: 'self-closing', height: 80 });

  it('close to the table with nothing under them, and the hood stays at its height', () => {
    for (const lead of [-400, 2600]) {
      const { leaves, hood } = drawn(bench, lead);
      expect(extent(leaves, 'y')[0]).toBeLessThan(2 + CLOSE);
      expect(Math.abs(extent(hood, 'y')[0] - 80)).toBeLessThan(CLOSE);
    }
  });

  it('rest on the work while it is under them', () => {
    const { leaves } = drawn(bench, 900);
    expect(Math.abs(extent(leaves, 'y')[0] - 50)).toBeLessThan(CLOSE);
    // pushed by the work, they give way along the feed as they rise
    const shut = drawn(bench, -400).leaves;
    expect(extent(leaves, 'x')[0]).toBeGreaterThan(extent(shut, 'x')[0] + 5);
  });

  it('rise by their sloped nose, never standing in the work', () => {
    let before = 0;
    for (let lead = -240; lead < 0; lead += 4) {
      const { leaves, pose } = drawn(bench, lead);
      const edge = pose.leaves?.edge ?? 0;
      expect(edge).toBeGreaterThanOrEqual(before - 1e-9);
      before = edge;
      const hit = inWork(along(leaves), bench, lead).filter((v) => v.y < 50 - CLOSE);
      expect(hit).toHaveLength(0);
    }
    expect(Math.abs(before - 50)).toBeLessThan(CLOSE);
  });

  it('hang open when stuck, whatever passes', () => {
    const stuck = guarded({ kind: 'self-closing', height: 80, stuck: true });
    for (const lead of [-400, 900])
      expect(Math.abs(extent(drawn(stuck, lead).leaves, 'y')[0] - 80)).toBeLessThan(CLOSE);
  });
});

describe('a counterweighted guard', () => {
  it('lies on its stop, is lifted by the work, rides on it and comes down behind it', () => {
    const bench = guarded({ kind: 'counterweighted' });
    const rimAt = (lead: number) => extent(drawn(bench, lead).hood, 'y')[0];
    expect(Math.abs(rimAt(-400) - 2)).toBeLessThan(CLOSE);
    expect(rimAt(-200)).toBeGreaterThan(2);
    expect(Math.abs(rimAt(0) - 50)).toBeLessThan(CLOSE);
    expect(Math.abs(rimAt(1500) - 50)).toBeLessThan(CLOSE);
    expect(Math.abs(rimAt(2200) - 2)).toBeLessThan(CLOSE);
  });

  it('has its ends where the bench says with the stock ready, and follows its arms from there', () => {
    const bench = guarded({ kind: 'counterweighted' });
    const [front, rear] = extent(drawn(bench, null).hood, 'x');
    expect(Math.abs(front + 235)).toBeLessThan(CLOSE);
    expect(Math.abs(rear - 235)).toBeLessThan(CLOSE);
    const ready = drawn(bench, null).pose;
    const lifted = drawn(bench, 0).pose;
    expect(lifted.armTurn).toBeLessThan(ready.armTurn);
    // equal arms: the pins keep their distance, so the hood swings on a circle of the arm
    const arm = 375 / Math.cos(ready.armTurn);
    expect(lifted.rim - ready.rim).toBeCloseTo(
      arm * (Math.sin(ready.armTurn) - Math.sin(lifted.armTurn)),
      6,
    );
    expect(lifted.back).toBeCloseTo(arm * (Math.cos(ready.armTurn) - Math.cos(lifted.armTurn)), 6);
  });

  it('keeps its two arms on the pins of the hood at every height', () => {
    const bench = guarded({ kind: 'counterweighted' });
    const built = buildBench(bench);
    for (const lead of [-400, -190, 0, 800]) {
      poseGuard(built.root, bench, guardOverWork(bench, lead) as GuardPose);
      const roof = extent(verticesOf(built.root, 'guard-hood'), 'y')[1];
      for (const [name, off] of [
        ['guard-arm-upper', 17],
        ['guard-arm-lower', -17],
      ] as const) {
        const group = built.root.getObjectByName(name);
        const ends: Vertex[] = [];
        for (const mesh of group?.children ?? [])
          ends.push(...verticesOf(mesh as never, mesh.name));
        const tip = least(ends.map((v) => v.x));
        const end = ends.filter((v) => v.x < tip + 4).map((v) => v.y);
        const pin = (least(end) + most(end)) / 2;
        expect(Math.abs(pin - (roof + 66 + off))).toBeLessThan(2.5);
      }
    }
    built.dispose();
  });

  it('never lets its hood down into the work or the blade through its roof (seed 20263)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 80, noNaN: true }),
        fc.double({ min: -420, max: 2500, noNaN: true }),
        fc.double({ min: 95, max: 150, noNaN: true }),
        (thickness, lead, depth) => {
          const bench = guarded(
            { kind: 'counterweighted', fingers: 'none' },
            { job: { stock: { thickness } }, arbor: { depth }, knife: null },
          );
          const { hood } = drawn(bench, lead);
          const hit = inWork(along(hood), bench, lead).filter((v) => v.y < thickness - CLOSE);
          expect(hit).toHaveLength(0);
          expect(extent(hood, 'y')[0]).toBeGreaterThan(2 - CLOSE);
          expect(extent(hood, 'y')[1]).toBeGreaterThan(200 - depth + 5);
        },
      ),
      { seed: 20263, numRuns: 60 },
    );
  });

  it('stays up when stuck', () => {
    const bench = guarded({ kind: 'counterweighted', stuck: true, height: 97 });
    for (const lead of [null, -400, 900])
      expect(Math.abs(extent(drawn(bench, lead).hood, 'y')[0] - 97)).toBeLessThan(CLOSE);
  });
});

describe('anti-kickback fingers', () => {
  it('rest on the table, are lifted by the work, and trail on it', () => {
    const bench = guarded({ height: 55 });
    const low = (lead: number) => extent(drawn(bench, lead).fingers, 'y')[0];
    expect(Math.abs(low(-400))).toBeLessThan(CLOSE);
    expect(Math.abs(low(900) - 50)).toBeLessThan(CLOSE);
    // from the table up onto the work, never through it
    for (let lead = 200; lead < 340; lead += 5) {
      const hit = inWork(drawn(bench, lead).fingers, bench, lead).filter((v) => v.y < 50 - CLOSE);
      expect(hit).toHaveLength(0);
    }
    expect(Math.abs(low(2600))).toBeLessThan(CLOSE);
  });

  it('hang short of the table from a guard set high, and stay hooked up when raised', () => {
    expect(extent(drawn(guarded({ height: 180 }), null).fingers, 'y')[0]).toBeGreaterThan(50);
    const raised = guarded({ fingers: 'raised' });
    expect(drawn(raised, 900).pose.fingerTurn).toBe(drawn(raised, -400).pose.fingerTurn);
    expect(extent(drawn(raised, null).fingers, 'y')[0]).toBeGreaterThan(60);
  });
});

describe('a tilted arbor', () => {
  const turn = (30 * Math.PI) / 180;
  const tilted = (guard: BenchOverrides['guard']) =>
    inPlace(guarded(guard, { arbor: { tilt: 30 }, job: { cut: 'bevel' } }));
  const inPlace = (bench: Bench): Vertex[] => {
    const built = buildBench(bench, { palette });
    const hood = verticesOf(built.root, 'guard-hood');
    built.dispose();
    return hood;
  };
  /** back into the plane of the blade */
  const upright = (v: Vertex): Vertex => ({
    x: v.x,
    y: v.y * Math.cos(turn) + v.z * Math.sin(turn),
    z: -v.y * Math.sin(turn) + v.z * Math.cos(turn),
  });

  it('takes the guard with it, over the blade at its own height', () => {
    const hood = tilted({ height: 70 }).map(upright);
    expect(Math.abs(extent(hood, 'y')[0] - 70)).toBeLessThan(CLOSE);
    const [left, right] = extent(hood, 'z');
    expect(Math.abs(left + right)).toBeLessThan(CLOSE);
    // as the model turns it: toward the operator's right, the side of the fence
    expect(extent(tilted({ height: 70 }), 'z')[1]).toBeGreaterThan(60);
  });

  it('leaves a guard that does not follow it upright, and the blade stands out of its line', () => {
    const hood = tilted({ height: 70, leans: false });
    expect(Math.abs(extent(hood, 'y')[0] - 70)).toBeLessThan(CLOSE);
    expect(extent(hood, 'z')[1]).toBeLessThan(25);
  });
});

describe('the stock ready before the cut', () => {
  it('is where every pose starts from', () => {
    for (const kind of ['fixed', 'self-closing', 'counterweighted', 'suspended'] as const) {
      const bench = guarded({ kind, height: 60 });
      expect(guardOverWork(bench, null)).toEqual(guardOverWork(bench, READY));
    }
    expect(guardOverWork(makeBench({ guard: null }), 0)).toBeNull();
  });
});
