import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawPlot, type PlotRequest, sayFine, tabulatePlot } from '../../src/drawing/index.ts';
import { boxesMeet, findSpot, segmentMeets } from '../../src/drawing/plot-labels.ts';
import { inchTicks, makeScale, roundStep } from '../../src/drawing/plot-scale.ts';
import { type Element, everyElement, pathPoints, readXml } from './read-svg.ts';
import { overlaps, textBoxes } from './text-boxes.ts';

/*
 * Plots against the values they were given: what is drawn is read back here by the ticks printed
 * beside it, as a reader would, with sums written out in this test.
 */

const finite = fc.double({ min: -1e5, max: 1e5, noNaN: true });

const plot = (change: Partial<PlotRequest> = {}): PlotRequest => ({
  title: 'Speed against length',
  description: 'A plot made for a test.',
  x: { title: 'Length', unit: 'mm' },
  y: { title: 'Speed', unit: 'm/s' },
  curves: [
    {
      label: 'Speed',
      points: [0, 250, 500, 750, 1000].map((x) => ({ x, y: 60 - x / 20 })),
    },
  ],
  ...change,
});

type Side = 'x' | 'y';

/** The ticks of one axis as printed, in mm for a length: value and place on the sheet. */
function ticksOf(svg: Element, side: Side, unit = '') {
  return everyElement(svg)
    .filter((one) => one.attributes['class'] === `plot-scale${unit && ` ${unit}`}`)
    .flatMap((scale) => scale.children.filter((one) => one.attributes['data-tick'] === side))
    .map((tick) => {
      const [line] = tick.children.flatMap((one) => pathPoints(one.attributes['d'] ?? ''));
      const text = tick.children.find((one) => one.name === 'text')?.text ?? '';
      return { text, value: Number(tick.attributes['data-value']), at: line?.[side] ?? Number.NaN };
    });
}

/** From the sheet back to values, by the first and the last printed tick. */
function reader(svg: Element, side: Side, unit = '') {
  const ticks = ticksOf(svg, side, unit);
  const [first, last] = [ticks[0], ticks[ticks.length - 1]];
  if (first === undefined || last === undefined) throw new Error(`no ticks along ${side}`);
  const [low, high] = [Number(first.text), Number(last.text)];
  return (place: number) => low + ((place - first.at) / (last.at - first.at)) * (high - low);
}

function curvesOf(svg: Element) {
  const [readX, readY] = [
    reader(svg, 'x', ticksOf(svg, 'x', 'mm').length > 0 ? 'mm' : ''),
    reader(svg, 'y', ticksOf(svg, 'y', 'mm').length > 0 ? 'mm' : ''),
  ];
  return everyElement(svg)
    .filter((one) => 'data-curve' in one.attributes)
    .map((one) => ({
      name: one.attributes['data-curve'] ?? '',
      points: pathPoints(one.attributes['d'] ?? '').map(({ x, y }) => ({
        x: readX(x),
        y: readY(y),
      })),
    }));
}

describe('a scale', () => {
  it('steps by 1, 2 or 5 and a power of ten, and by no more than are needed', () => {
    expect(roundStep(83, 6)).toBe(20);
    expect(roundStep(0.07, 6)).toBe(0.02);
    expect(roundStep(6, 6)).toBe(1);
    expect(roundStep(3000, 6)).toBe(500);
  });

  it('covers its values with evenly spaced round ticks', () => {
    fc.assert(
      fc.property(fc.array(finite, { minLength: 1, maxLength: 20 }), (values) => {
        const { from, to, ticks } = makeScale(values, 6);
        const step = (to - from) / (ticks.length - 1);
        expect(ticks.length - 1).toBeLessThanOrEqual(6);
        expect(ticks.length).toBeGreaterThan(1);
        expect(from).toBeLessThanOrEqual(Math.min(...values) + step * 1e-6);
        expect(to).toBeGreaterThanOrEqual(Math.max(...values) - step * 1e-6);
        // 1, 2 or 5 of a power of ten: its first digit, and nothing after it
        expect(['1', '2', '5']).toContain(step.toExponential(6).replace(/\.?0*e.*$/, ''));
        for (const [i, tick] of ticks.entries()) {
          expect(tick.value).toBeCloseTo(from + i * step, 6);
          expect(Math.abs(tick.value / step - Math.round(tick.value / step))).toBeLessThan(1e-6);
          expect(Number(tick.text)).toBeCloseTo(tick.value, 9);
        }
      }),
      { seed: 71, numRuns: 500 },
    );
  });

  it('gives room to a stretch too fine to be anything but rounding', () => {
    expect(makeScale([0, 5e-324], 6).ticks.length).toBeGreaterThan(1);
    expect(makeScale([0.1 + 0.2, 0.3], 6).ticks.map(({ text }) => text)).toContain('0.5');
  });

  it('tells a length in round inches too: divisions of a rule, or decimals when it is finer', () => {
    const rule = inchTicks(makeScale([0, 83], 6), 6);
    expect(rule.map(({ text }) => text)).toEqual(['0', '1', '2', '3']);
    expect(rule.map(({ value }) => value)).toEqual(
      [0, 25.4, 50.8, 76.2].map((v) => expect.closeTo(v, 9)),
    );
    expect(inchTicks(makeScale([0, 30], 6), 6).map(({ text }) => text)).toEqual([
      '0',
      '1/4',
      '1/2',
      '3/4',
      '1',
    ]);
    expect(inchTicks(makeScale([0, 0.08], 6), 6).map(({ text }) => text)).toEqual([
      '0.000',
      '0.001',
      '0.002',
      '0.003',
    ]);
  });

  it('keeps every inch tick inside the scale', () => {
    fc.assert(
      fc.property(finite, fc.double({ min: 0.01, max: 1e4, noNaN: true }), (low, span) => {
        const scale = makeScale([low, low + span], 6);
        const ticks = inchTicks(scale, 6);
        expect(ticks.length).toBeLessThanOrEqual(7);
        for (const { value } of ticks) {
          expect(value).toBeGreaterThanOrEqual(scale.from - 1e-6);
          expect(value).toBeLessThanOrEqual(scale.to + 1e-6);
        }
      }),
      { seed: 72, numRuns: 300 },
    );
  });
});

describe('a drawn plot', () => {
  it('draws every point where the printed ticks say it is', () => {
    const points = fc.array(fc.record({ x: finite, y: finite }), { minLength: 2, maxLength: 15 });
    fc.assert(
      fc.property(points, points, (one, other) => {
        const request = plot({
          x: { title: 'Time', unit: 's' },
          curves: [
            { label: 'One', points: one },
            { label: 'Other', points: other },
          ],
        });
        const spanOf = (side: Side) => {
          const values = [...one, ...other].map((point) => point[side]);
          return Math.max(1, Math.max(...values) - Math.min(...values));
        };
        const drawn = curvesOf(readXml(drawPlot(request)));
        expect(drawn.map(({ name }) => name)).toEqual(['One', 'Other']);
        for (const [i, { points: shown }] of drawn.entries()) {
          const wanted = [one, other][i] ?? [];
          expect(shown.length).toBe(wanted.length);
          for (const [k, point] of shown.entries()) {
            // the file keeps a ten-thousandth of a sheet unit, over some 300 units
            expect(Math.abs(point.x - (wanted[k]?.x ?? 0))).toBeLessThan(spanOf('x') * 2e-6 + 1e-9);
            expect(Math.abs(point.y - (wanted[k]?.y ?? 0))).toBeLessThan(spanOf('y') * 2e-6 + 1e-9);
          }
        }
      }),
      { seed: 73, numRuns: 100 },
    );
  });

  it('puts an inch tick where its millimetres are', () => {
    const svg = readXml(drawPlot(plot()));
    const [mm, inch] = [ticksOf(svg, 'x', 'mm'), ticksOf(svg, 'x', 'inch')];
    const [first, last] = [mm[0], mm[mm.length - 1]];
    const perMm = ((last?.at ?? 0) - (first?.at ?? 0)) / 1000;
    expect(inch.map(({ text }) => text)).toEqual(['0', '12', '24', '36']);
    for (const { text, at } of inch) {
      expect(at).toBeCloseTo((first?.at ?? 0) + Number(text) * 25.4 * perMm, 2);
    }
  });

  it('names each axis with its unit, a length in both', () => {
    const texts = everyElement(readXml(drawPlot(plot()))).filter((one) => one.name === 'text');
    const said = texts.map((one) => [one.attributes['class'], one.text]);
    expect(said).toContainEqual(['word mm', 'Length, mm']);
    expect(said).toContainEqual(['word inch', 'Length, inches']);
    expect(said).toContainEqual(['word', 'Speed, m/s']);
  });

  it('lifts the pen where a curve jumps', () => {
    const points = [{ x: 0, y: 1 }, { x: 1, y: 1 }, null, { x: 1, y: 3 }, { x: 2, y: 3 }];
    const drawn = curvesOf(readXml(drawPlot(plot({ curves: [{ label: 'Step', points }] }))));
    expect(drawn.map(({ points: run }) => run.length)).toEqual([2, 2]);
  });

  it('puts the mark and the limit on their values, and names them', () => {
    const request = plot({
      marks: [{ x: 400, y: 40, label: 'Now' }],
      lines: [{ axis: 'y', at: 50, label: 'Limit 50' }],
    });
    const svg = readXml(drawPlot(request));
    const all = everyElement(svg);
    const dot = all.find((one) => 'data-mark' in one.attributes);
    expect(reader(svg, 'x', 'mm')(Number(dot?.attributes['cx']))).toBeCloseTo(400, 2);
    expect(reader(svg, 'y')(Number(dot?.attributes['cy']))).toBeCloseTo(40, 3);
    const line = all.find((one) => one.attributes['data-line'] === 'y');
    const ends = pathPoints(line?.attributes['d'] ?? '').map(({ y }) => reader(svg, 'y')(y));
    expect(ends).toEqual([expect.closeTo(50, 3), expect.closeTo(50, 3)]);
    const texts = all.filter((one) => one.name === 'text').map(({ text }) => text);
    expect(texts).toEqual(expect.arrayContaining(['Now', 'Limit 50', 'Speed']));
  });

  it('is well-formed, named, and free of what the content policy refuses', () => {
    const request = plot({
      title: 'Speed < rim & "more"',
      curves: [
        {
          label: 'a < b & c',
          points: [
            { x: 0, y: 0 },
            { x: 1, y: 1 },
          ],
        },
      ],
    });
    const text = drawPlot(request);
    const svg = readXml(text);
    expect(svg.attributes['role']).toBe('img');
    expect(svg.children[0]?.text).toBe('Speed &lt; rim &amp; &quot;more&quot;');
    expect(svg.children[1]?.name).toBe('desc');
    expect(text).not.toMatch(/NaN|Infinity|undefined|null|\sstyle=|\sid=|<script|<style/);
  });

  it('refuses a value that is not finite, naming the plot and the axis', () => {
    const broken = plot({ curves: [{ label: 'Speed', points: [{ x: 0, y: Number.NaN }] }] });
    expect(() => drawPlot(broken)).toThrow(
      'the plot "Speed against length" needs finite values along y',
    );
    expect(() => drawPlot(plot({ curves: [] }))).toThrow(RangeError);
  });

  it('lets no words cover others, however the curves run', () => {
    const walk = fc.array(fc.double({ min: 0, max: 100, noNaN: true }), {
      minLength: 2,
      maxLength: 9,
    });
    fc.assert(
      fc.property(walk, walk, walk, (a, b, c) => {
        const curves = [a, b, c].map((ys, i) => ({
          label: ['Where it enters', 'Mean', 'Drag with speed'][i] ?? '',
          points: ys.map((y, k) => ({ x: (100 * k) / (ys.length - 1), y })),
        }));
        const request = plot({
          curves,
          marks: [{ x: 50, y: 50, label: { mm: 'Now 50 mm', inch: 'Now 1 31/32 in' } }],
          lines: [{ axis: 'y', at: 20, label: 'Rubs below this' }],
        });
        const svg = readXml(drawPlot(request));
        for (const unit of ['mm', 'inch'] as const) {
          const boxes = textBoxes(svg, unit);
          expect(overlaps(boxes)).toEqual([]);
          expect(boxes.filter(({ left, right }) => left < 0 || right > 680)).toEqual([]);
        }
      }),
      { seed: 74, numRuns: 150 },
    );
  });
});

describe('the place of a label', () => {
  const area = { left: 0, right: 100, top: 0, bottom: 100 };
  const spots = [10, 50, 90].map((y) => ({ at: { x: 10, y }, anchor: 'start' as const }));

  it('is the first that is clear of other words and of lines', () => {
    const open = { area, taken: [], segments: [] };
    expect(findSpot(spots, 40, 10, { ...open })).toBe(spots[0]);
    expect(
      findSpot(spots, 40, 10, {
        ...open,
        segments: [
          [
            { x: 0, y: 8 },
            { x: 99, y: 8 },
          ],
        ],
      }),
    ).toBe(spots[1]);
    const over = { left: 0, right: 60, top: 0, bottom: 55 };
    expect(findSpot(spots, 40, 10, { ...open, taken: [over] })).toBe(spots[2]);
  });

  it('is nowhere rather than on other words or outside', () => {
    expect(findSpot(spots, 40, 10, { area, taken: [area], segments: [] })).toBeNull();
    expect(findSpot(spots, 140, 10, { area, taken: [], segments: [] })).toBeNull();
  });

  it('is nearer to the line it names than to any other', () => {
    const own = [
      [
        { x: 0, y: 70 },
        { x: 99, y: 70 },
      ],
    ] as const;
    const other = [
      [
        { x: 0, y: 18 },
        { x: 99, y: 18 },
      ],
    ] as const;
    const spot = findSpot(spots, 40, 10, { area, taken: [], segments: [...own, ...other], own });
    expect(spot).toBe(spots[1]);
  });

  it('tells a line through a box from one beside it', () => {
    const box = { left: 10, right: 20, top: 10, bottom: 20 };
    expect(
      segmentMeets(
        [
          { x: 0, y: 0 },
          { x: 30, y: 30 },
        ],
        box,
      ),
    ).toBe(true);
    expect(
      segmentMeets(
        [
          { x: 0, y: 25 },
          { x: 30, y: 25 },
        ],
        box,
      ),
    ).toBe(false);
    expect(
      segmentMeets(
        [
          { x: 0, y: 15 },
          { x: 9, y: 15 },
        ],
        box,
      ),
    ).toBe(false);
    expect(boxesMeet(box, { left: 20, right: 30, top: 10, bottom: 20 })).toBe(false);
  });
});

describe('the table of a plot', () => {
  it('holds the same values as the curves, ends included', () => {
    const xs = Array.from({ length: 101 }, (_, i) => i);
    const request = plot({
      curves: [
        { label: 'Double', points: xs.map((x) => ({ x, y: 2 * x })) },
        { label: 'Square', points: xs.filter((x) => x <= 50).map((x) => ({ x, y: x * x })) },
      ],
    });
    const { columns, rows } = tabulatePlot(request);
    expect(columns.map(({ title, unit }) => [title, unit])).toEqual([
      ['Length', 'mm'],
      ['Double', 'm/s'],
      ['Square', 'm/s'],
    ]);
    expect(rows.length).toBeLessThanOrEqual(13);
    expect(rows[0]).toEqual([0, 0, 0]);
    expect(rows[rows.length - 1]).toEqual([100, 200, null]);
    for (const [x = null, double, square] of rows) {
      expect(double).toBe(2 * (x ?? Number.NaN));
      expect(square).toBe((x ?? 0) <= 50 ? (x ?? 0) ** 2 : null);
    }
  });

  it('goes by the upright axis where the curves share that', () => {
    const curves = [1, 2].map((slow) => ({
      label: `Law ${slow}`,
      points: [3, 2, 1, 0].map((y) => ({ x: slow * (3 - y), y })),
    }));
    expect(tabulatePlot(plot({ curves }), 'y').rows).toEqual([
      [0, 3, 6],
      [1, 2, 4],
      [2, 1, 2],
      [3, 0, 0],
    ]);
  });
});

it('tells a fine thickness to a thousandth of a millimetre and a ten-thousandth of an inch', () => {
  expect(sayFine(0.0741)).toEqual({ mm: '0.074 mm', inch: '0.0029 in' });
});
