import { describe, expect, it } from 'vitest';
import { type Knife, knifeEdge, knifeOutline } from '../../src/bench/index.ts';
import { distance, distanceToSegment, type Point } from '../../src/geometry/index.ts';
import { makeBench } from '../helpers/bench.ts';

/** The riving knife as drawn: its edge is the model's, the rest is made to suit. Axis 110 down. */

const DEPTH = 110;
const sound = makeBench().knife as Knife;
const shapeOf = (knife: Partial<Knife> = {}) => knifeOutline({ ...sound, ...knife }, DEPTH);
const centreOf = (knife: Partial<Knife> = {}) => knifeEdge({ ...sound, ...knife }, DEPTH).centre;

/** Where the back stands at a height, by the outline's own line there. */
function backAt(outline: readonly Point[], y: number): number {
  const crossings = outline.flatMap((p, i) => {
    const q = outline[(i + 1) % outline.length] as Point;
    if (p.y === q.y || y < Math.min(p.y, q.y) || y > Math.max(p.y, q.y)) return [];
    return [p.x + ((q.x - p.x) * (y - p.y)) / (q.y - p.y)];
  });
  return Math.max(...crossings);
}

function frontAt(outline: readonly Point[], y: number): number {
  const turned = outline.map(({ x, y: up }) => ({ x: -x, y: up }));
  return -backAt(turned, y);
}

describe('the back of the knife', () => {
  it.each([
    [120, 36],
    [204, 40.8],
    [300, 60],
    [600, 90],
  ])(
    'of an edge of radius %d runs %d mm behind it, a fifth of the radius from 36 to 90',
    (edgeRadius, wide) => {
      const knife = { edgeRadius, reach: edgeRadius * 0.97 };
      const { outline, tip } = knifeOutline({ ...sound, ...knife }, 50);
      const { centre } = knifeEdge({ ...sound, ...knife }, 50);
      const back = outline.filter(
        (p) => p.y > centre.y && p.y < tip.y - 20 && distance(p, centre) > edgeRadius + 1,
      );
      expect(back.length).toBeGreaterThan(6);
      for (const p of back) expect(distance(p, centre)).toBeCloseTo(edgeRadius + wide, 9);
    },
  );

  it('is drawn as finely as it can be seen: its chords stand off the circle by 0.02 to 0.1 mm at most', () => {
    const { outline, tip, atTable } = shapeOf();
    const centre = centreOf();
    const off = outline.slice(0, outline.indexOf(tip) - 3).flatMap((p, i) => {
      const next = outline[i + 1] as Point;
      if (p.y < 0 || distance(p, centre) < 205) return [];
      const middle = { x: (p.x + next.x) / 2, y: (p.y + next.y) / 2 };
      return [204 + 40.8 - distance(middle, centre)];
    });
    expect(Math.max(...off)).toBeGreaterThan(0.02);
    expect(Math.max(...off)).toBeLessThan(0.1);
    expect(outline.at(-1)).toEqual(atTable);
  });
});

describe('the nose of the knife', () => {
  const { outline, tip } = shapeOf();

  it('meets the tip level, and is rounded off behind it by at most 18 mm', () => {
    const behind = outline[outline.indexOf(tip) - 1] as Point;
    expect(behind.y).toBeCloseTo(tip.y, 9);
    expect(behind.x).toBeGreaterThan(tip.x);
    const shoulder = outline[outline.indexOf(tip) - 3] as Point;
    expect(tip.y - shoulder.y).toBeCloseTo(18, 9);
  });

  it('bulges outward all the way round, so that stock never meets a corner', () => {
    const at = outline.indexOf(tip);
    const nose = outline.slice(at - 4, at + 1);
    const turns = nose.slice(1, -1).map((p, i) => {
      const [before, after] = [nose[i] as Point, nose[i + 2] as Point];
      const turn =
        Math.atan2(after.y - p.y, after.x - p.x) - Math.atan2(p.y - before.y, p.x - before.x);
      return (turn * 180) / Math.PI;
    });
    for (const turn of turns) {
      expect(turn).toBeGreaterThan(0);
      expect(turn).toBeLessThan(60);
    }
  });

  it('lies within 2 mm of a quarter circle', () => {
    const at = outline.indexOf(tip);
    const [shoulder, middle, top] = outline.slice(at - 3, at) as [Point, Point, Point];
    const centre = { x: top.x, y: shoulder.y };
    expect(Math.abs(distance(middle, centre) - 18)).toBeLessThan(2);
  });

  it('takes half the breadth of the top where that is narrow', () => {
    // a tip high on a large edge: the back stands close behind it
    const knife = { edgeRadius: 204, reach: 40, up: 100, along: 0 };
    const narrow = shapeOf({ ...knife });
    const tipAt = narrow.outline.indexOf(narrow.tip);
    const top = narrow.outline[tipAt - 1] as Point;
    const shoulder = narrow.outline[tipAt - 3] as Point;
    const nose = narrow.tip.y - shoulder.y;
    expect(nose).toBeGreaterThan(0);
    expect(nose).toBeLessThanOrEqual(18);
    expect(top.x).toBeGreaterThanOrEqual(narrow.tip.x);
  });
});

describe('the foot of the knife', () => {
  it('hangs 95 mm under the table, as broad as the knife', () => {
    const { outline, atTable } = shapeOf();
    expect(Math.min(...outline.map(({ y }) => y))).toBe(-95);
    expect(outline[outline.length - 1]).toEqual(atTable);
    const wide = backAt(outline, -94.9) - frontAt(outline, -94.9);
    expect(wide).toBeGreaterThan(40);
    expect(wide).toBeLessThan(46);
  });

  it('carries on the circle of the edge down to the height of its centre', () => {
    const { outline } = shapeOf();
    const centre = centreOf();
    const front = outline.filter((p) => p.y < 0 && distance(p, centre) < 204 + 1e-6);
    expect(front.length).toBeGreaterThan(7);
    for (const p of front) expect(distance(p, centre)).toBeCloseTo(204, 9);
    const heights = front.map(({ y }) => y);
    heights.slice(1).forEach((y, i) => {
      expect((heights[i] ?? 0) - y).toBeCloseTo(95 / 8, 9);
    });
    expect(heights[0]).toBeCloseTo(-95 / 8, 9);
  });

  it('goes straight down below that centre, on both sides, never back under the blade', () => {
    // centre 40 under the table: 55 mm of foot below it
    const knife = { up: 70, reach: 150 };
    const { outline } = shapeOf(knife);
    const centre = centreOf(knife);
    const low = outline.filter(({ y }) => y <= centre.y);
    expect(low.length).toBeGreaterThan(8);
    const sides = new Set(low.map(({ x }) => (x - centre.x).toFixed(6)));
    expect([...sides].sort()).toEqual(['204.000000', '244.800000']);
  });

  it('has a slot 13 by 58 mm in the middle of it, for a bolt of 12 (ISO 273, fine series, from memory)', () => {
    const { outline, slot } = shapeOf();
    const [bottomLeft, bottomRight, topRight, topLeft] = slot as [Point, Point, Point, Point];
    expect(slot.map(({ y }) => y)).toEqual([-80, -80, -22, -22]);
    expect(bottomRight.x - bottomLeft.x).toBeCloseTo(13, 9);
    expect(topRight.x - topLeft.x).toBeCloseTo(13, 9);
    for (const [left, right] of [
      [bottomLeft, bottomRight],
      [topLeft, topRight],
    ] as const) {
      const front = left.x - frontAt(outline, left.y);
      const behind = backAt(outline, right.y) - right.x;
      expect(front).toBeGreaterThan(10);
      // the outline's own line is straight between points of the arc
      expect(Math.abs(front - behind)).toBeLessThan(0.3);
    }
  });

  it('is held at its middle', () => {
    const { foot, outline } = shapeOf();
    expect(foot.y).toBe(-47.5);
    const middle = (frontAt(outline, -47.5) + backAt(outline, -47.5)) / 2;
    expect(Math.abs(foot.x - middle)).toBeLessThan(0.3);
    const off = outline.map((from, i) =>
      distanceToSegment(foot, { from, to: outline[(i + 1) % outline.length] as Point }),
    );
    expect(Math.min(...off)).toBeGreaterThan(18);
  });
});
