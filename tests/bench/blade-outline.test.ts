import { describe, expect, it } from 'vitest';
import {
  bladeOutline,
  boreRadius,
  collarRadius,
  type Tooth,
  toothStands,
} from '../../src/bench/index.ts';
import { distance, distanceToSegment, type Point } from '../../src/geometry/index.ts';
import { type BenchOverrides, makeBench } from '../helpers/bench.ts';

/** The blade as drawn: 400 over the tips, 36 teeth, gullets 14 deep, hook 20. Root circle 186. */

const PITCH = 10;
const ROOT = 186;
const shapeOf = (blade: NonNullable<BenchOverrides['blade']> = {}) =>
  bladeOutline(makeBench({ blade }).blade);

const radiusOf = (p: Point) => Math.hypot(p.x, p.y);
/** degrees past the top of the blade, as it turns */
const pastTop = (p: Point) => (Math.atan2(p.y, p.x) * 180) / Math.PI - 90;
const turned = (p: Point, by: number): Point => ({
  x: p.x * Math.cos(by) - p.y * Math.sin(by),
  y: p.x * Math.sin(by) + p.y * Math.cos(by),
});
/** degrees the outline turns at each point between the first and the last */
const turns = (line: readonly Point[]) =>
  line.slice(1, -1).map((p, i) => {
    const before = line[i] as Point;
    const after = line[i + 2] as Point;
    const turn =
      Math.atan2(after.y - p.y, after.x - p.x) - Math.atan2(p.y - before.y, p.x - before.x);
    return (Math.atan2(Math.sin(turn), Math.cos(turn)) * 180) / Math.PI;
  });

/** The outline from the first tip to the second, both in it. */
function firstPitch(blade: NonNullable<BenchOverrides['blade']> = {}): Point[] {
  const { outline, teeth } = shapeOf(blade);
  return outline.slice(0, outline.indexOf((teeth[1] as Tooth).tip) + 1);
}

describe('a tooth as drawn', () => {
  it('is relieved behind its tip by 12 to 30 degrees, over less than half the pitch (common practice, no source)', () => {
    const [first] = shapeOf().teeth;
    const end = first?.back[0] as Point;
    // at the top of the blade the back runs level but for its relief
    const relief = (Math.atan2(200 - end.y, Math.abs(end.x)) * 180) / Math.PI;
    expect(relief).toBeGreaterThan(12);
    expect(relief).toBeLessThan(30);
    expect(pastTop(end)).toBeLessThan(0);
    expect(pastTop(end)).toBeGreaterThan(-PITCH / 2);
  });

  it('has a straight face down to the root where the gullet is square, to about half way where it is round', () => {
    const face = (gullets: 'square' | 'rounded') =>
      shapeOf({ condition: { gullets } }).teeth[0]?.face[0] as Point;
    expect(radiusOf(face('square'))).toBeCloseTo(ROOT, 9);
    expect((200 - radiusOf(face('rounded'))) / 14).toBeGreaterThan(0.45);
    expect((200 - radiusOf(face('rounded'))) / 14).toBeLessThan(0.65);
  });

  it('has a face that ends square to the radius where it leans too far to reach the root (maths oracle)', () => {
    // the line of the face passes the axis at R sin(hook) = 150 sin 40
    const deep = { diameter: 300, gulletDepth: 100, hookAngle: 40, teeth: 8 };
    const [first] = shapeOf({ ...deep, condition: { gullets: 'square' } }).teeth;
    const nearest = 150 * Math.sin((40 * Math.PI) / 180);
    expect(radiusOf(first?.face[0] as Point)).toBeCloseTo(nearest, 9);
  });
});

describe('the outline as drawn', () => {
  it.each(['rounded', 'square'] as const)(
    'is the same for every tooth, turned by the pitch, with %s gullets',
    (gullets) => {
      const { outline } = shapeOf({ condition: { gullets } });
      const each = outline.length / 36;
      expect(Number.isInteger(each)).toBe(true);
      outline.forEach((p, i) => {
        const first = outline[i % each] as Point;
        const tooth = Math.floor(i / each);
        expect(distance(p, turned(first, (tooth * PITCH * Math.PI) / 180))).toBeLessThan(1e-9);
      });
    },
  );

  it('falls into a round gullet as a quarter of an ellipse and rises from it as a parabola', () => {
    const [, face, ...rest] = firstPitch() as [Point, Point, ...Point[]];
    const end = rest.at(-2) as Point;
    const curve = rest.slice(0, -2);
    expect(curve).toHaveLength(9);
    const lowest = curve[4] as Point;
    expect(radiusOf(lowest)).toBeCloseTo(ROOT, 9);
    for (const [i, p] of curve.slice(0, 5).entries()) {
      const along = (pastTop(p) - pastTop(face)) / (pastTop(lowest) - pastTop(face));
      const down = (radiusOf(face) - radiusOf(p)) / (radiusOf(face) - ROOT);
      expect(along).toBeCloseTo((i + 1) / 5, 9);
      expect((1 - along) ** 2 + down ** 2).toBeCloseTo(1, 9);
    }
    for (const [i, p] of curve.slice(5).entries()) {
      const along = (pastTop(p) - pastTop(lowest)) / (pastTop(end) - pastTop(lowest));
      expect(along).toBeCloseTo((i + 1) / 5, 9);
      expect((radiusOf(p) - ROOT) / (radiusOf(end) - ROOT)).toBeCloseTo(along ** 2, 9);
    }
  });

  it('is deepest a fifth to a quarter of the pitch from the face', () => {
    const [, face, ...curve] = firstPitch() as [Point, Point, ...Point[]];
    const share = (pastTop(curve[4] as Point) - pastTop(face)) / PITCH;
    expect(share).toBeGreaterThan(0.2);
    expect(share).toBeLessThan(0.25);
  });

  it('is deepest midway between face and back where they stand closer than that', () => {
    // 180 fine teeth that lean back: 7.0 mm apart at the rim
    const [, face, ...rest] = firstPitch({ teeth: 180, hookAngle: -15 }) as [
      Point,
      Point,
      ...Point[],
    ];
    const middle = (pastTop(face) + pastTop(rest.at(-2) as Point)) / 2;
    expect(pastTop(rest[4] as Point)).toBeCloseTo(middle, 9);
  });

  it('has no corner in a round gullet, and two in a square one, where cracks begin', () => {
    const cornersIn = (gullets: 'square' | 'rounded') =>
      turns(firstPitch({ condition: { gullets } }).slice(1, -1)).filter((turn) => turn > 45);
    expect(cornersIn('rounded')).toHaveLength(0);
    expect(turns(firstPitch({ condition: { gullets: 'square' } }).slice(0, -1)).length).toBe(4);
    const square = firstPitch({ condition: { gullets: 'square' } });
    // tip, face end, flat bottom on the root circle, end of the next back
    const floor = square.slice(1, -2);
    for (const p of floor) expect(radiusOf(p)).toBeCloseTo(ROOT, 9);
    const [start, end] = [floor[1] as Point, floor.at(-1) as Point];
    const along = (p: Point) => (pastTop(p) - pastTop(start)) / (pastTop(end) - pastTop(start));
    expect(floor.slice(1).map(along)).toEqual([0, expect.closeTo(0.5, 9), 1]);
    // the floor takes a little over half the way to the next back
    const whole = pastTop(square.at(-2) as Point) - pastTop(start);
    const share = (pastTop(end) - pastTop(start)) / whole;
    expect(share).toBeGreaterThan(0.5);
    expect(share).toBeLessThan(0.6);
  });
});

describe('a missing tooth as drawn', () => {
  const { teeth, outline } = shapeOf({ condition: { missingTeeth: [0] } });
  const stump = teeth[0] as Tooth;
  const left = (p: Point) => (radiusOf(p) - ROOT) / 14;

  it('leaves a fifth to two fifths of its height, torn up and down, and no face', () => {
    const heights = [...stump.back, stump.tip].map(left);
    for (const height of heights) {
      expect(height).toBeGreaterThan(0.2);
      expect(height).toBeLessThan(0.42);
    }
    const steps = heights.slice(1).map((height, i) => Math.sign(height - (heights[i] ?? 0)));
    expect(steps).toEqual([1, -1, 1]);
    expect(stump.face).toEqual([]);
  });

  it('is torn off within the width its back had, up to where the tip was', () => {
    const at = stump.back.map((p) => pastTop(p) / PITCH);
    expect(at).toEqual([...at].sort((a, b) => a - b));
    expect(at[0]).toBeGreaterThan(-0.42);
    expect(at.at(-1)).toBeLessThan(0);
    expect(at.at(-1)).toBeGreaterThan(-0.15);
    expect(pastTop(stump.tip)).toBeCloseTo(0, 9);
  });

  it('is joined to its neighbours: the outline never leaps by as much as a pitch', () => {
    outline.forEach((p, i) => {
      const next = outline[(i + 1) % outline.length] as Point;
      expect(distance(p, next)).toBeLessThan(16);
    });
    const before = outline.indexOf(stump.back[0] as Point);
    expect(outline.slice(before)).toEqual(stump.back);
    expect(outline[0]).toBe(stump.tip);
  });
});

describe('a broken tooth as drawn', () => {
  const whole = shapeOf().teeth[0] as Tooth;
  const { teeth, outline } = shapeOf({ condition: { broken: [0] } });
  const stub = teeth[0] as Tooth;
  const left = (p: Point) => (radiusOf(p) - ROOT) / 14;

  it('keeps the foot of its face and half its height, torn across', () => {
    expect(stub.face).toEqual(whole.face);
    // what is left of the face lies on the face as it was
    const face = { from: whole.tip, to: whole.face[0] as Point };
    expect(distanceToSegment(stub.tip, face)).toBeLessThan(1e-9);
    const heights = [...stub.back, stub.tip].map(left);
    for (const height of heights) {
      expect(height).toBeGreaterThan(0.45);
      expect(height).toBeLessThan(0.65);
    }
    const steps = heights.slice(1).map((height, i) => Math.sign(height - (heights[i] ?? 0)));
    expect(steps).toEqual([1, -1, 1, -1]);
  });

  it('is a tooth of its own in the row: the others are as they were', () => {
    expect(teeth.filter(({ state }) => state === 'broken')).toHaveLength(1);
    expect(teeth.slice(1)).toEqual(shapeOf().teeth.slice(1));
    outline.forEach((p, i) => {
      expect(distance(p, outline[(i + 1) % outline.length] as Point)).toBeLessThan(16);
    });
  });

  it('is a stump where it is said to be missing too', () => {
    const both = shapeOf({ condition: { broken: [0], missingTeeth: [0] } });
    expect(both.teeth[0]?.state).toBe('missing');
  });
});

describe('how the teeth stand', () => {
  const stands = (condition: object) => toothStands(makeBench({ blade: { condition } }).blade);

  it('is over to each side in turn by half of kerf less plate, all alike, where the set is even', () => {
    // (4.2 - 2.8) / 2
    expect(stands({}).map(({ set }) => set)).toEqual(
      Array.from({ length: 36 }, (_, i) => (i % 2 === 0 ? -0.7 : 0.7)).map((one) =>
        expect.closeTo(one, 9),
      ),
    );
    for (const { low } of stands({})) expect(low).toBe(0);
  });

  it('is never past the kerf where the set is careless, and reaches it on both sides', () => {
    const sets = stands({ set: 'uneven' }).map(({ set }) => set);
    expect(Math.max(...sets)).toBeCloseTo(0.7, 9);
    expect(Math.min(...sets)).toBeCloseTo(-0.7, 9);
    expect(new Set(sets.map((one) => Math.abs(one).toFixed(3))).size).toBeGreaterThan(20);
  });

  it('is at different heights where the filing is uneven, none of them above the tooth circle', () => {
    const radii = shapeOf({ condition: { sharpness: 'uneven' } }).teeth.map(({ tip }) =>
      radiusOf(tip),
    );
    expect(Math.max(...radii)).toBeCloseTo(200, 9);
    expect(Math.min(...radii)).toBeGreaterThan(198.7);
    expect(Math.min(...radii)).toBeLessThan(199.2);
    expect(radii.filter((radius) => radius > 200 - 1e-9).length).toBeGreaterThanOrEqual(12);
  });
});

describe('bore and flanges', () => {
  it('are as given, or the usual for the blade', () => {
    expect(boreRadius(makeBench().blade)).toBe(15);
    expect(boreRadius(makeBench({ blade: { bore: 35 } }).blade)).toBe(17.5);
    // a quarter of 400 across
    expect(collarRadius(makeBench())).toBe(50);
    expect(collarRadius(makeBench({ arbor: { collar: 120 } }))).toBe(60);
    expect(collarRadius(makeBench({ blade: { bore: 120 } }))).toBeGreaterThan(60);
  });

  it('let a crack from the bore start at its edge', () => {
    const cracks = [{ length: 20, at: 'bore' as const }];
    const line = shapeOf({ bore: 80, condition: { cracks } }).cracks[0] as Point[];
    expect(radiusOf(line[0] as Point)).toBeCloseTo(40, 9);
  });
});

describe('a crack as drawn', () => {
  type Crack = { length: number; at: 'gullet' | 'rim' | 'bore'; tooth?: number };
  const draw = (...cracks: Crack[]) => shapeOf({ condition: { cracks } });
  const lineOf = (crack: Crack) => draw(crack).cracks[0] as Point[];

  it('starts on the edge of the plate, at the gullet and at the rim', () => {
    for (const at of ['gullet', 'rim'] as const) {
      for (const gullets of ['rounded', 'square'] as const) {
        for (const over of [{}, { missingTeeth: [5] }, { broken: [5] }]) {
          const cracks = [{ length: 20, at, tooth: 5 }];
          const drawn = shapeOf({ condition: { cracks, gullets, ...over } });
          const start = drawn.cracks[0]?.[0] as Point;
          const off = drawn.outline.map((from, i) =>
            distanceToSegment(start, {
              from,
              to: drawn.outline[(i + 1) % drawn.outline.length] as Point,
            }),
          );
          expect(Math.min(...off), `${at} ${gullets}`).toBeLessThan(1e-9);
        }
      }
    }
  });

  it('starts in the corner by the face where the gullet is square', () => {
    const { cracks, teeth } = shapeOf({
      condition: { gullets: 'square', cracks: [{ length: 20, at: 'gullet', tooth: 5 }] },
    });
    expect(distance(cracks[0]?.[0] as Point, teeth[5]?.face[0] as Point)).toBeLessThan(1e-9);
  });

  it('runs in from gullet and rim, out from a bore of 30 mm, by its length', () => {
    const span = (line: Point[]) => radiusOf(line.at(-1) as Point) - radiusOf(line[0] as Point);
    expect(span(lineOf({ length: 18, at: 'gullet' }))).toBeCloseTo(-18, 9);
    expect(span(lineOf({ length: 18, at: 'rim' }))).toBeCloseTo(-18, 9);
    const bore = lineOf({ length: 18, at: 'bore' });
    expect(radiusOf(bore[0] as Point)).toBeCloseTo(15, 9);
    expect(span(bore)).toBeCloseTo(18, 9);
  });

  it('goes no further than from the bore to the gullets', () => {
    for (const at of ['gullet', 'rim', 'bore'] as const) {
      const radii = lineOf({ length: 500, at }).map(radiusOf);
      expect(Math.min(...radii)).toBeCloseTo(15, 9);
      expect(Math.max(...radii.slice(1))).toBeLessThan(ROOT + 1e-9);
    }
    expect(radiusOf(lineOf({ length: 500, at: 'bore' }).at(-1) as Point)).toBeCloseTo(ROOT, 9);
  });

  it.each(['gullet', 'rim', 'bore'] as const)(
    'from the %s runs nearly straight: off its line by under a fiftieth of its length, never turning by 8 degrees',
    (at) => {
      const line = lineOf({ length: 60, at, tooth: 0 });
      const start = line[0] as Point;
      const aside = line.map((p) => {
        const away = ((pastTop(p) - pastTop(start)) * Math.PI) / 180;
        return radiusOf(p) * away;
      });
      expect(aside).toHaveLength(7);
      expect(aside[0]).toBe(0);
      // it does waver: a ruled line would be a scratch
      expect(Math.max(...aside.map(Math.abs))).toBeGreaterThan(60 / 200);
      for (const off of aside) expect(Math.abs(off)).toBeLessThan(60 / 50);
      for (const turn of turns(line)) expect(Math.abs(turn)).toBeLessThan(8);
    },
  );

  it('is drawn at the tooth it is said to be at, or else seven teeth on from the one before', () => {
    const toothOf = (line: readonly Point[]) =>
      Math.floor((pastTop(line[0] as Point) + 360) / PITCH) % 36;
    const gullet = { length: 10, at: 'gullet' } as const;
    expect(draw(gullet, gullet, { ...gullet, tooth: 8 }).cracks.map(toothOf)).toEqual([3, 10, 8]);
    const few = bladeOutline(
      makeBench({ blade: { teeth: 8, condition: { cracks: [gullet, gullet] } } }).blade,
    );
    // 3 + 7 comes round to 2 on a blade of 8
    expect(
      few.cracks.map((line) => Math.floor((pastTop(line[0] as Point) + 360) / 45) % 8),
    ).toEqual([3, 2]);
  });
});
