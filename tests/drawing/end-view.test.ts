import { describe, expect, it } from 'vitest';
import { drawBench } from '../../src/drawing/index.ts';
import { makeBench } from '../helpers/bench.ts';
import { everyElement, partsNamed, pathPoints, readXml } from './read-svg.ts';

/* The end view against the definitions of the bench model: sums are written out here. */

const words = { title: 'A bench', description: 'A bench, drawn for a test.' };
const shapesOf = (depth: number) => {
  const bench = makeBench({ arbor: { depth }, knife: null });
  const svg = readXml(drawBench(bench, { ...words, view: 'end' }));
  return partsNamed(svg, 'stock').flatMap((group) =>
    group.children
      .filter((one) => one.attributes['class']?.startsWith('l-outline') === true)
      .map((one) => pathPoints(one.attributes['d'] ?? '')),
  );
};

describe('the stock from the take-off end', () => {
  // a blade of radius 200 whose axis lies 110 below the table stands 90 up, and the stock is 50 thick
  it('is in two halves where the blade comes through', () => {
    expect(shapesOf(110)).toHaveLength(2);
  });

  // with the axis 185 below the table it stands 15 up
  it('is one piece with a slot as high as the blade where it does not', () => {
    const [piece, ...more] = shapesOf(185);
    expect(more).toEqual([]);
    const slot = piece?.filter(({ x }) => Math.abs(x) < 2.2).map(({ y }) => y);
    expect(slot?.toSorted((a, b) => a - b)).toEqual([0, 0, 15, 15]);
    expect(Math.max(...(piece ?? []).map(({ y }) => y))).toBe(50);
  });
});

describe('the gap under the guard', () => {
  // the guard's edge stands 58 above the table: 8 over stock of 50, 36 over stock of 22
  it.each([50, 22])('has its figure on the sheet over stock of %i mm', (thickness) => {
    const bench = makeBench({ guard: { height: 58 }, job: { stock: { thickness } } });
    const svg = readXml(
      drawBench(bench, { ...words, view: 'end', dimensions: ['guard.clearance'] }),
    );
    const dimension = everyElement(svg).find(
      (one) => one.attributes['data-measure'] === 'guard.clearance',
    );
    const heights = everyElement(dimension as NonNullable<typeof dimension>)
      .filter(({ name }) => name === 'text')
      .map(({ attributes }) => Number(attributes['y']));
    expect(heights.length).toBeGreaterThan(0);
    expect(Math.min(...heights)).toBeGreaterThan(10);
  });
});

describe('the mouth of the table from the take-off end', () => {
  it('spans each gap between the side of the kerf and the insert', () => {
    const bench = makeBench({ insert: { gaps: [2, 5] } });
    const svg = readXml(
      drawBench(bench, {
        ...words,
        view: 'end',
        dimensions: ['insert.gapLeft', 'insert.gapRight'],
      }),
    );
    const spans = everyElement(svg)
      .filter((one) => one.attributes['data-measure']?.startsWith('insert.') === true)
      .map((one) => {
        const line = one.children.find((child) => 'data-stretch' in child.attributes);
        const [from, to] = pathPoints(line?.attributes['d'] ?? '');
        return Math.abs((to?.x ?? 0) - (from?.x ?? 0)) / Number(svg.attributes['data-scale']);
      });
    expect(spans[0]).toBeCloseTo(2, 2);
    expect(spans[1]).toBeCloseTo(5, 2);
  });
});
