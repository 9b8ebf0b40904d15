import { type Element, everyElement } from './read-svg.ts';

/** Space a text or balloon takes on the sheet, as laid out for a phone. */
export type Box = { label: string; left: number; right: number; top: number; bottom: number };

/**
 * Advance widths measured in the two faces the site loads: 0.62 of the height for every figure, and
 * at most 0.58 on average over the words the drawings print.
 */
const ADVANCE = { size: 0.62, number: 0.62, word: 0.58 } as const;

export function textBoxes(svg: Element, unit: 'mm' | 'inch'): Box[] {
  const all = everyElement(svg);
  const texts = all
    .filter((one) => one.name === 'text')
    .filter((one) => !(one.attributes['class'] ?? '').includes(unit === 'mm' ? 'inch' : 'mm'))
    .filter((one) => one.attributes['class'] !== 'number')
    .map((one): Box => {
      const kind = (one.attributes['class'] ?? '').split(' ')[0] as keyof typeof ADVANCE;
      const size = Number(one.attributes['font-size']);
      const width = one.text.length * ADVANCE[kind] * size;
      const x = Number(one.attributes['x']);
      const y = Number(one.attributes['y']);
      const anchor = one.attributes['text-anchor'];
      const left = anchor === 'end' ? x - width : anchor === 'middle' ? x - width / 2 : x;
      return {
        label: one.text,
        left,
        right: left + width,
        top: y - size * 0.75,
        bottom: y + size * 0.2,
      };
    });
  const balloons = all
    .filter((one) => one.attributes['class'] === 'balloon-mark')
    .flatMap((mark) =>
      mark.children.filter((one) => one.name === 'circle' && one.attributes['class'] !== 'dot'),
    )
    .map((circle): Box => {
      const [x, y, r] = ['cx', 'cy', 'r'].map((key) => Number(circle.attributes[key])) as [
        number,
        number,
        number,
      ];
      return { label: 'balloon', left: x - r, right: x + r, top: y - r, bottom: y + r };
    });
  return [...texts, ...balloons];
}

export function overlaps(boxes: readonly Box[]): string[] {
  return boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
      .map((b) => `${a.label} and ${b.label}`),
  );
}
