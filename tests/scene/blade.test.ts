import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Bench } from '../../src/bench/index.ts';
import { buildBench } from '../../src/scene/index.ts';
import { type BenchOverrides, makeBench } from '../helpers/bench.ts';
import { CLOSE, directions, extent, least, most, reach, verticesOf } from './read-back.ts';

/*
 * The oracle is the bench itself: what a rule, a calliper and a count of the teeth would find on a
 * blade made to those figures. Lengths are taken off the vertices, never off the builders' constants.
 */

/** What can be measured on the drawn blade. */
function gauge(bench: Bench) {
  const built = buildBench(bench);
  const axis = { x: 0, y: -bench.arbor.depth };
  const plate = verticesOf(built.root, 'blade-plate');
  const tip = most(plate.map((v) => reach(v, axis)));
  const atTips = plate.filter((v) => reach(v, axis) > tip - CLOSE);
  const root = bench.blade.diameter / 2 - bench.blade.gulletDepth;
  const body = plate.filter((v) => reach(v, axis) < root * 0.8);
  const outer = plate.filter((v) => reach(v, axis) > root * 0.9);
  const [low, high] = extent(body, 'z');
  const [left, right] = extent(atTips, 'z');
  const pitch = (2 * Math.PI) / bench.blade.teeth;
  built.dispose();
  return {
    tipRadius: tip,
    teeth: directions(atTips, axis, pitch * 0.3),
    plate: high - low,
    overTips: right - left,
    middle: (low + high) / 2,
    rootRadius: least(outer.map((v) => reach(v, axis))),
  };
}

function expectBlade(bench: Bench): void {
  const found = gauge(bench);
  const { blade } = bench;
  expect(Math.abs(found.tipRadius - blade.diameter / 2)).toBeLessThan(CLOSE);
  expect(found.teeth).toBe(blade.teeth - new Set(blade.condition.missingTeeth).size);
  expect(Math.abs(found.plate - blade.plate)).toBeLessThan(CLOSE);
  expect(Math.abs(found.overTips - blade.kerf)).toBeLessThan(CLOSE);
  expect(Math.abs(found.middle)).toBeLessThan(CLOSE);
  expect(Math.abs(found.rootRadius - (blade.diameter / 2 - blade.gulletDepth))).toBeLessThan(CLOSE);
}

describe('the drawn blade', () => {
  it('has the diameter, teeth, plate, kerf and gullets of the bench', () => {
    expectBlade(makeBench());
  });

  it('keeps them with square gullets, missing teeth and an uneven set', () => {
    expectBlade(makeBench({ blade: { condition: { gullets: 'square' } } }));
    expectBlade(makeBench({ blade: { condition: { missingTeeth: [3, 20] } } }));
    expectBlade(makeBench({ blade: { condition: { set: 'uneven' } } }));
  });

  it('keeps them for any blade a fitter could put on (seed 20260)', () => {
    const blades = fc
      .record({
        diameter: fc.double({ min: 180, max: 900, noNaN: true }),
        plate: fc.double({ min: 1.2, max: 5, noNaN: true }),
        over: fc.double({ min: 0.4, max: 3, noNaN: true }),
        teeth: fc.integer({ min: 8, max: 96 }),
        hookAngle: fc.double({ min: -5, max: 28, noNaN: true }),
        deep: fc.double({ min: 0.25, max: 0.8, noNaN: true }),
      })
      .map(({ diameter, plate, over, teeth, hookAngle, deep }): BenchOverrides => {
        const pitch = (Math.PI * diameter) / teeth;
        return {
          blade: {
            diameter,
            plate,
            kerf: plate + over,
            teeth,
            hookAngle,
            gulletDepth: Math.max(2, Math.min(deep * pitch, diameter * 0.12)),
          },
          arbor: { depth: diameter * 0.28, largestBlade: diameter * 1.1 },
          knife: null,
          table: { infeed: diameter * 2, outfeed: 2500 },
        };
      });
    fc.assert(
      fc.property(blades, (over) => expectBlade(makeBench(over))),
      { seed: 20260, numRuns: 40 },
    );
  });

  it('sets its teeth over turn about, left and right', () => {
    const bench = makeBench();
    const built = buildBench(bench);
    const axis = { x: 0, y: -bench.arbor.depth };
    const tips = verticesOf(built.root, 'blade-plate').filter(
      (v) => reach(v, axis) > bench.blade.diameter / 2 - CLOSE,
    );
    const byTooth = new Map<number, number[]>();
    for (const tip of tips) {
      const turn = Math.atan2(tip.y - axis.y, tip.x - axis.x) - built.spindle.rotation.z;
      const tooth =
        ((Math.round(((turn - Math.PI / 2) / (2 * Math.PI)) * bench.blade.teeth) % 36) + 36) % 36;
      byTooth.set(tooth, [...(byTooth.get(tooth) ?? []), tip.z]);
    }
    for (let tooth = 0; tooth < bench.blade.teeth; tooth++) {
      const z = byTooth.get(tooth) ?? [];
      const lean = (least(z) + most(z)) / 2;
      expect(Math.sign(lean)).toBe(tooth % 2 === 0 ? -1 : 1);
      expect(Math.abs(lean)).toBeCloseTo((bench.blade.kerf - bench.blade.plate) / 2, 3);
    }
    built.dispose();
  });

  it('cuts downward at the front: each face looks along the turn, over the top to the operator', () => {
    const bench = makeBench();
    const built = buildBench(bench);
    const axis = { x: 0, y: -bench.arbor.depth };
    const plate = verticesOf(built.root, 'blade-plate');
    const tip = plate
      .filter((v) => reach(v, axis) > bench.blade.diameter / 2 - CLOSE && v.x < 0 && v.y > 0)
      .reduce((a, b) => (a.y < b.y ? a : b));
    // below a front tip lies its gullet, above it its own metal: 4 mm down is air, 4 mm up is steel
    const at = (dy: number) => {
      const angle = Math.atan2(tip.y + dy - axis.y, tip.x - axis.x);
      const near = plate.filter((v) => {
        const a = Math.atan2(v.y - axis.y, v.x - axis.x);
        return Math.abs(a - angle) < 0.02;
      });
      return most(near.map((v) => reach(v, axis)));
    };
    expect(at(5)).toBeGreaterThan(at(-5) + 2);
    built.dispose();
  });

  it('leans with a tilted arbor about the table line, keeping its size', () => {
    const bench = makeBench({ arbor: { tilt: 30 }, knife: null });
    const built = buildBench(bench);
    const plate = verticesOf(built.root, 'blade-plate');
    const turn = (30 * Math.PI) / 180;
    // back into the blade's own plane, by the rotation the model names
    const upright = plate.map((v) => ({
      x: v.x,
      y: v.y * Math.cos(turn) + v.z * Math.sin(turn),
      z: -v.y * Math.sin(turn) + v.z * Math.cos(turn),
    }));
    const axis = { x: 0, y: -bench.arbor.depth };
    expect(Math.abs(most(upright.map((v) => reach(v, axis))) - 200)).toBeLessThan(CLOSE);
    const [low, high] = extent(upright, 'z');
    expect(Math.abs(high - low - bench.blade.kerf)).toBeLessThan(CLOSE);
    expect(extent(plate, 'z')[1]).toBeGreaterThan(40);
    built.dispose();
  });
});

describe('a fault of the blade', () => {
  const parts = (over: BenchOverrides) => {
    const built = buildBench(makeBench(over));
    const names = new Set<string>();
    built.root.traverse((object) => names.add(object.name));
    built.dispose();
    return names;
  };

  it('is drawn when it is there, and not when it is not', () => {
    const sound = parts({});
    for (const name of ['blade-crack', 'blade-dull', 'blade-stain', 'blade-resin', 'blade-break'])
      expect(sound).not.toContain(name);
    const crack = { length: 18, at: 'gullet' } as const;
    expect(parts({ blade: { condition: { cracks: [crack] } } })).toContain('blade-crack');
    expect(parts({ blade: { condition: { sharpness: 'dull' } } })).toContain('blade-dull');
    expect(parts({ blade: { condition: { burnt: true } } })).toContain('blade-stain');
    expect(parts({ blade: { condition: { resin: true } } })).toContain('blade-resin');
    expect(parts({ blade: { condition: { broken: [3] } } })).toContain('blade-break');
    expect(parts({ blade: { condition: { missingTeeth: [3] } } })).toContain('blade-break');
    expect(parts({ table: { sound: false } })).toContain('table-damage');
    expect(parts({ table: { offcuts: true } })).toContain('table-offcuts');
    expect(parts({ underPacked: true })).toContain('under-chips');
  });

  it('draws a crack as long as it is, from the gullet inward', () => {
    const bench = makeBench({
      blade: { condition: { cracks: [{ length: 18, at: 'gullet', tooth: 5 }] } },
    });
    const built = buildBench(bench);
    const axis = { x: 0, y: -bench.arbor.depth };
    const radii = verticesOf(built.root, 'blade-crack').map((v) => reach(v, axis));
    expect(most(radii)).toBeCloseTo(186, 0);
    expect(most(radii) - least(radii)).toBeCloseTo(18, 0);
    built.dispose();
  });

  it('stands in sight at the front when the blade has stopped: cracked or broken', () => {
    for (const condition of [
      { cracks: [{ length: 15, at: 'gullet', tooth: 30 } as const] },
      { missingTeeth: [17] },
      { missingTeeth: [0] },
    ]) {
      const bench = makeBench({ blade: { condition } });
      const built = buildBench(bench);
      const tooth = condition.missingTeeth?.[0] ?? 30;
      const angle = Math.PI / 2 + (tooth * 2 * Math.PI) / 36 + built.spindle.rotation.z;
      const y = 190 * Math.sin(angle) - bench.arbor.depth;
      expect(y).toBeGreaterThan(0);
      expect(y).toBeLessThan(60);
      built.dispose();
    }
  });
});

describe('what else is on the blade', () => {
  const read = (over: BenchOverrides, mesh: string) => {
    const bench = makeBench(over);
    const built = buildBench(bench);
    const axis = { x: 0, y: -bench.arbor.depth };
    const vertices = verticesOf(built.root, mesh).map((v) => ({ ...v, r: reach(v, axis) }));
    const turn = built.spindle.rotation.z;
    built.dispose();
    return { vertices, axis, turn };
  };

  it('has the bore of the bench, and no metal inside it', () => {
    const { vertices } = read({ blade: { bore: 35 } }, 'blade-plate');
    expect(Math.abs(least(vertices.map(({ r }) => r)) - 17.5)).toBeLessThan(CLOSE);
  });

  it('is gripped by flanges as wide as they are, against the plate', () => {
    const { vertices } = read({ arbor: { collar: 116 } }, 'arbor');
    const near = vertices.filter((v) => Math.abs(Math.abs(v.z) - 1.4) < CLOSE);
    expect(Math.abs(most(near.map(({ r }) => r)) - 58)).toBeLessThan(CLOSE);
  });

  it('ends a square gullet in a flat floor on the root circle, a round one in a single point', () => {
    const floor = (gullets: 'square' | 'rounded') => {
      const over = { blade: { teeth: 40, condition: { gullets } } };
      const { vertices, axis } = read(over, 'blade-plate');
      const low = vertices.filter(({ r }) => Math.abs(r - 186) < CLOSE);
      return directions(low, axis, 0.004);
    };
    // one direction for each of 40 gullets; three points of floor for each square one
    expect(floor('rounded')).toBe(40);
    expect(floor('square')).toBe(120);
  });

  it('leaves half of a broken tooth, and every other tip on the tooth circle', () => {
    const { vertices, axis, turn } = read({ blade: { condition: { broken: [9] } } }, 'blade-plate');
    const tips = vertices.filter(({ r }) => r > 200 - CLOSE);
    expect(directions(tips, axis, 0.02)).toBe(35);
    const angle = Math.PI / 2 + (9 * 2 * Math.PI) / 36 + turn;
    const there = vertices.filter((v) => {
      const off = Math.atan2(v.y - axis.y, v.x - axis.x) - angle;
      return Math.abs(Math.atan2(Math.sin(off), Math.cos(off))) < 0.06;
    });
    const high = most(there.map(({ r }) => r));
    expect(high).toBeGreaterThan(191);
    expect(high).toBeLessThan(196);
  });

  it('stands some tips lower where the filing is uneven, none above the circle', () => {
    const { vertices, axis } = read(
      { blade: { condition: { sharpness: 'uneven' } } },
      'blade-plate',
    );
    expect(Math.abs(most(vertices.map(({ r }) => r)) - 200)).toBeLessThan(CLOSE);
    const full = directions(
      vertices.filter(({ r }) => r > 200 - CLOSE),
      axis,
      0.02,
    );
    expect(full).toBeGreaterThanOrEqual(12);
    expect(full).toBeLessThan(30);
  });

  it('lies where it was turned round when it is mounted backwards, kerf and circle unchanged', () => {
    const { vertices, axis } = read({ blade: { mounted: 'backwards' } }, 'blade-plate');
    expect(Math.abs(most(vertices.map(({ r }) => r)) - 200)).toBeLessThan(CLOSE);
    const [low, high] = extent(vertices, 'z');
    expect(Math.abs(high - low - 4.2)).toBeLessThan(CLOSE);
    // the face of the lowest front tooth now looks up: steel below its tip, air above
    const tip = vertices
      .filter((v) => v.r > 200 - CLOSE && v.x < 0 && v.y > 0)
      .reduce((a, b) => (a.y < b.y ? a : b));
    const at = (dy: number) => {
      const angle = Math.atan2(tip.y + dy - axis.y, tip.x - axis.x);
      return most(
        vertices
          .filter((v) => Math.abs(Math.atan2(v.y - axis.y, v.x - axis.x) - angle) < 0.02)
          .map(({ r }) => r),
      );
    };
    expect(at(-7)).toBeGreaterThan(at(7) + 2);
  });

  it('carries a crack at the rim over with its tooth, so that it stays on the steel', () => {
    const cracks = [{ length: 12, at: 'rim', tooth: 4 } as const];
    const { vertices } = read({ blade: { condition: { cracks } } }, 'blade-crack');
    const outer = vertices.filter(({ r }) => r > most(vertices.map((v) => v.r)) - 1);
    // tooth 4 leans to the left by its set, most of which is taken so near the tip
    const [low, high] = extent(outer, 'z');
    expect((low + high) / 2).toBeLessThan(-0.3);
  });

  it('wears resin on the sides of its teeth, none outside the circle and none near the flanges', () => {
    const { vertices } = read({ blade: { condition: { resin: true } } }, 'blade-resin');
    expect(most(vertices.map(({ r }) => r))).toBeLessThan(200 + CLOSE);
    expect(least(vertices.map(({ r }) => r))).toBeGreaterThan(140);
    for (const side of [1, -1]) expect(vertices.some(({ z }) => z * side > 1.4)).toBe(true);
  });
});

describe('packing beside the blade', () => {
  const pads = (packing: 'fitted' | 'worn') => {
    const built = buildBench(makeBench({ arbor: { packing } }));
    const vertices = verticesOf(built.root, 'insert-packing');
    built.dispose();
    return vertices;
  };

  it('stands close against the plate on both sides, under the insert, clear of every tooth', () => {
    const vertices = pads('fitted');
    const near = least(vertices.map((v) => Math.abs(v.z)));
    expect(near - 1.4).toBeGreaterThan(0.1);
    expect(near - 1.4).toBeLessThan(0.3);
    for (const v of vertices) {
      expect(Math.hypot(v.x, v.y + 110)).toBeLessThan(186);
      expect(v.y).toBeLessThan(-9);
    }
    expect(extent(vertices, 'z')[0]).toBeCloseTo(-extent(vertices, 'z')[1], 6);
  });

  it('leaves room when it is worn, and is not there when it is not fitted', () => {
    expect(least(pads('worn').map((v) => Math.abs(v.z))) - 1.4).toBeGreaterThan(3);
    const none = buildBench(makeBench({ arbor: { packing: 'none' } }));
    expect(verticesOf(none.root, 'insert-packing')).toHaveLength(0);
    none.dispose();
  });
});
