import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bladeOutline, knifeEdge, knifeOutline } from '../../src/bench/index.ts';
import { distance, type Point } from '../../src/geometry/index.ts';
import { makeBench } from '../helpers/bench.ts';

const fromAxis = (p: Point) => Math.hypot(p.x, p.y);

/** Twice the signed area of a closed outline: positive when it runs counter-clockwise. */
const signedArea = (outline: readonly Point[]) =>
  outline.reduce((sum, p, i) => {
    const q = outline[(i + 1) % outline.length] as Point;
    return sum + p.x * q.y - q.x * p.y;
  }, 0);

const blades = fc.record({
  diameter: fc.integer({ min: 150, max: 900 }),
  teeth: fc.integer({ min: 8, max: 96 }),
  gulletDepth: fc.integer({ min: 5, max: 20 }),
  hookAngle: fc.integer({ min: -5, max: 25 }),
  gullets: fc.constantFrom('rounded' as const, 'square' as const),
});

describe('the outline of the blade', () => {
  it('reaches the tip circle at every tooth and the gullet roots between, and nothing beyond', () => {
    fc.assert(
      fc.property(blades, ({ diameter, teeth, gulletDepth, hookAngle, gullets }) => {
        const blade = {
          ...makeBench().blade,
          diameter,
          teeth,
          gulletDepth,
          hookAngle,
          condition: { ...makeBench().blade.condition, gullets },
        };
        const { outline, teeth: drawn } = bladeOutline(blade);
        const radii = outline.map(fromAxis);
        expect(drawn).toHaveLength(teeth);
        expect(Math.max(...radii)).toBeCloseTo(diameter / 2, 6);
        expect(Math.min(...radii)).toBeCloseTo(diameter / 2 - gulletDepth, 6);
        const tips = radii.filter((r) => Math.abs(r - diameter / 2) < 1e-6);
        expect(tips).toHaveLength(teeth);
      }),
      { seed: 5 },
    );
  });

  it('leans each tooth face forward, into the turn, by the hook angle', () => {
    // The top of the blade moves toward the operator (-x): counter-clockwise seen from the fence.
    const { blade } = makeBench();
    const [first] = bladeOutline(blade).teeth;
    const face = first?.face[0] as Point;
    const tip = first?.tip as Point;
    expect(tip.x).toBeCloseTo(0, 9);
    expect(face.x).toBeGreaterThan(tip.x);
    const lean = Math.atan2(face.x - tip.x, tip.y - face.y);
    expect((lean * 180) / Math.PI).toBeCloseTo(blade.hookAngle, 6);
  });

  it('leaves a stump where a tooth is missing', () => {
    const { teeth } = bladeOutline(
      makeBench({ blade: { condition: { missingTeeth: [4] } } }).blade,
    );
    expect(teeth[4]?.state).toBe('missing');
    expect(fromAxis(teeth[4]?.tip as Point)).toBeLessThan(195);
    expect(fromAxis(teeth[5]?.tip as Point)).toBeCloseTo(200, 9);
  });

  it('runs a crack from the gullet by its tooth inward for its length', () => {
    const crack = { length: 18, at: 'gullet' as const, tooth: 6 };
    const { cracks } = bladeOutline(makeBench({ blade: { condition: { cracks: [crack] } } }).blade);
    const line = cracks[0] as Point[];
    expect(fromAxis(line[0] as Point)).toBeCloseTo(186, 6);
    expect(fromAxis(line.at(-1) as Point)).toBeCloseTo(168, 6);
  });

  it('runs counter-clockwise', () => {
    expect(signedArea(bladeOutline(makeBench().blade).outline)).toBeGreaterThan(0);
  });
});

describe('the outline of the riving knife', () => {
  const bench = makeBench();
  const knife = bench.knife as NonNullable<typeof bench.knife>;
  const shape = knifeOutline(knife, bench.arbor.depth);

  it('has the model’s own leading edge from the table to the tip', () => {
    const edge = knifeEdge(knife, bench.arbor.depth);
    expect(distance(shape.tip, edge.centre)).toBeCloseTo(knife.edgeRadius, 9);
    expect(shape.atTable.y).toBeCloseTo(0, 9);
    expect(shape.tip.y).toBeCloseTo(knife.up - bench.arbor.depth + knife.reach, 9);
  });

  it('stands no higher than its tip, and clear of the blade all the way down', () => {
    const axis = { x: 0, y: -bench.arbor.depth };
    for (const p of shape.outline) {
      expect(p.y).toBeLessThanOrEqual(shape.tip.y + 1e-9);
      expect(distance(p, axis)).toBeGreaterThan(bench.blade.diameter / 2);
    }
    expect(signedArea(shape.outline)).toBeGreaterThan(0);
  });
});
