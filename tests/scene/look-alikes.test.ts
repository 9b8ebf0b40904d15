import { describe, expect, it } from 'vitest';
import { drawBench } from '../../src/drawing/index.ts';
import { createAround } from '../../src/scene/build/around.ts';
import { buildBench } from '../../src/scene/index.ts';
import { type BenchOverrides, makeBench } from '../helpers/bench.ts';
import { CLOSE, meshesOf, reach, verticesOf } from './read-back.ts';

const SHADES = { wall: '#fff', dado: '#ccc', floor: '#aaa', trim: '#888', pane: '#eee' };

/** Every corner and shade of the picture. */
function pictureOf(over: BenchOverrides): string {
  const built = buildBench(makeBench(over));
  built.add(createAround(SHADES));
  const sums = meshesOf(built.root).map(({ geometry, name }) => {
    let sum = 0;
    for (const kind of ['position', 'color'] as const) {
      const { array } = geometry.getAttribute(kind);
      for (let i = 0; i < array.length; i++) sum = (sum * 31 + (array[i] as number) * 1000) % 1e9;
    }
    return `${name}${Math.round(sum)}`;
  });
  built.dispose();
  return sums.join();
}

/*
 * The oracle is the bench file: a scratch as long as it says, below the tooth it names, clear of the
 * circle the gullet bottoms lie on; found on the vertices.
 */
describe('a scratch on the plate', () => {
  it.each([
    [30, 2],
    [60, 5],
    [14, 0],
  ])('of %i mm lies on the plate below tooth %i, inside every gullet', (length, tooth) => {
    const bench = makeBench({ blade: { condition: { scratches: [{ length, tooth }] } } });
    const built = buildBench(bench);
    // undoes the angle a blade stops at: the blade hangs in the spindle
    const mesh = meshesOf(built.root).find(({ name }) => name === 'blade-scratch');
    const { array } = mesh?.geometry.getAttribute('position') ?? { array: [] };
    const points = Array.from({ length: array.length / 3 }, (_, i) => ({
      x: array[3 * i] as number,
      y: array[3 * i + 1] as number,
      z: array[3 * i + 2] as number,
    }));
    expect(points.length).toBeGreaterThanOrEqual(4);
    const { blade } = bench;
    const spans = points.flatMap((a) => points.map((b) => Math.hypot(a.x - b.x, a.y - b.y)));
    expect(Math.abs(Math.max(...spans) - length)).toBeLessThan(CLOSE);
    const root = blade.diameter / 2 - blade.gulletDepth;
    for (const p of points) {
      expect(Math.abs(p.z - blade.plate / 2)).toBeLessThan(CLOSE);
      expect(reach(p, { x: 0, y: 0 })).toBeLessThan(root - 1);
    }
    const mean = (axis: 'x' | 'y') => points.reduce((sum, p) => sum + p[axis], 0) / points.length;
    const angle = Math.PI / 2 + (tooth * 2 * Math.PI) / blade.teeth;
    const off = mean('x') * Math.sin(angle) - mean('y') * Math.cos(angle);
    expect(Math.abs(off)).toBeLessThan(CLOSE);
    expect(verticesOf(built.root, 'blade-crack')).toHaveLength(0);
    built.dispose();
  });

  it('is drawn in the close view of the teeth', () => {
    const over = { blade: { condition: { scratches: [{ length: 30, tooth: 5 }] } } };
    const words = { title: 'A bench', description: 'A bench, drawn.', view: 'teeth' } as const;
    expect(drawBench(makeBench(over), words)).toContain('data-part="scratch"');
    expect(drawBench(makeBench(), words)).not.toContain('data-part="scratch"');
  });
});

describe('what looks odd and is in order changes the picture', () => {
  it.each<[string, BenchOverrides]>([
    ['worn paint', { guard: { scuffed: true } }],
    ['a stain', { table: { stained: true } }],
    ['dust', { place: { dusty: true } }],
    ['tight knots', { job: { stock: { tightKnots: true } } }],
    ['loose knots', { job: { stock: { looseKnots: true } } }],
    ['a face shield', { people: { operator: { eyes: 'face-shield' } } }],
    ['plugs', { people: { operator: { ears: 'plugs' } } }],
    ['rolled sleeves', { people: { operator: { sleeves: 'rolled' } } }],
    ['tied hair', { people: { operator: { hair: 'tied' } } }],
    ['a bystander aside', { people: { bystander: { x: -2500, z: -1000 } } }],
    ['a stack', { place: { storage: { stock: 'stacked' } } }],
    ['a hood below', { underGuard: 'extraction-hood' }],
  ])('%s', (_, over) => {
    expect(pictureOf(over)).not.toBe(pictureOf({}));
  });

  it('a key kept, against a key in the lock', () => {
    const locked = (lockKey: 'with-person' | 'in-lock') =>
      pictureOf({ controls: { isolated: true, lockKey } });
    expect(locked('with-person')).not.toBe(locked('in-lock'));
  });

  it('tight knots and loose ones differ in their ring alone', () => {
    const loose = pictureOf({ job: { stock: { looseKnots: true } } });
    expect(pictureOf({ job: { stock: { tightKnots: true } } })).not.toBe(loose);
  });
});
