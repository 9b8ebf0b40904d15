import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import type { Bench } from '../../src/bench/index.ts';
import { buildBench } from '../../src/scene/index.ts';
import { type CutState, createCutShow } from '../../src/scene/motion/cut-show.ts';
import { uncutOutline } from '../../src/scene/motion/kerf.ts';
import { createPalette } from '../../src/scene/surface/palette.ts';
import { makeBench } from '../helpers/bench.ts';
import { CLOSE, extent, least, meshesOf, most, type Vertex, verticesOf } from './read-back.ts';

/*
 * A cut shown instant by instant, read back off the vertices. The oracle is the saw itself: the kerf is
 * as wide as the blade cuts and as long as the teeth have gone, and nothing else of the work is lost.
 */

const palette = createPalette();
afterAll(() => palette.dispose());

function shown(bench: Bench, states: readonly (CutState | null)[]) {
  const built = buildBench(bench, { palette });
  const show = createCutShow(built);
  for (const state of states) show.show(state, bench);
  const take = (group: string): Vertex[] =>
    (built.root.getObjectByName(group)?.children ?? []).flatMap((mesh) =>
      verticesOf(mesh as never, mesh.name),
    );
  const seen = meshesOf(built.root).filter(
    (mesh) => mesh.visible && /^stock-(b|e)/.test(mesh.name),
  );
  const found = {
    fence: take('cut-fence').filter((v) => v.y < 50.02),
    off: take('cut-off'),
    both: take('cut-both'),
    uncut: take('cut-uncut'),
    strip: take('cut-strip'),
    gauge: take('mitre-gauge'),
    stick: take('push-stick'),
    whole: seen.some((mesh) => mesh.parent?.name === 'stock'),
    knife: verticesOf(built.root, 'knife-plate').filter((v) => v.y > 0),
    plate: verticesOf(built.root, 'blade-plate').filter((v) => v.y > 0 && v.y < 50),
  };
  show.dispose();
  built.dispose();
  return found;
}

describe('the kerf', () => {
  it('is as wide as the blade cuts, and blade and knife stand in it', () => {
    const bench = makeBench();
    const { fence, off, knife, plate, whole } = shown(bench, [{ lead: 420 }]);
    const [near, far] = [extent(fence, 'z')[0], extent(off, 'z')[1]];
    expect(Math.abs(near - 2.1)).toBeLessThan(CLOSE);
    expect(Math.abs(far + 2.1)).toBeLessThan(CLOSE);
    for (const v of [...knife, ...plate]) {
      expect(v.z).toBeGreaterThan(far - CLOSE);
      expect(v.z).toBeLessThan(near + CLOSE);
    }
    expect(whole).toBe(false);
  });

  it('takes the work along with its leading end where it is said to be, its size unchanged', () => {
    const { fence, off } = shown(makeBench(), [{ lead: 137.5 }]);
    for (const side of [fence, off]) {
      expect(Math.abs(extent(side, 'x')[1] - 137.5)).toBeLessThan(CLOSE);
      expect(Math.abs(extent(side, 'x')[0] - (137.5 - 1800))).toBeLessThan(CLOSE);
    }
    const width = extent(fence, 'z')[1] - extent(off, 'z')[0];
    expect(Math.abs(width - 220)).toBeLessThan(CLOSE);
  });

  it('ends on the circle of the teeth, and never runs ahead of them (seed 20264)', () => {
    fc.assert(
      fc.property(fc.double({ min: -190, max: 1900, noNaN: true }), (lead) => {
        const bench = makeBench();
        const outline = uncutOutline(bench, lead);
        if (outline === null) {
          // parted: the trailing end has passed the last tooth to meet it, at the top of the stock
          expect(lead - 1800).toBeGreaterThan(-Math.sqrt(200 ** 2 - 110 ** 2) - 1e-6);
          return;
        }
        for (const { x, y } of outline.slice(2)) {
          const free = Math.hypot(x, y + 110) - 200;
          expect(free).toBeGreaterThan(-1e-6);
          const atEnd = Math.abs(x - lead) < 1e-6 || Math.abs(x - (lead - 1800)) < 1e-6;
          if (!atEnd) expect(free).toBeLessThan(1e-6);
        }
      }),
      { seed: 20264, numRuns: 200 },
    );
  });

  it('is drawn as far as it is cut: what is whole ends at the front teeth', () => {
    const { uncut } = shown(makeBench(), [{ lead: 420 }]);
    const atTable = uncut.filter((v) => v.y < 0.01);
    expect(Math.abs(extent(atTable, 'x')[1] + Math.sqrt(200 ** 2 - 110 ** 2))).toBeLessThan(CLOSE);
    expect(Math.abs(extent(uncut, 'x')[0] - (420 - 1800))).toBeLessThan(CLOSE);
    expect(shown(makeBench(), [{ lead: 2000 }]).uncut).toHaveLength(0);
  });

  it('leans with the blade for a bevel', () => {
    const bench = makeBench({
      arbor: { tilt: 30 },
      job: { cut: 'bevel', stock: { thickness: 40 } },
    });
    const { fence } = shown(bench, [{ lead: 500 }]);
    const half = 2.1 / Math.cos(Math.PI / 6);
    const low = least(fence.filter((v) => v.y < 0.01).map((v) => v.z));
    const high = least(fence.filter((v) => Math.abs(v.y - 40) < 0.01).map((v) => v.z));
    expect(Math.abs(low - half)).toBeLessThan(CLOSE);
    expect(Math.abs(high - half - 40 * Math.tan(Math.PI / 6))).toBeLessThan(CLOSE);
  });

  it('stays under the top where the blade does not come through', () => {
    const bench = makeBench({ arbor: { depth: 180 }, knife: null, job: { cut: 'groove' } });
    const { both, off, uncut } = shown(bench, [{ lead: 300 }]);
    expect(off).toHaveLength(0);
    const groove = both.filter((v) => Math.abs(v.z) < 3);
    expect(Math.abs(most(groove.map((v) => v.y)) - 20)).toBeLessThan(CLOSE);
    expect(Math.abs(extent(uncut, 'y')[1] - 20)).toBeLessThan(CLOSE);
    expect(Math.abs(extent(both, 'y')[1] - 50)).toBeLessThan(CLOSE);
  });
});

describe('work thrown back', () => {
  it('comes back whole with the cut as long as it was when it was caught', () => {
    const { fence, uncut } = shown(makeBench(), [{ lead: 300 }, { lead: -400, thrown: true }]);
    expect(Math.abs(extent(fence, 'x')[1] + 400)).toBeLessThan(CLOSE);
    // cut for 300 + 167.03 mm from its leading end, along the table
    const atTable = extent(
      uncut.filter((v) => v.y < 0.01),
      'x',
    );
    expect(-400 - atTable[1]).toBeCloseTo(300 + Math.sqrt(200 ** 2 - 110 ** 2), 1);
  });

  it('throws the piece by the fence alone once the two are apart', () => {
    const { fence, off } = shown(makeBench(), [{ lead: 1950 }, { lead: 600, thrown: true }]);
    expect(Math.abs(extent(fence, 'x')[1] - 600)).toBeLessThan(CLOSE);
    expect(Math.abs(extent(off, 'x')[1] - 1950)).toBeLessThan(CLOSE);
  });

  it('marks the strip to keep clear on the floor, as wide as it is said to be', () => {
    const { strip } = shown(makeBench(), [{ lead: 0, strip: { from: -210, to: 180 } }]);
    const inner = strip.filter((v) => v.z > -238.1 && v.z < 208.1);
    expect(inner).toHaveLength(strip.length);
    expect(Math.abs(extent(strip, 'z')[0] + 238)).toBeLessThan(CLOSE);
    expect(extent(strip, 'y')[1]).toBeLessThan(-800);
    expect(extent(strip, 'x')[1]).toBeLessThan(-600);
  });
});

describe('after the cut', () => {
  it('puts the whole board back, and nothing of the cut is left', () => {
    const { whole, fence, uncut, strip, stick } = shown(makeBench(), [
      { lead: 400, stick: true, strip: { from: -100, to: 100 } },
      null,
    ]);
    expect(whole).toBe(true);
    for (const gone of [fence, uncut, strip]) expect(gone).toHaveLength(0);
    expect(Math.abs(extent(stick, 'y')[0])).toBeLessThan(CLOSE);
  });
});

describe('what feeds the work', () => {
  it('holds the push stick to the trailing end, its handle up', () => {
    const { stick } = shown(makeBench(), [{ lead: 1500, stick: true }]);
    const mouth = stick.filter((v) => v.x > extent(stick, 'x')[1] - 20);
    expect(extent(stick, 'x')[1]).toBeGreaterThan(-300 - 20);
    expect(extent(stick, 'x')[1]).toBeLessThan(-300 + 45);
    expect(extent(mouth, 'y')[0]).toBeGreaterThan(0);
    expect(extent(stick, 'y')[1]).toBeGreaterThan(120);
    // on the piece between blade and fence
    expect(extent(stick, 'z')[0]).toBeGreaterThan(2);
    expect(extent(stick, 'z')[1]).toBeLessThan(152);
  });

  it('moves the mitre gauge with the work across the table, its face to the trailing edge', () => {
    const bench = makeBench({ job: { cut: 'crosscut', stock: { length: 600, width: 180 } } });
    const faceAt = (lead: number) => {
      const built = buildBench(bench, { palette });
      const show = createCutShow(built);
      show.show({ lead }, bench);
      const [, face] = extent(verticesOf(built.root, 'mitre-face'), 'x');
      show.dispose();
      built.dispose();
      return face;
    };
    expect(Math.abs(faceAt(-100) - -280)).toBeLessThan(CLOSE);
    expect(Math.abs(faceAt(150) + 30)).toBeLessThan(CLOSE);
  });

  it('keeps the gauge in its slot, clear of the blade, and out only for crosscut and bevel', () => {
    const gauge = (cut: 'crosscut' | 'bevel' | 'rip') =>
      shown(makeBench({ job: { cut, stock: { length: 600, width: 180 } } }), [null]).gauge;
    expect(gauge('rip')).toHaveLength(0);
    for (const cut of ['crosscut', 'bevel'] as const) {
      const inSlot = gauge(cut).filter((v) => v.y < 0);
      expect(inSlot.length).toBeGreaterThan(0);
      // the slot is 19 wide and 9.5 deep, 165 to the left of the blade
      expect(least(inSlot.map((v) => v.z))).toBeGreaterThan(-174.5);
      expect(most(inSlot.map((v) => v.z))).toBeLessThan(-155.5);
      expect(least(inSlot.map((v) => v.y))).toBeGreaterThan(-9.5);
      expect(extent(gauge(cut), 'z')[1]).toBeLessThan(-2.1);
    }
  });
});
