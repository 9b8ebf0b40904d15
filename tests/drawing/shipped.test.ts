import { describe, expect, it } from 'vitest';
import { formatLength } from '../../src/geometry/index.ts';
import { everyElement, readXml } from './read-svg.ts';
import { drawShipped, shippedDrawings } from './shipped.ts';
import { overlaps, textBoxes } from './text-boxes.ts';

const shipped = shippedDrawings();

describe.each(shipped.map((one) => [one.name, one] as const))('the drawing %s', (_, one) => {
  const text = drawShipped(one);
  const svg = readXml(text);
  const all = everyElement(svg);

  it('is well-formed, with a name, a description and a frame', () => {
    expect(svg.name).toBe('svg');
    expect(svg.attributes['role']).toBe('img');
    const [title, description] = svg.children;
    expect(title?.name).toBe('title');
    expect(title?.text.length).toBeGreaterThan(3);
    expect(description?.name).toBe('desc');
    expect(description?.text.length).toBeGreaterThan(10);
    expect(svg.attributes['viewBox']).toMatch(/^0 0 680 [\d.]+$/);
  });

  it('carries nothing the content policy refuses, and no id that could clash', () => {
    const attributes = all.flatMap((element) => Object.keys(element.attributes));
    expect(attributes.filter((key) => /^(style|id|on\w+|href|xlink:href)$/.test(key))).toEqual([]);
    expect(
      all.filter((element) => /^(script|style|image|use|foreignObject)$/.test(element.name)),
    ).toEqual([]);
  });

  it('has a number wherever one belongs', () => {
    expect(text).not.toMatch(/NaN|Infinity|undefined|null/);
  });

  it('shows every dimension asked for, in both units', () => {
    const dimensions = all.filter((element) => element.attributes['class'] === 'dimension');
    const shown = dimensions.map((element) => element.attributes['data-measure']);
    expect([...shown].sort()).toEqual([...(one.request.dimensions ?? [])].sort());
    for (const dimension of dimensions) {
      const mm = Number(dimension.attributes['data-mm']);
      const words = dimension.children.filter((child) => child.name === 'text');
      expect(words.map((child) => [child.attributes['class'], child.text])).toEqual([
        ['size mm', formatLength(mm, 'mm')],
        ['size inch', formatLength(mm, 'inch')],
      ]);
    }
  });

  it('numbers every part asked for', () => {
    const numbers = all
      .filter((element) => element.attributes['class'] === 'balloon-mark')
      .map((element) => Number(element.attributes['data-number']));
    expect(numbers).toEqual((one.request.labels ?? []).map((_part, i) => i + 1));
  });

  it.each(['mm', 'inch'] as const)(
    'lets no text overlap another or leave the sheet, in %s',
    (unit) => {
      const boxes = textBoxes(svg, unit);
      expect(overlaps(boxes)).toEqual([]);
      const [, , width, height] = (svg.attributes['viewBox'] ?? '').split(' ').map(Number) as [
        number,
        number,
        number,
        number,
      ];
      const outside = boxes.filter(
        (box) => box.left < 0 || box.right > width || box.top < 0 || box.bottom > height,
      );
      expect(outside.map((box) => box.label)).toEqual([]);
    },
  );
});
