import { describe, expect, it } from 'vitest';
import { type Bench, estimateThrow, supportOf } from '../../src/bench/index.ts';
import { drawingWords } from '../../src/components/lesson/drawing-words.ts';
import { drawChip, drawCut, drawStrip, drawTip } from '../../src/drawing/index.ts';
import { sayIn } from '../../src/words/say.ts';
import { everyElement, pathPoints, readXml } from './read-svg.ts';
import { shippedBenches } from './shipped.ts';
import { overlaps, textBoxes } from './text-boxes.ts';

/*
 * The drawings beside the plots, read back against the mechanics they show. Sums are written out
 * here: circle geometry, and the centre of a straight bar half-way along it.
 */
const naming = { title: 'A drawing', description: 'A drawing made for a test.' };
const TRUNK = 400;

function stripOf(bench: Bench) {
  const thrown = estimateThrow({ ...bench, knife: null }, { closing: bench.blade.kerf });
  if (thrown === null) throw new Error('a closed kerf grips');
  return thrown.strip;
}

const german = { ...naming, wording: drawingWords(sayIn('de')) };

const partOf = (svg: string, part: string) =>
  everyElement(readXml(svg)).filter((one) => one.attributes['data-part'] === part);
const dimensionOf = (svg: string, id: string): number =>
  Number(
    everyElement(readXml(svg)).find((one) => one.attributes['data-measure'] === id)?.attributes[
      'data-mm'
    ],
  );

describe.each(shippedBenches())('on %s', (_name, bench) => {
  const strip = stripOf(bench);
  const drawings = {
    cut: drawCut(bench, naming),
    chip: drawChip(bench, naming),
    strip: drawStrip(bench, strip, TRUNK, naming),
    tip: drawTip(bench, naming),
  };

  it.each(Object.entries(drawings))('the drawing of the %s is sound', (_kind, text) => {
    expect(text).not.toMatch(/NaN|Infinity|undefined|\sstyle=|\sid=/);
    const svg = readXml(text);
    for (const unit of ['mm', 'inch'] as const) expect(overlaps(textBoxes(svg, unit))).toEqual([]);
  });

  it.each([
    ['cut', drawCut(bench, german)],
    ['chip', drawChip(bench, german)],
    ['strip', drawStrip(bench, strip, TRUNK, german)],
    ['tip', drawTip(bench, german)],
  ])('the drawing of the %s has room for German words, and no English ones', (_kind, text) => {
    const svg = readXml(text);
    for (const unit of ['mm', 'inch'] as const) expect(overlaps(textBoxes(svg, unit))).toEqual([]);
    expect(text).not.toMatch(/>(In|Out|Operator|Fence|Keep clear|Centre)\b/);
  });

  it('draws the cut as long on the tooth circle as it is', () => {
    const radius = bench.blade.diameter / 2;
    const { depth } = bench.arbor;
    // the blade meets the stock at its tilt
    const thickness = bench.job.stock.thickness / Math.cos((bench.arbor.tilt * Math.PI) / 180);
    const entry = Math.acos(Math.min(1, (depth + thickness) / radius));
    const scale = Number(readXml(drawings.cut).attributes['data-scale']);
    const points = partOf(drawings.cut, 'cut-arc').flatMap(({ attributes }) =>
      pathPoints(attributes['d'] ?? ''),
    );
    const length = points
      .slice(1)
      .reduce(
        (sum, p, i) => sum + Math.hypot(p.x - (points[i]?.x ?? 0), p.y - (points[i]?.y ?? 0)),
        0,
      );
    expect(length / scale).toBeCloseTo(radius * (Math.acos(depth / radius) - entry), 1);
  });

  it('draws the strip from the blade to the fence, to the edge of the sheet and no end to it', () => {
    expect(dimensionOf(drawings.strip, 'strip')).toBeCloseTo(strip.to - strip.from, 3);
    expect(strip.from).toBeCloseTo(-bench.blade.kerf / 2, 9);
    expect(strip.to).toBeGreaterThanOrEqual(bench.blade.kerf / 2 + bench.fence.face - 1e-9);
    const texts = everyElement(readXml(drawings.strip)).filter(({ name }) => name === 'text');
    expect(texts.map(({ text }) => text)).toContain('Keep clear');
    expect(texts.map(({ text }) => text).join(' ')).not.toMatch(/safe/i);
  });

  it('measures from the edge of the table to the centre of the piece', () => {
    const { tipsBy } = supportOf(bench);
    expect(dimensionOf(drawings.tip, 'stock.tipsBy')).toBeCloseTo(Math.abs(tipsBy), 3);
  });
});
