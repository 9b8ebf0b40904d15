import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Bench, knifeOutline, measureBench, readBench } from '../../src/bench/index.ts';
import { type DimensionId, drawBench, type View } from '../../src/drawing/index.ts';
import { makeBench, makeBenchFile } from '../helpers/bench.ts';
import { type Element, everyElement, partsNamed, pathPoints, readXml } from './read-svg.ts';

/*
 * The drawings against the definitions of the bench model: what is drawn is measured again here, on
 * the coordinates in the file, with sums written out in this test.
 */

const words = { title: 'A bench', description: 'A bench, drawn for a test.' };
const draw = (bench: Bench, view: View, dimensions: DimensionId[] = []) =>
  readXml(drawBench(bench, { ...words, view, dimensions }));

const pointsOf = (svg: Element, part: string) =>
  partsNamed(svg, part).flatMap((one) => pathPoints(one.attributes['d'] ?? ''));

/** Length of the stretch a dimension line spans, in mm by the scale of the sheet. */
function stretchOf(svg: Element, measure: string): number {
  const dimension = everyElement(svg).find((one) => one.attributes['data-measure'] === measure);
  const line = dimension?.children.find((one) => 'data-stretch' in one.attributes);
  const [from, to] = pathPoints(line?.attributes['d'] ?? '');
  if (from === undefined || to === undefined) throw new Error(`no dimension ${measure}`);
  return Math.hypot(to.x - from.x, to.y - from.y) / Number(svg.attributes['data-scale']);
}

const bench = makeBench();
const axis = { x: 0, y: -bench.arbor.depth };
const fromAxis = ({ x, y }: { x: number; y: number }) => Math.hypot(x - axis.x, y - axis.y);

describe('the side view', () => {
  const svg = draw(bench, 'side');

  it('draws the model in millimetres, y up', () => {
    const model = everyElement(svg).find((one) => one.attributes['class'] === 'model');
    const [left, top, width] = (model?.attributes['viewBox'] ?? '').split(' ').map(Number) as [
      number,
      number,
      number,
    ];
    expect(width * Number(svg.attributes['data-scale'])).toBeCloseTo(680, 2);
    expect(left).toBeLessThan(bench.guard?.front ?? 0);
    expect(-top).toBeGreaterThan(90);
    expect(model?.children[0]?.attributes['transform']).toBe('scale(1 -1)');
  });

  it('puts every tooth tip on the tooth circle and every gullet root on its own', () => {
    const radii = pointsOf(svg, 'blade').map(fromAxis);
    expect(radii.filter((r) => Math.abs(r - 200) < 1e-3).length).toBe(36);
    expect(Math.min(...radii)).toBeCloseTo(200 - 14, 2);
    expect(Math.max(...radii)).toBeCloseTo(200, 3);
  });

  it('draws as many teeth as the blade has, less the missing', () => {
    const broken = makeBench({ blade: { condition: { missingTeeth: [0, 7, 20] } } });
    const radii = pointsOf(draw(broken, 'side'), 'blade').map(fromAxis);
    expect(radii.filter((r) => Math.abs(r - 200) < 1e-3).length).toBe(33);
  });

  it('leaves the gap of the model between knife and tooth circle', () => {
    // every point of the outline above the table, so the least is the least gap to the sampling step
    const radii = pointsOf(svg, 'knife')
      .filter((p) => p.y >= 0)
      .map(fromAxis);
    expect(Math.min(...radii) - 200).toBeCloseTo(measureBench(bench)['knife.gapMin'] as number, 3);
  });

  it('puts the guard, its ends and its underside where they are set', () => {
    const guard = pointsOf(svg, 'guard');
    expect(Math.min(...guard.map((p) => p.x))).toBe(-235);
    expect(Math.max(...guard.map((p) => p.x))).toBe(235);
    expect(Math.min(...guard.map((p) => p.y))).toBe(55);
    expect(guard.filter((p) => p.y === 55).map((p) => p.x)).toEqual([-235, 235]);
    // the hood goes over the blade, never through it
    expect(Math.max(...guard.map((p) => p.y))).toBeGreaterThan(90);
  });

  it('rests the stock on the table and cuts it down to the tooth circle', () => {
    const heights = pointsOf(svg, 'kerf-wall').map((p) => p.y);
    expect(Math.min(...heights)).toBe(0);
    expect(Math.max(...heights)).toBe(50);
  });

  it('ends the fence where it is set', () => {
    expect(Math.max(...pointsOf(svg, 'fence').map((p) => p.x))).toBe(-155);
  });

  it('turns the blade toward the operator over the top', () => {
    // the arrow runs down at the operator's side: its last point lies lower than its first, both at x < 0
    const arrow = everyElement(partsNamed(svg, 'rotation')[0] as Element).find(
      (one) => one.name === 'path',
    );
    const points = pathPoints(arrow?.attributes['d'] ?? '');
    const [first, last] = [points[0], points[points.length - 1]];
    expect(first?.x).toBeLessThan(0);
    expect(last?.x).toBeLessThan(0);
    expect(last?.y).toBeLessThan(first?.y as number);
  });

  it('rests the fingers on the stock, and lifts them when they are raised', () => {
    const lowest = (fingers: 'resting' | 'raised') =>
      Math.min(
        ...everyElement(
          partsNamed(draw(makeBench({ guard: { fingers } }), 'side'), 'fingers')[0] as Element,
        )
          .flatMap((one) => pathPoints(one.attributes['d'] ?? ''))
          .map((p) => p.y),
      );
    expect(lowest('resting')).toBeLessThan(51);
    expect(lowest('raised')).toBeGreaterThan(54);
  });

  it('leaves out what has been taken off', () => {
    const bare = draw(makeBench({ knife: null, guard: null }), 'side');
    expect(partsNamed(bare, 'knife')).toEqual([]);
    expect(partsNamed(bare, 'guard')).toEqual([]);
    expect(partsNamed(bare, 'post')).toEqual([]);
    expect(partsNamed(bare, 'blade').length).toBe(1);
  });

  it('draws each crack', () => {
    const cracks = [
      { length: 20, at: 'gullet' as const },
      { length: 9, at: 'rim' as const },
    ];
    expect(
      partsNamed(draw(makeBench({ blade: { condition: { cracks } } }), 'side'), 'crack').length,
    ).toBe(2);
  });
});

describe('the end view', () => {
  it('draws kerf, plate and knife at their widths', () => {
    const svg = draw(bench, 'end', ['blade.kerf', 'knife.thickness', 'blade.plate']);
    const width = (part: string) => {
      const xs = pointsOf(svg, part).map((p) => p.x);
      return Math.max(...xs) - Math.min(...xs);
    };
    expect(width('knife')).toBeCloseTo(3.2, 6);
    expect(width('plate')).toBeCloseTo(2.8, 6);
    expect(stretchOf(svg, 'blade.kerf')).toBeCloseTo(4.2, 4);
    expect(stretchOf(svg, 'knife.thickness')).toBeCloseTo(3.2, 4);
    expect(stretchOf(svg, 'blade.plate')).toBeCloseTo(2.8, 4);
  });

  it('shows a knife out of line on the side it stands on', () => {
    // seen from the take-off end the operator's right is on the left
    const svg = draw(makeBench({ knife: { lateral: 0.4 } }), 'end', ['blade.kerf']);
    const xs = pointsOf(svg, 'knife').map((p) => p.x);
    expect((Math.max(...xs) + Math.min(...xs)) / 2).toBeCloseTo(-0.4, 6);
  });
});

describe('the plan', () => {
  it('puts the fence beside the kerf by its face distance, and ends it where it is set', () => {
    const points = pointsOf(draw(bench, 'plan'), 'fence');
    expect(Math.max(...points.map((p) => p.y))).toBeCloseTo(-(2.1 + 150), 6);
    expect(Math.max(...points.map((p) => p.x))).toBe(-155);
  });

  it('opens the fence by its toe over the blade', () => {
    const fence = pointsOf(draw(makeBench({ fence: { toe: 3 } }), 'plan'), 'fence');
    const [near, far] = [fence[0], fence[1]] as [
      { x: number; y: number },
      { x: number; y: number },
    ];
    const chord = 2 * Math.sqrt(200 ** 2 - 110 ** 2);
    expect((near.y - far.y) / (far.x - near.x)).toBeCloseTo(3 / chord, 6);
  });
});

const LENGTHS: readonly (readonly [View, DimensionId])[] = [
  ['side', 'blade.projection'],
  ['side', 'guard.clearance'],
  ['side', 'guard.leadFront'],
  ['side', 'guard.leadRear'],
  ['side', 'fence.overrun'],
  ['side', 'knife.gapAtTable'],
  ['knife', 'knife.gapAtTable'],
  ['knife', 'knife.gapMax'],
  ['knife', 'knife.gapMin'],
  ['knife', 'knife.tipDrop'],
  ['knife', 'knife.tipHeight'],
  ['end', 'blade.kerf'],
  ['end', 'fence.face'],
  ['plan', 'fence.face'],
  ['plan', 'fence.overrun'],
];

/** Benches within what a person could set up: the schema decides which are benches at all. */
const anyBench = fc
  .record({
    diameter: fc.double({ min: 250, max: 500, noNaN: true }),
    depthShare: fc.double({ min: 0.3, max: 0.75, noNaN: true }),
    gap: fc.double({ min: 2, max: 20, noNaN: true }),
    along: fc.double({ min: 0, max: 12, noNaN: true }),
    up: fc.double({ min: -6, max: 2, noNaN: true }),
    reachShare: fc.double({ min: 0.85, max: 0.98, noNaN: true }),
    height: fc.double({ min: 30, max: 140, noNaN: true }),
    front: fc.double({ min: -360, max: -100, noNaN: true }),
    rear: fc.double({ min: 100, max: 360, noNaN: true }),
    end: fc.double({ min: -260, max: 100, noNaN: true }),
    thickness: fc.double({ min: 10, max: 90, noNaN: true }),
  })
  .map((one) => {
    const radius = one.diameter / 2;
    return readBench(
      makeBenchFile({
        blade: { diameter: one.diameter },
        arbor: { depth: radius * one.depthShare, largestBlade: 500 },
        knife: {
          edgeRadius: radius + one.gap,
          reach: radius * one.reachShare,
          along: one.along,
          up: one.up,
        },
        guard: { height: one.height, front: one.front, rear: one.rear },
        fence: { end: one.end },
        job: { stock: { thickness: one.thickness } },
      }),
    );
  })
  .filter((read) => read.ok)
  .map((read) => (read as { bench: Bench }).bench);

describe.each(LENGTHS)('in the %s view, the dimension %s', (view, id) => {
  it('is as long on the sheet as the measure says, on any bench', () => {
    fc.assert(
      fc.property(anyBench, (any) => {
        const svg = draw(any, view, [id]);
        const shown = everyElement(svg).find((one) => one.attributes['data-measure'] === id);
        const mm = Number(shown?.attributes['data-mm']);
        expect(stretchOf(svg, id)).toBeCloseTo(Math.abs(mm), 2);
      }),
      { numRuns: 60, seed: 20260301 },
    );
  });
});

describe('a drawing of any bench', () => {
  it('is well-formed and holds no number that is none', () => {
    fc.assert(
      fc.property(
        anyBench,
        fc.constantFrom<View>('side', 'end', 'plan', 'knife', 'teeth'),
        (any, view) => {
          const text = drawBench(any, { ...words, view });
          readXml(text);
          expect(/NaN|Infinity|undefined/.exec(text)).toBeNull();
        },
      ),
      { numRuns: 120, seed: 20260302 },
    );
  });

  it.each(['self-closing', 'counterweighted', 'suspended'] as const)(
    'shows a %s guard where it stands',
    (kind) => {
      const at = (stuck: boolean) =>
        Math.min(
          ...pointsOf(draw(makeBench({ guard: { kind, stuck, height: 80 } }), 'side'), 'guard').map(
            (p) => p.y,
          ),
        );
      // one that rides on the work rests on it until it sticks
      expect(at(false)).toBe(kind === 'suspended' ? 80 : 50);
      expect(at(true)).toBe(80);
    },
  );

  it('keeps the words of a title from breaking the file', () => {
    const svg = readXml(
      drawBench(bench, { view: 'side', title: 'Knife & "guard" <b>', description: 'a < b & c' }),
    );
    expect(svg.children[0]?.text).toBe('Knife &amp; &quot;guard&quot; &lt;b&gt;');
  });
});

it('measures the knife gap of the drawing at the model’s own point', () => {
  const svg = draw(bench, 'knife', ['knife.gapAtTable']);
  const { atTable } = knifeOutline(bench.knife as NonNullable<Bench['knife']>, bench.arbor.depth);
  // the edge meets the table at height 0, x = 2 + sqrt(204^2 - 110^2)
  expect(atTable.x).toBeCloseTo(2 + Math.sqrt(204 ** 2 - 110 ** 2), 6);
  expect(stretchOf(svg, 'knife.gapAtTable')).toBeCloseTo(
    Math.hypot(2 + Math.sqrt(204 ** 2 - 110 ** 2), 110) - 200,
    3,
  );
});
